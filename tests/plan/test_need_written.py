"""What the manual says of needs: the nearest part alone, a release on the bench, and a part for each place."""

from __future__ import annotations

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.book.size import Sizes
from layshaft.plan.act import Hold
from layshaft.plan.bench import Bench
from layshaft.plan.happened import Seen, take_down
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge
from layshaft.plan.state import Condition
from layshaft.plan.teardown import order_teardown, start_state
from tests.paper.two_jobs import BOOKS

SMALL = """\
layshaft book: 1
id: capped
name: Capped bore
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: CB-01
starts: nose up
attitudes: [nose up]
axes: {main: {start: front, end: rear, start is up: nose up}}
variants: {plain: {}}
parts:
  CB-01: {name: Case, class: case, mass: 5 kg}
  CB-02: {name: Ring, class: ring, mass: 0.01 kg, ways: [{toward: front, time: 1 min}]}
  CB-03: {name: Cap, class: cap, mass: 0.1 kg, ways: [{toward: front, held by: [CB-02], time: 1 min}]}
  CB-04: {name: Valve, class: valve, mass: 0.1 kg, ways: [{toward: front, behind: NEEDS, time: 1 min}]}
"""


def taken_off(needs: str, is_cap_missing: bool) -> tuple[str, ...]:
    """What comes off to reach the valve."""
    unit = load_book(SMALL.replace("NEEDS", needs), "book.yaml").unit("plain")
    bench = Bench(unit)
    loads = Loads(bench, Sizes(unit))
    state = start_state(unit)
    if is_cap_missing:
        state = take_down(bench, loads, state, Seen("CB-03", Condition.MISSING)).state
    return order_teardown(bench, loads, state, ["CB-04"]).taken_off


def test_with_the_nearest_part_missing_only_what_is_named_beside_it_is_asked_for() -> None:
    for needs in ("[CB-03]", "[CB-03, CB-02]"):
        assert taken_off(needs, is_cap_missing=False) == ("CB-02", "CB-03", "CB-04")
    assert taken_off("[CB-03]", is_cap_missing=True) == ("CB-04",)
    assert taken_off("[CB-03, CB-02]", is_cap_missing=True) == ("CB-02", "CB-04")


def test_a_release_behind_the_base_is_made_on_the_bench() -> None:
    """The fork's spring, captive on its rail: in the case nobody can take it up, on the bench they can."""
    unit: Unit = load_book((BOOKS / "twinpath" / "book.yaml").read_bytes(), "twinpath").unit("TP2")
    (release,) = unit.loads["fork return"].releases
    assert [need.part for need in release.behind] == [unit.base]
    bench = Bench(unit)
    judge = Judge(bench, Loads(bench, Sizes(unit)))
    inside = start_state(unit)
    assert not judge.may_i(inside, Hold("fork return", 0)).is_yes
    plan = order_teardown(bench, judge.loads, inside, ["TP-045"])
    held = next(at for at, step in enumerate(plan.steps) if step.kind == "hold")
    assert "TP-043" in plan.taken_off[:held]
