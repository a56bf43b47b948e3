"""A small book for the press tests: a spring on a plate on a bearing, under a cap and a ring; invented, as all are."""

from __future__ import annotations

from layshaft.book import load_book
from layshaft.book.definition import HandLimit, Unit
from layshaft.book.definition.shop import Press
from layshaft.book.sheet import load_shop
from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.press import PressPlan, Refusal, plan_press

RELEASE = (
    "{kind: press, tool: bridge, pushes: PB-03 front, stands on: PB-01, over: 8 mm, most over: 14 mm, "
    "keep from solid: 2 mm, margin: 5 mm, reach: [PB-04], time: 14 min}"
)
COLLAR = (
    "stops:\n",
    "  PB-07: {name: Collar, class: collar, mass: 1 kg, ways: [{toward: rear, time: 1 min}]}\nstops:\n",
)
"""A change that puts in a part which no stop leads to."""
TEXT = """\
layshaft book: 1
id: press-box
name: Press box
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: PB-01
starts: nose up
attitudes: [nose up, nose down]
axes: {main: {start: front, end: rear, start is up: nose up, end is up: nose down}}
tools: {ring pliers: {}, bridge: {rating: 12 kN}, compressor: {}}
variants: {plain: {}}
parts:
  PB-01: {name: Box, class: case, mass: 5 kg, faces: {groove: 22 mm, post: 36 mm, seat: 107 mm, floor: 120 mm}}
  PB-02:
    name: Spring
    class: spring
    mass: 1 kg
    spring: {kind: helical, free length: 132.3 ± 1.5 mm, rate: 65.693 N/mm, solid length: 57.75 mm}
    ways: [{toward: front, behind: {PB-03: cap}, time: 1 min}]
  PB-03:
    name: Cap
    class: cap
    mass: 0.8 kg
    faces: {front: 0 mm, seat: 0 mm}
    ways: [{toward: front, held by: {PB-04: ring}, time: 1 min}]
  PB-04:
    name: Ring
    class: snap ring
    mass: 0.05 kg
    faces: {front: 0 mm, rear: 2.0 mm}
    ways: [{toward: front, tool: ring pliers, time: 1 min, fit: {note: See it seated all round.}}]
  PB-05:
    name: Plate
    class: thrust plate
    mass: 0.2 kg
    faces: {front: 0 mm, rear: 4.0 mm}
    ways: [{toward: front, behind: {PB-02: spring}, time: 1 min}]
  PB-06:
    name: Bearing
    class: thrust needle bearing
    mass: 0.1 kg
    faces: {front: 0 mm, rear: 3.0 mm}
    rating: 20 kN
    ways: [{toward: front, behind: {PB-05: plate}, time: 1 min}]
stops:
  cap on its ring: {a: PB-01 groove, b: PB-03 front, toward: front, at most: [less PB-04 front to rear], by: [PB-04]}
  cap on the post: {a: PB-01 post, b: PB-03 front, toward: rear, at most: 0 mm}
  plate on the bearing: {a: PB-06 front, b: PB-05 rear, toward: rear, at most: 0 mm}
  bearing in the box: {a: PB-01 seat, b: PB-06 rear, toward: rear, at most: 0 mm}
loads:
  box spring:
    springs: [PB-02]
    seats: [PB-03 seat, PB-05 front]
    could leave: [PB-03]
    confirmed by: [A. Rower, B. Lind]
    releases:
      - RELEASE
"""
SHOP = """\
layshaft shop: 1
id: lane
name: Lane Street Gear
invented: true
revision: 1
dated: 2026-10-01
currency: CUR
labour rate: 90 CUR
presses:
  spring press:
    {ram area: 10 cm², rating: 25 kN, return force: 0.3 kN, stroke: 160 mm, daylight: 900 mm,
     gauge: {range: 25 MPa, step: 0.2 MPa, u95: 0.1 MPa}}
  frame press:
    {ram area: 40 cm², rating: 150 kN, return force: 0.9 kN, stroke: 180 mm, daylight: 1000 mm,
     gauge: {range: 40 MPa, step: 1 MPa, u95: 0.8 MPa}}
"""


def presses(*changes: tuple[str, str]) -> dict[str, Press]:
    """The presses of the test shop, with changes to its text."""
    return load_shop(_changed(SHOP, changes), "lane.yaml").content.presses


def hand_cover(energy: str, speed: str) -> HandLimit | None:
    """What the test shop lets a hand under a cover let go."""
    line = f"hand cover: {{energy: {energy}, speed: {speed}}}\npresses:"
    return load_shop(_changed(SHOP, (("presses:", line),)), "lane.yaml").content.hand_cover


def unit(*changes: tuple[str, str], release: str = RELEASE) -> Unit:
    """The unit, with changes to its text and another release way."""
    return load_book(_changed(TEXT, changes).replace("RELEASE", release), "press-box.yaml").unit("plain")


def bench_of(unit: Unit) -> tuple[Bench, Loads]:
    """The unit made ready."""
    bench = Bench(unit)
    return bench, Loads(bench, Sizes(unit))


def plan(
    *changes: tuple[str, str],
    release: str = RELEASE,
    shop: dict[str, Press] | None = None,
    hand: HandLimit | None = None,
) -> PressPlan | Refusal:
    """The press plan of the unit's one load."""
    bench, loads = bench_of(unit(*changes, release=release))
    return plan_press(bench, loads, "box spring", 0, presses() if shop is None else shop, hand=hand)


def _changed(text: str, changes: tuple[tuple[str, str], ...]) -> str:
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return text
