"""Where the force goes: the way that is tight first, in either direction, and only over stops that are whole."""

from __future__ import annotations

import pytest

from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.lack import Lack
from layshaft.plan.load import Loads
from layshaft.plan.reaction import Reaction, ready_state, trace
from layshaft.plan.state import State
from tests.book.overtop import UNITS
from tests.plan.press_box import COLLAR, RELEASE, bench_of, unit

OT5 = UNITS[1]


def traced(*changes: tuple[str, str], release: str = RELEASE, length: float = 0.068) -> Reaction | Lack:
    one = unit(*changes, release=release)
    _, loads = bench_of(one)
    return trace(loads, "box spring", one.loads["box spring"].releases[0], State(), length)


def overtop(load: str, at: int, length: float) -> Reaction:
    bench = Bench(OT5)
    release = OT5.loads[load].releases[at]
    found = trace(Loads(bench, Sizes(OT5)), load, release, State(attitude="nose up"), length)
    assert isinstance(found, Reaction)
    return found


def test_ram_on_the_hub_goes_through_every_bearing_to_the_lock_ring():
    """Followed by hand on the drawing of the invented overdrive: plate, carrier, one-way race, shaft, main bearing."""
    found = overtop("direct spring", 0, 0.068)
    assert found.parts == (
        "OT-040", "OT-041", "OT-051", "OT-053", "OT-054", "OT-059", "OT-070", "OT-074", "OT-080", "OT-081", "OT-082",
        "OT-090",
    )  # fmt: skip
    judged = {bearer.part: bearer.rating for bearer in found.bearers if bearer.is_judged}
    assert judged == {
        "OT-053": 20e3, "OT-059": 20e3, "OT-070": 30e3, "OT-074": 20e3, "OT-081": 15e3, "OT-082": 14e3,
    }  # fmt: skip


def test_ram_on_the_retainer_pushes_the_other_way_and_past_the_ring():
    found = overtop("piston return", 1, 0.015)
    assert found.toward == "front"
    assert found.parts == ("OT-017", "OT-016", "OT-013", "OT-010")


def test_what_is_in_the_way_is_off_before_the_force_is_followed():
    """The bundle lies on the bench: the sun came out of the carrier, so no bearing is in the way of the force."""
    bench = Bench(OT5)
    ready = ready_state(bench, "direct spring", OT5.loads["direct spring"].releases[1], State())
    assert tuple(bench.parts(ready.detached)) == ("OT-050",)
    assert overtop("direct spring", 1, 0.068).parts == ("OT-040", "OT-041", "OT-051")


def test_of_two_ways_the_one_that_is_tight_first_takes_the_force():
    """A ledge that the plate meets before the bearing is seated, and one that it would meet only after."""
    faces = ("post: 36 mm", "post: 36 mm, ledge: LEDGE mm")
    stop = ("stops:\n", "stops:\n  plate on the ledge: {a: PB-01 ledge, b: PB-05 rear, toward: rear, at most: 0 mm}\n")
    for ledge, parts in (
        (103.9, ("PB-03", "PB-02", "PB-05", "PB-01")),
        (104.1, ("PB-03", "PB-02", "PB-05", "PB-06", "PB-01")),
    ):
        found = traced((faces[0], faces[1].replace("LEDGE", str(ledge))), stop)
        assert isinstance(found, Reaction) and found.parts == parts


def test_pushed_part_meets_its_post_at_64_mm():
    """The post is at 36 mm, the plate's front at 107 - 7 = 100 mm: 64 mm is the shortest length."""
    found = traced()
    assert isinstance(found, Reaction)
    assert found.shortest == pytest.approx(0.064)


def test_height_reaches_from_the_pushed_cap_to_the_floor():
    """At 68 mm the cap's front stands at 100 - 68 = 32 mm and the floor at 120 mm."""
    found = traced()
    assert isinstance(found, Reaction)
    assert found.height == pytest.approx(0.088)


def test_rating_of_a_stop_stands_for_parts_without_one():
    stop = "bearing in the box: {a: PB-01 seat, b: PB-06 rear, toward: rear, at most: 0 mm"
    found = traced(("    rating: 20 kN\n", ""), (stop, stop + ", rating: 9 kN"))
    assert isinstance(found, Reaction)
    assert {bearer.part: bearer.rating for bearer in found.bearers}["PB-06"] == pytest.approx(9000.0)


def test_a_push_that_leads_nowhere_is_refused():
    found = traced(COLLAR, release=RELEASE.replace("pushes: PB-03 front", "pushes: PB-07"))
    assert isinstance(found, Lack)
    assert found.sentence == (
        "box spring: the book does not say where the force goes: a push on PB-07 leads to neither seat of the spring. "
        "Needed: a whole way for it. Try: the stops between PB-07 and it."
    )
