"""The figures of a press plan in one sentence, for the step that uses it: travel, where to stop, force, energy, gauge.

Force, energy and travel go up, room and what may be pressed at most go down, as in the plan itself.
"""

from __future__ import annotations

from layshaft.plan.held import Held
from layshaft.plan.phrase import listed
from layshaft.plan.press import PressPlan
from layshaft.plan.step import Kind
from layshaft.plan.telling import between
from layshaft.quantity import ANGLE, ENERGY, FORCE, LENGTH, PRESSURE, Show


def figures(plan: PressPlan, kind: Kind, show: Show) -> str:
    """What one step under a load has to know of its plan; nothing where no step of this kind moves a load."""
    if plan.left_before_solid is None:
        return _wound(plan, show) if kind in ("hold", "take off", "compress", "fit") else ""
    travel = show.show(plan.travel.high, LENGTH, "up")
    told = _told(plan, kind, show, travel)
    if told and plan.taken.others:
        return f"{listed((plan.load, *plan.taken.others))} add up; lengths are those of {plan.load}. {told}"
    return told


def _told(plan: PressPlan, kind: Kind, show: Show, travel: str) -> str:
    match kind:
        case "hold" | "take off":
            stop = _stop(plan, show, _on(plan, show))
            told = f"Taken up at {_held(plan.stages[0].held, show)}.{stop}{_gauge(plan, show)}"
            return told + (f" To free, margin counted: {travel}." if kind == "take off" else "")
        case "compress" | "fit":
            return f"From free, margin counted: {travel} of travel.{_stop(plan, show)}{_gauge(plan, show)}"
        case "let off":
            return f"To free, margin counted: {travel} of travel."
        case "let home":
            return f"Back to {_held(plan.installed, show)}, on the retainers."
    return ""


def _wound(plan: PressPlan, show: Show) -> str:
    angle = show.show(plan.travel.high, ANGLE, "up")
    return f"Wound: {angle} to free, up to {show.show(plan.greatest.energy.high, ENERGY, 'up')}."


def _on(plan: PressPlan, show: Show) -> str:
    """How far it is to where to stop from where a load hangs, where that is not as in the whole unit."""
    if not plan.hangs_apart:
        return ""
    way = plan.stages[0].held.length.nominal - plan.pressed.length.nominal
    return f", {show.show(way, LENGTH)} from where it hangs now"


def _stop(plan: PressPlan, show: Show, on: str = "") -> str:
    if not plan.over.nominal:
        return ""
    over, most = show.show(plan.over.nominal, LENGTH), show.show(plan.most_over, LENGTH, "down")
    force = show.show(plan.greatest.force.high, FORCE, "up")
    return (
        f" Stop {over} beyond installed, at {_held(plan.pressed, show)}{on}; never more than {most} beyond installed, "
        f"where it pushes with up to {force}."
    )


def _held(held: Held, show: Show) -> str:
    force, energy = show.show(held.force.high, FORCE, "up"), show.show(held.energy.high, ENERGY, "up")
    return f"{show.show(held.length.nominal, LENGTH)} long, up to {force}, up to {energy}"


def _gauge(plan: PressPlan, show: Show) -> str:
    ram = plan.rams[0] if plan.rams else None
    if ram is None:
        return " No press is judged here: a job is, with its shop's." if plan.kind == "press" else ""
    if ram.reading is None or not ram.is_readable:
        return f" The gauge of {ram.press} does not show this force: by stroke or by a load cell."
    return f" Press: {ram.press}, gauge {between(show, ram.reading.low, ram.reading.high, PRESSURE)}."
