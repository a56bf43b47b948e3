"""A small book for fits that rest on expressions: shims beside a wheel, a backlash, a depth; invented."""

from __future__ import annotations

from functools import cache

from layshaft.book import load_book
from layshaft.book.definition import Job, Shop, Unit
from layshaft.book.sheet import load_job, load_shop
from layshaft.plan.fit import Fit, choose_fit
from layshaft.plan.measured import Measured
from layshaft.plan.verdict import judge

BOOK = """\
layshaft book: 1
id: axle-box
name: Box with a wheel between shims
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: AB-01
starts: nose up
attitudes: [nose up, nose down]
axes: {cross: {start: left, end: right, start is up: nose up, end is up: nose down}}
variants: {plain: {}}
parts:
  AB-01:
    name: Housing
    class: housing
    mass: 5 kg
    faces: {left: 0 mm, centre: 45.00 ± 0.02 mm, right: 100.00 ± 0.03 mm}
    readings:
      width: {how: inside micrometer, gauge: inside micrometer, from: left, to: right}
      front to centre: {how: bore gauge, gauge: height gauge, new: 144.97 .. 145.03 mm}
  AB-02:
    name: Case with wheel
    class: case
    mass: 2 kg
    faces: {left: 0 mm, wheel: 30.00 ± 0.02 mm, right: 97.06 ± 0.03 mm}
    ways: [{toward: right, time: 1 min}]
    readings: {length: {how: micrometer, gauge: micrometer, from: left, to: right}}
    looks: {teeth: {how: loupe, grades: {even: reuse, chipped: renew}}}
  AB-03:
    name: Left shim
    class: shim
    mass: 0.01 kg
    faces: &shim {left: 0 mm, right: 1.50 ± 0.01 mm}
    ways: [{toward: left, time: 1 min}]
    selective: &sizes
      {from: left, to: right, size tolerance: 0.005 mm, sizes: [1.40 mm, 1.45 mm, 1.50 mm, 1.55 mm, 1.60 mm]}
    readings: &thickness {thickness: {how: micrometer, gauge: micrometer, from: left, to: right}}
  AB-04:
    name: Right shim
    class: shim
    mass: 0.01 kg
    faces: *shim
    ways: [{toward: right, time: 1 min}]
    selective: *sizes
    readings: *thickness
  AB-05:
    name: Depth shim
    class: shim
    mass: 0.01 kg
    faces: {left: 0 mm, right: 1.00 ± 0.01 mm}
    ways: [{toward: left, time: 1 min}]
    selective:
      {from: left, to: right, size tolerance: 0.005 mm, sizes: [0.90 mm, 0.95 mm, 1.00 mm, 1.05 mm, 1.10 mm]}
    readings: *thickness
  AB-06:
    name: Pinion
    class: pinion
    mass: 1 kg
    faces: {back: 0 mm, head: 90.00 ± 0.02 mm}
    ways: [{toward: left, time: 1 min}]
    readings:
      height: {how: height gauge, gauge: height gauge, from: back, to: head}
      etched: {how: as etched on the head, gauge: eye, new: -0.10 .. 0.10 mm}
results:
  side play:
    about: Between the case and its seats
    chain:
      - plus AB-01 left to right
      - less AB-03 left to right
      - less AB-02 left to right
      - less AB-04 left to right
    limit: preload 0.03 .. 0.09 mm
    drawn: -0.06 mm
  wheel place:
    about: How far the wheel stands right of where it is drawn
    chain:
      - plus AB-03 left to right
      - plus AB-02 left to wheel
      - plus 13.50 mm, flank to centre
      - less AB-01 left to centre
    drawn: 0.00 mm
  backlash:
    about: Between wheel and pinion
    is: 0.15 mm + 0.7 x wheel place
    limit: 0.10 .. 0.20 mm
    drawn: 0.15 mm
  depth:
    about: From the cross axis to the pinion's head, less the etched figure
    is: AB-01 front to centre + AB-05 thickness - AB-06 height - AB-06 etched
    limit: 55.96 .. 56.04 mm
    drawn: 56.00 mm
"""

READ_DIRECTLY = "\n    drawn: 0.15 mm\n    read: {how: dial on a tooth, gauge: dial}"
"""What makes the backlash one that is read straight off the unit: in place of the first line's end."""

SHOP = """\
layshaft shop: 1
id: bench
name: Bench for tests
invented: true
revision: 1
dated: 2026-10-01
currency: CUR
labour rate: 90.00 CUR
gauges:
  micrometer 1: {class: micrometer, u95: 0.004 mm}
  inside micrometer 1: {class: inside micrometer, u95: 0.006 mm}
  height gauge 1: {class: height gauge, u95: 0.006 mm}
  eye: {class: eye, u95: 0.005 mm}
"""

JOB = """\
layshaft job: 1
id: T-2
invented: true
book: {id: axle-box, revision: 1}
shop: {id: bench, revision: 1}
variant: plain
opened: 2026-11-01
today: 2026-11-02
"""

SIDES = """\
  - {part: AB-01, reading: width, figures: [100.000 mm], gauge: inside micrometer 1}
  - {part: AB-02, reading: length, figures: [97.060 mm], gauge: micrometer 1}
"""
DEPTH = """\
  - {part: AB-01, reading: front to centre, figures: [145.000 mm], gauge: height gauge 1}
  - {part: AB-06, reading: height, figures: [90.000 mm], gauge: height gauge 1}
  - {part: AB-06, reading: etched, figures: [0.00 mm], gauge: eye}
"""
FULL = (
    "  AB-03: {sizes: {1.45 mm: 1, 1.50 mm: 1, 1.55 mm: 1}}\n  AB-04: {sizes: {1.45 mm: 1, 1.50 mm: 1, 1.55 mm: 1}}\n"
)
DEPTHS = "  AB-05: {sizes: {0.90 mm: 1, 0.95 mm: 1, 1.00 mm: 1, 1.05 mm: 1, 1.10 mm: 1}}\n"


@cache
def unit(*changes: tuple[str, str]) -> Unit:
    """The unit of the small book, with pieces of its text put in place of others."""
    text = BOOK
    for before, after in changes:
        assert before in text, before
        text = text.replace(before, after)
    return load_book(text, "axle-box.yaml").unit("plain")


@cache
def shop(drawer: str) -> Shop:
    """The shop of the tests with this drawer."""
    return load_shop(f"{SHOP}drawer:\n{drawer}", "shop.yaml").content


def job(readings: str, more: str = "") -> Job:
    """A job with these readings."""
    text = f"{JOB}readings:\n{readings}" if readings else JOB
    return load_job(text + more, "job.yaml").content


def fitted(
    readings: str, drawer: str, *changes: tuple[str, str], opened: frozenset[str] | None = None, more: str = ""
) -> Fit:
    """The fit of the small unit."""
    of, one = unit(*changes), shop(drawer)
    measured = Measured(of, job(readings, more), one)
    return choose_fit(of, measured, one, judge(of, measured.job, one, None, measured), opened=opened)
