"""What is to be minded: no hand where a load is too much for one, and what is said of letting go told as that."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from layshaft.book import load_book
from layshaft.plan.assembly import order_assembly
from layshaft.plan.caution import OWN_THREAD
from layshaft.plan.press_use import DOWN, press_uses, warned
from layshaft.plan.step import Plan
from layshaft.plan.teardown import order_teardown, start_state
from layshaft.quantity import Show
from tests.plan.axle_box import shop
from tests.plan.press_box import bench_of, hand_cover, unit

BOOKS = Path(__file__).parents[2] / "books"
HAND = "cloth or hand"
SAID = "Oil pressure let off first."
THREAD = f"{{kind: own thread, thread engaged: 99 mm, margin: 5 mm, reach: [PB-04], time: 5 min, caution: {SAID}}}"
BY_HAND = (
    "{kind: by hand under cover, reach: [PB-04], limits: {energy: 200 J, speed: 40 m/s}, time: 1 min, margin: 5 mm}"
)


def cautions(plan: Plan) -> list[str]:
    return [caution for step in plan.steps if step.load for caution in step.cautions]


def test_a_load_of_110_joules_on_its_own_thread_is_told_no_hand() -> None:
    bench, loads = bench_of(unit(release=THREAD))
    told = cautions(order_teardown(bench, loads, start_state(bench.unit)))
    assert not any(HAND in caution for caution in told)
    assert any(caution.startswith("Face shield on. Stand clear of the line of the spring") for caution in told)
    assert any("thread engaged to the end of the release" in caution for caution in told)
    assert SAID in told


def test_what_is_said_of_letting_go_is_told_as_that_when_it_is_fitted() -> None:
    bench, loads = bench_of(unit(release=THREAD))
    down = order_teardown(bench, loads, start_state(bench.unit))
    told = cautions(order_assembly(bench, loads, down.taken_off))
    assert f"Of letting it go the book says: {SAID}" in told
    assert SAID not in told


@pytest.mark.parametrize(("own", "is_told"), [("300 J", True), ("0.5 J", False)])
def test_a_hand_is_told_only_within_the_shop_s_limit(own: str, is_told: bool) -> None:
    bench, loads = bench_of(unit(release=BY_HAND))
    start = start_state(bench.unit)
    down = order_teardown(bench, loads, start)
    one = shop("  {}\n").model_copy(update={"hand_cover": hand_cover(own, "50 m/s")})
    uses = press_uses(bench, loads, one, (down, start), (replace(down, steps=()), start), Show())
    told = cautions(warned(down, DOWN, uses))
    assert any(HAND in caution for caution in told) is is_told
    assert any(caution.startswith("Do not start") for caution in told) is not is_told


@pytest.mark.parametrize("name", ["overtop", "twinpath", "layline"])
def test_no_step_of_a_shipped_book_holds_a_hand_where_another_caution_forbids_it(name: str) -> None:
    text = (BOOKS / name / "book.yaml").read_bytes()
    book = load_book(text, "book.yaml")
    for variant in book.variants:
        one = book.unit(variant)
        for load in one.loads.values():
            own = [release for release in load.releases if release.kind == "own thread"]
            said = " ".join(release.caution or "" for release in own) + (load.caution or "" if own else "")
            assert "hand" not in said.replace("hands beside", "").split(), said
    assert not any("nothing is held" in caution for caution in OWN_THREAD)
