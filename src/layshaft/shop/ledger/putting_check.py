"""What a move of putting together asks for before it goes on record, and what keeps it off."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from django.utils import timezone

from layshaft.plan.step import PlannedStep
from layshaft.quantity import LENGTH, TORQUE, QuantityFault, parse_quantity
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.fold import Line
from layshaft.shop.ledger.models import Job
from layshaft.shop.ledger.putting import KINDS, Putting, body_of
from layshaft.shop.ledger.release import stands_against
from layshaft.shop.ledger.standing import standing_of

WRENCH = Fraction(4, 100)
"""How far a typed torque may lie from the book's without a word said: what a hand torque wrench is allowed to err
(from memory: ISO 6789, 4 percent above 10 N·m)."""
MOVED_ON = "The unit, or its plan, has moved on since this page was opened: look at it again."


def putting_of(job: Job) -> Putting:
    """How far a job has been put together by now."""
    return Putting(standing_of(job), timezone.localtime())


def refuse_move(job: Job, line: Line) -> None:
    """Refuse an entry of putting together that the job as it is does not bear out."""
    if line.kind == "released":
        _refuse_release(putting_of(job))
    elif line.kind == "taken out":
        _refuse_apart(putting_of(job), line.body)
    elif line.kind in KINDS:
        putting = putting_of(job)
        step = putting.next
        if step is None or any(line.body.get(key) != value for key, value in body_of(step).items()):
            raise Refused("moved on", MOVED_ON)
        if (line.kind == "prepared") is not (step.kind == "prepare"):
            raise Refused("moved on", MOVED_ON)
        refuse_unready(putting, step, line.body)


def _refuse_release(putting: Putting) -> None:
    if putting.released:
        raise Refused("released", "This unit is released already.")
    against = stands_against(putting)
    if against:
        more = f" And {len(against) - 3} more." if len(against) > 3 else ""
        raise Refused("open", f"It is not released: something is open. {' '.join(against[:3])}{more}")


def _refuse_apart(putting: Putting, body: Mapping[str, Any]) -> None:
    entries = body.get("entries") or ()
    first = next((line.number for line in putting.lines if line.number in entries), None)
    if first is None or tuple(entries) != putting.back_to(first):
        raise Refused("moved on", MOVED_ON)


def refuse_unready(putting: Putting, step: PlannedStep, body: Mapping[str, Any]) -> None:
    """Refuse a move whose conditions nobody has said are met."""
    if step.kind != "prepare" and putting.first_taken_down:
        raise Refused("not taken down", putting.first_taken_down)
    against = putting.against(step)
    if against and not (body.get("anyway") and body.get("words")):
        raise Refused("not ready", f"{' '.join(against)} If it was done all the same, say so and say why.")
    if step.load is not None:
        _refuse_under_load(putting, step, body)
    if step.torque:
        _refuse_torque(putting, step, body)


def _refuse_under_load(putting: Putting, step: PlannedStep, body: Mapping[str, Any]) -> None:
    if step.kind in ("compress", "fit"):
        if not putting.has_plan(step):
            raise Refused("no plan", "There is no plan for this load: stop here, and read why on this page.")
        if not body.get("read"):
            raise Refused("plan not read", "Read the plan of this load first, and say so below it.")
    if step.kind == "compress" and putting.to_line_up(step) and not body.get("lined up"):
        raise Refused("not lined up", f"Say that it is so first: {'; '.join(putting.to_line_up(step))}.")
    unseen = [part for part in putting.to_see_seated(step) if part not in body.get("seated", ())]
    if unseen:
        raise Refused("not seated", f"Not said to be seen seated all round: {', '.join(unseen)}. Let nothing off yet.")
    if step.kind == "let home" and not body.get("in stages"):
        raise Refused("stages", "Let it off in stages, looking at every retainer at each, and say so.")
    asked = putting.depth_asked(step)
    if asked:
        given = [_figure(text, LENGTH, "depth") for text in body.get("depth", ())]
        if len(given) < depths_in(asked):
            raise Refused("depth", f"The depth is missing: {asked}. Type it with its unit.")


def depths_in(asked: str) -> int:
    """How many depths a book asks for: one before and one after, where it says so."""
    return 2 if "before" in asked and "after" in asked else 1


def _refuse_torque(putting: Putting, step: PlannedStep, body: Mapping[str, Any]) -> None:
    if not body.get("torque"):
        raise Refused("torque", f"What was it tightened to? {step.torque}. Type the figure that the wrench was set to.")
    given = _figure(str(body["torque"]), TORQUE, "torque").nominal
    for part in step.parts:
        fastener = putting.stand.unit.parts[part].fastener
        if fastener is None:
            continue
        asked = fastener.torque.nominal
        if abs(given - asked) > asked * WRENCH and not body.get("words"):
            raise Refused("torque", f"The book asks {fastener.torque.text}. Correct it, or say why it is another.")


def _figure(text: str, dimension: Any, what: str) -> Any:
    try:
        return parse_quantity(text, dimension)
    except QuantityFault as fault:
        raise Refused(what, f"The {what} `{text[:40]}` cannot be read: {fault}") from None


def refuse_proof(putting: Putting, step: PlannedStep, body: Mapping[str, Any]) -> None:
    """Refuse the outcome of a proof that has to give a figure and has none."""
    if putting.first_taken_down:
        raise Refused("not taken down", putting.first_taken_down)
    if putting.wants_figure(step) and not body.get("figure"):
        raise Refused("figure", "This proof is one of a figure: type what was read, with its unit.")
    if body.get("outcome") not in ("held", "did not hold"):
        raise Refused("outcome", "Did it hold? Say one or the other.")
