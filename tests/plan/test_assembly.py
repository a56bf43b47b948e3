"""What the steps of putting together say: why in that order, what has to line up, which proofs can still be made."""

from __future__ import annotations

from functools import cache

import pytest

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.book.size import Sizes
from layshaft.plan.assembly import order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.happened import Seen, take_down
from layshaft.plan.load import Loads
from layshaft.plan.proof_move import due_proofs
from layshaft.plan.state import Condition
from layshaft.plan.step import Plan
from layshaft.plan.teardown import order_teardown, start_state
from tests.book.overtop import UNITS
from tests.paper.two_jobs import BOOKS

OVERTOP = UNITS[1]
TWINPATH = load_book((BOOKS / "twinpath" / "book.yaml").read_bytes(), "twinpath").unit("TP2")


@cache
def plans(name: str) -> tuple[Plan, Plan]:
    unit: Unit = {"overtop": OVERTOP, "twinpath": TWINPATH}[name]
    bench = Bench(unit)
    loads = Loads(bench, Sizes(unit))
    down = order_teardown(bench, loads, start_state(unit))
    return down, order_assembly(bench, loads, down.taken_off)


def with_note(name: str, words: str) -> list[tuple[str, str]]:
    """The steps of assembly that have these words among their notes."""
    steps = plans(name)[1].steps
    return [
        (step.kind, step.parts[0] if step.parts else step.load or "")
        for step in steps
        if any(words in note for note in step.notes)
    ]


@pytest.mark.parametrize(
    ("name", "words", "where"),
    [
        ("overtop", "Pass the dummy shaft through", ("compress", "direct spring")),
        ("overtop", "Enter the piston's bearing over the hub square", ("fit", "OT-010")),
        ("twinpath", "Turn the pump so that its arm meets the slot", ("fit", "TP-011")),
        ("twinpath", "Collar on the splines, fork in its groove", ("fit", "TP-043")),
    ],
)
def test_what_has_to_line_up_is_told_once_and_where_it_does(name: str, words: str, where: tuple[str, str]) -> None:
    assert with_note(name, words) == [where]


def test_each_sentence_of_an_alignment_ends_by_itself() -> None:
    (note,) = (
        note for step in plans("overtop")[1].steps for note in step.notes if note.startswith("Pass the dummy shaft")
    )
    assert note.endswith(
        "Once the spring is home nothing can be turned to meet it. Tool: dummy shaft. It may have to turn by up to "
        "15 deg. Proved by: Dummy shaft goes in to its mark; face-to-shaft depth recorded."
    )


@pytest.mark.parametrize("name", ["overtop", "twinpath"])
def test_what_is_said_to_go_in_later_does(name: str) -> None:
    steps = plans(name)[1].steps
    place = {part: at for at, step in enumerate(steps) if step.kind == "fit" for part in step.parts}
    told = 0
    for at, step in enumerate(steps):
        for why in step.why if step.kind == "fit" else ():
            part, _, rest = why.partition(" ")
            if "goes in after it" in rest:
                assert place[part] > at, why
                told += 1
                brought = rest.partition(" and brings ")[2].split(" ")[0]
                assert not brought or brought in steps[place[part]].along
    assert told > 20


def test_what_comes_along_is_told_with_what_brings_it() -> None:
    """The fork stays on its rail: it is in the way of nothing until the rail goes in."""
    steps = {step.parts[0]: step for step in plans("twinpath")[1].steps if step.kind == "fit"}
    whys = [why for step in steps.values() for why in step.why]
    assert "TP-043 shift rail goes in after it and brings TP-041 range fork" in whys


def test_a_name_keeps_its_capitals_inside_a_sentence() -> None:
    steps = {step.parts[0]: step for step in plans("overtop")[1].steps if step.kind == "fit"}
    assert steps["OT-010"].why[0] == "OT-011 adapter screw M8x28 goes in after it"


def test_what_a_part_s_own_note_says_is_told_as_it_goes_in() -> None:
    assert with_note("overtop", "it enters two chains") == [("fit", "OT-012")]


def test_a_proof_before_what_was_never_opened_is_not_asked_for() -> None:
    """The direction of the one-way clutch, which can be seen only before bearing and carrier cover it."""
    bench = Bench(OVERTOP)
    buried = "one-way direction before it is buried"
    assert buried in due_proofs(bench, frozenset({"OT-070", "OT-059", "OT-054"}))
    assert buried not in due_proofs(bench, frozenset({"OT-070", "OT-059"}))


def test_warm_parts_cool_once_when_all_is_out() -> None:
    down, up = plans("overtop")
    cooling = [at for at, step in enumerate(down.steps, 1) if step.kind == "prepare" and not step.reads]
    assert cooling == [len(down.steps)] == [down.steps[-1].number]
    assert down.steps[-1].cautions == ("Parts from the wash burn",)
    assert down.steps[-1].why == (
        "takes 60 minutes by itself before OT-010, OT-090, OT-048, OT-080 can be measured",
    )
    assert not any(step.cautions == ("Parts from the wash burn",) for step in up.steps)


@pytest.mark.parametrize(("target", "named"), [("OT-010", ("OT-010",)), ("OT-085", None)])
def test_of_a_few_parts_only_those_cool(target: str, named: tuple[str, ...] | None) -> None:
    bench = Bench(OVERTOP)
    down = order_teardown(bench, Loads(bench, Sizes(OVERTOP)), start_state(OVERTOP), [target])
    cooling = [step.parts for step in down.steps if step.kind == "prepare" and not step.reads]
    off = set(down.taken_off) | {part for step in down.steps for part in step.along}
    wanted = tuple(part for part in OVERTOP.preparations["cooling down"].parts if part in off)
    assert cooling == ([wanted] if wanted else [])
    assert named is None or wanted == named


def test_only_what_came_out_goes_in_again() -> None:
    """With a ring seen broken fewer parts had to come off; nothing else is opened to put those back."""
    bench = Bench(TWINPATH)
    loads = Loads(bench, Sizes(TWINPATH))
    broken = take_down(bench, loads, start_state(TWINPATH), Seen("TP-021", Condition.BROKEN)).state
    down = order_teardown(bench, loads, broken, ["TP-049"])
    up = order_assembly(bench, loads, down.taken_off)
    assert sorted(up.taken_off) == sorted(down.taken_off)
    assert up.is_proved
