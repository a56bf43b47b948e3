"""A small book for the tests of verdicts, results and fits: a shaft in a box with two gaps; invented."""

from __future__ import annotations

from functools import cache

from layshaft.book import load_book
from layshaft.book.definition import Job, Shop, Unit
from layshaft.book.sheet import load_job, load_shop

BOOK = """\
layshaft book: 1
id: gap-box
name: Box with two gaps
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: GB-01
starts: nose up
attitudes: [nose up, nose down]
axes: {main: {start: front, end: rear, start is up: nose up, end is up: nose down}}
variants: {plain: {}}
parts:
  GB-01:
    name: Box
    class: case
    mass: 5 kg
    faces: {front: 0 mm, floor: 40.00 ± 0.05 mm}
    readings:
      depth: {how: depth micrometer, gauge: depth micrometer, from: front, to: floor, new: 39.95 .. 40.05 mm}
      flatness:
        {how: straight-edge and feeler, gauge: feeler, places: 4, new: 0 .. 0.03 mm, reuse: at most 0.08 mm,
         rework: {how: Lap on a flat plate, down to: at most 0.03 mm}}
  GB-02:
    name: Shaft
    class: shaft
    mass: 1 kg
    faces: {front: 0 mm, shoulder: 20.00 ± 0.04 mm, rear: 30.00 ± 0.04 mm}
    ways: [{toward: front, time: 1 min}]
    readings:
      shoulder: {how: micrometer, gauge: micrometer, from: front, to: shoulder}
      length: {how: micrometer, gauge: micrometer, from: front, to: rear}
      journal: {how: micrometer, gauge: micrometer, places: 2, new: 24.98 .. 25.00 mm, reuse: at least 24.95 mm}
  GB-03:
    name: Floor shim (selective)
    class: selective
    mass: 0.01 kg
    faces: {front: 0 mm, rear: 1.00 ± 0.01 mm}
    ways: [{toward: front, time: 1 min}]
    selective: {from: front, to: rear, size tolerance: 0.01 mm, sizes: [0.90 mm, 1.00 mm, 1.10 mm, 1.20 mm]}
    readings: {thickness: {how: micrometer, gauge: micrometer, from: front, to: rear}}
  GB-04:
    name: Shoulder ring (selective)
    class: selective
    mass: 0.01 kg
    faces: {front: 0 mm, rear: 2.00 ± 0.01 mm}
    ways: [{toward: front, time: 1 min}]
    selective: {from: front, to: rear, size tolerance: 0.01 mm, sizes: [1.80 mm, 2.00 mm, 2.20 mm]}
    readings: {thickness: {how: micrometer, gauge: micrometer, from: front, to: rear}}
  GB-05:
    name: Plate
    class: steel plate
    count: 4
    mass: 0.1 kg
    faces: {front: 0 mm, rear: 2.00 ± 0.02 mm}
    ways: [{toward: front, time: 1 min}]
    readings:
      thickness:
        {how: micrometer, gauge: micrometer, from: front, to: rear, new: 1.98 .. 2.02 mm, reuse: at least 1.90 mm}
    looks: {heat: {how: eye, grades: {clean: reuse, straw: measure again, blue: renew}}}
  GB-06:
    name: Carrier
    class: carrier
    mass: 1 kg
    ways: [{toward: front, time: 1 min}]
    readings:
      side clearance: {how: feeler, gauge: feeler, places: 3, new: 0.15 .. 0.50 mm, reuse: at most 0.70 mm}
    looks: {flanks: {how: loupe, grades: {even: reuse, pitted: renew}}}
  GB-07:
    name: Pinion
    class: gear
    count: 3
    mass: 0.1 kg
    lies in: GB-06
    served in: GB-06
    looks: {bore: {how: eye, grades: {clean: reuse, scored: renew, doubtful: measure again}}}
  GB-08: {name: Pin, class: pin, count: 3, mass: 0.1 kg, lies in: GB-06, served in: GB-06}
  GB-09:
    name: Thrust plate
    class: plate
    mass: 0.1 kg
    ways: [{toward: front, time: 1 min}]
    looks: {track: {how: eye, grades: {even: reuse, grooved: renew}}}
  GB-10:
    name: Thrust bearing
    class: bearing
    mass: 0.1 kg
    ways: [{toward: front, time: 1 min}]
    looks: {track: {how: eye, grades: {even: reuse, dented: renew}}}
  GB-11:
    name: Seal
    class: seal
    mass: 0.01 kg
    ways: [{toward: front, time: 1 min}]
    renew: always
  GB-12:
    name: Rotor
    class: rotor
    mass: 0.1 kg
    ways: [{toward: front, time: 1 min}]
    looks: {tip: {how: eye, grades: {sharp: reuse, worn: renew}}}
  GB-13:
    name: Rotor cage
    class: rotor
    mass: 0.1 kg
    ways: [{toward: front, time: 1 min}]
    looks: {bore: {how: eye, grades: {even: reuse, scored: renew}}}
sets:
  thrust: {members: [GB-09, GB-10], rule: renew together}
  rotors: {members: [GB-12, GB-13], rule: keep together}
results:
  floor gap:
    about: Shaft end to the floor
    chain:
      - plus GB-01 front to floor
      - less GB-02 front to rear
      - less GB-03 front to rear
      - less each GB-05 front to rear
    limit: 0.80 .. 1.20 mm
    drawn: 1.0 mm
  shoulder gap:
    about: Shoulder to the stack behind it
    chain:
      - plus GB-01 front to floor
      - less GB-02 front to shoulder
      - less GB-04 front to rear
      - less each GB-05 front to rear
      - less 9 mm
    limit: 0.80 .. 1.40 mm
    drawn: 1.0 mm
  difference:
    about: What is left between the two
    is: shoulder gap - floor gap
    limit: at least -0.20 mm
  share:
    about: A figure that is no sum
    is: floor gap / GB-02 journal
  slackened:
    about: A model
    model: chain elongation
    of: {slack: 'floor gap x 16.5', span: 233.363 mm, length: 800.1 mm}
    limit: at most 0.004627
"""

SHOP = """\
layshaft shop: 1
id: bench
name: Bench for tests
invented: true
revision: 1
dated: 2026-10-01
currency: CUR
labour rate: 90.00 CUR
reference temperature: 20 °C
temperature band: 4 K
gauges:
  feeler 1: {class: feeler, u95: 0.025 mm}
  feeler 2: {class: feeler, u95: 0.005 mm}
  micrometer 1: {class: micrometer, u95: 0.004 mm, due: 2026-11-10}
  depth micrometer 1: {class: depth micrometer, u95: 0.010 mm}
"""

JOB = """\
layshaft job: 1
id: T-1
invented: true
book: {id: gap-box, revision: 1}
shop: {id: bench, revision: 1}
variant: plain
opened: 2026-11-01
today: 2026-11-02
temperature: 20 °C
"""

MEASURED = """\
  - {part: GB-01, reading: depth, figures: [40.00 mm], gauge: depth micrometer 1}
  - {part: GB-02, reading: length, figures: [30.000 mm], gauge: micrometer 1}
  - {part: GB-02, reading: shoulder, figures: [20.000 mm], gauge: micrometer 1}
  - {part: GB-05, reading: thickness, per: piece, figures: [2.00 mm, 2.00 mm, 2.00 mm, 2.00 mm], gauge: micrometer 1}
"""
"""Everything that the two gaps come from, but for the selective parts."""


@cache
def unit() -> Unit:
    """The unit of the small book."""
    return load_book(BOOK, "gap-box.yaml").unit("plain")


@cache
def shop(drawer: str = "") -> Shop:
    """The shop, with a drawer if one is given as text."""
    return load_shop(SHOP + (f"drawer:\n{drawer}" if drawer else ""), "shop.yaml").content


def job(readings: str = "", looks: str = "", more: str = "") -> Job:
    """A job with readings and looks given as items of a list."""
    text = JOB
    for key, items in (("readings", readings), ("looks", looks)):
        if items:
            text += f"{key}:\n{items}"
    return load_job(text + more, "job.yaml").content
