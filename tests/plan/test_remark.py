"""What the book remarks on groups, sets, tools, fasteners and failures stands where it helps, and once."""

from __future__ import annotations

from collections.abc import Iterable

from layshaft.book.definition import Failure
from layshaft.plan.step import PlannedStep
from layshaft.plan.wanted import wanted_look, wanted_reading
from tests.plan.axle_box import unit
from tests.plan.test_assembly import OVERTOP, plans

DOWN, UP = plans("overtop")


def having(steps: Iterable[PlannedStep], words: str) -> list[str]:
    found = (step for step in steps if any(words in note for note in step.notes))
    return [step.parts[0] if step.parts else step.load or "" for step in found]


def test_a_group_is_told_as_its_lead_comes_out_with_others() -> None:
    assert having(DOWN.steps, "Lifts as one, hub pack: Grip the inner splines") == ["OT-040"]
    assert having(DOWN.steps, "Lifts as one, output group: Support it first") == ["OT-080"]


def test_what_belongs_together_is_marked_as_the_first_of_it_comes_off() -> None:
    (first,) = having(DOWN.steps, "Mark, they belong together: OT-050, OT-054, OT-060. Paint one tooth of each")
    off = [part for part in DOWN.taken_off if part in ("OT-050", "OT-054", "OT-060", "OT-080")]
    assert first == off[0]
    assert having(DOWN.steps, "Keep together: OT-033. As found, order and face") == ["OT-033"]


def test_a_tool_is_told_of_where_it_is_first_taken_up() -> None:
    for plan in (DOWN, UP):
        for name, tool in OVERTOP.tools.items():
            using = [at for at, step in enumerate(plan.steps) if name in (step.tool, step.support)]
            notes = [(at, note) for at, step in enumerate(plan.steps) for note in step.notes]
            told = [at for at, note in notes if note.startswith(f"Tool, {name}: ")]
            assert told == (using[:1] if tool.about else [])


def test_a_fastener_is_told_with_its_class_and_its_angle() -> None:
    steps = {step.parts[0]: step for step in UP.steps if step.kind == "fit"}
    assert str(steps["OT-011"].torque).startswith("M8 8.8: 22 N·m, oil, star")


def test_a_look_is_asked_for_with_how_the_part_is_known_to_fail() -> None:
    case = unit().parts["AB-02"]
    chipped = Failure(part="AB-02", found="Chips on the magnet.", effect="It whines", look_for="pieces below")
    assert wanted_look(case, "AB-02", "teeth", [0], [chipped]).sentence == (
        "Look at AB-02 Case with wheel, teeth (loupe). Known failure: Chips on the magnet. Look for: pieces below."
    )
    assert wanted_look(case, "AB-02", "teeth", [0]).sentence == "Look at AB-02 Case with wheel, teeth (loupe)."


def test_a_reading_is_asked_for_under_its_load() -> None:
    loaded = unit(("length: {how: micrometer, ", "length: {how: micrometer, load: 50 N, "))
    assert "(micrometer, under 50 N)" in wanted_reading(loaded.parts["AB-02"], "AB-02", "length", [0]).sentence
