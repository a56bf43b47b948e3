"""A load that is taken up in something lifted out stands on the bench: how the unit stands then says nothing of it."""

from __future__ import annotations

from pathlib import Path

from layshaft.book import load_book
from layshaft.book.size import Sizes
from layshaft.plan.assembly import order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.teardown import order_teardown, start_state

TWINPATH = Path(__file__).parents[2] / "books" / "twinpath" / "book.yaml"


def test_a_load_taken_up_on_the_bench_names_no_attitude_of_the_unit() -> None:
    unit = load_book(TWINPATH.read_bytes(), "book.yaml").unit("TP2")
    bench = Bench(unit)
    loads = Loads(bench, Sizes(unit))
    down = order_teardown(bench, loads, start_state(unit))
    up = order_assembly(bench, loads, down.taken_off)
    for plan in (down, up):
        stands = {load: {step.attitude for step in plan.steps if step.load == load} for load in unit.loads}
        assert stands["fork return"] == {""}, "the rail is clamped on the bench"
        assert stands["detent"] and "" not in stands["detent"], "the plug is turned out of the unit"
