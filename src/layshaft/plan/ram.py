"""This shop's presses against one load: rating, reading of the gauge, stroke and daylight."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from layshaft.book.definition.shop import Press
from layshaft.mechanics import press as ram
from layshaft.plan.spring_fact import Band
from layshaft.quantity import FORCE, LENGTH, Show, is_more, is_over


@dataclass(frozen=True, slots=True)
class RamFit:
    """What one press does with a load: gauge reading [Pa] with its error, what it cannot show, what it lacks.

    `scale` [Pa] is that of its gauge; `least_shown` [N] is the least force on the work that it shows; `stroke_left` [m]
    is beyond the travel; `room` [m] is what daylight, travel and the unit leave for tool and blocks, where the unit's
    height is known.
    """

    press: str
    rating: float
    reading: Band | None
    is_readable: bool
    scale: float | None
    least_shown: float | None
    stroke_left: float
    room: float | None
    faults: tuple[str, ...]

    @property
    def fits(self) -> bool:
        """Nothing stands against this press."""
        return not self.faults


@dataclass(frozen=True, slots=True)
class RamTask:
    """What a press has to do: force at the pressed length, the most it may come to [N], travel and height [m]."""

    force: Band
    greatest: float
    travel: float
    height: float | None


def fit_rams(presses: Mapping[str, Press], task: RamTask, show: Show) -> tuple[RamFit, ...]:
    """Every press of the shop against a task: what fits comes first, then what shows the force, then the smaller."""
    fits = [_fit(name, press, task, show) for name, press in presses.items()]
    return tuple(sorted(fits, key=lambda fit: (not fit.fits, not fit.is_readable, fit.rating, fit.press)))


def _fit(name: str, press: Press, task: RamTask, show: Show) -> RamFit:
    area, back = press.ram_area.si, press.return_force.si
    reading = _reading(press, task.force)
    is_readable, scale, least = False, None, None
    if press.gauge is not None:
        scale = press.gauge.range_.si
        is_readable = all(ram.is_readable(force, scale, area, back) for force in (task.force.low, task.force.high))
        # Against the weakest return spring and on the largest ram the needle leaves the tenth last.
        least = float(ram.smallest_readable_force(scale, press.ram_area.si_high, press.return_force.si_low))
    stroke_left = press.stroke.si_low - task.travel
    room = None if task.height is None else press.daylight.si_low - task.height - task.travel
    return RamFit(
        name,
        press.rating.si_low,
        reading,
        is_readable,
        scale,
        least,
        stroke_left,
        room,
        _faults(press, task, show, room),
    )


def _faults(press: Press, task: RamTask, show: Show, room: float | None) -> tuple[str, ...]:
    found = []
    if is_more(task.greatest, press.rating.low):
        most = show.show(task.greatest, FORCE, "up")
        found.append(f"the load can come to {most}, above its rating of {press.rating}")
    if is_more(task.travel, press.stroke.low):
        travel = show.show(task.travel, LENGTH, "up")
        found.append(f"its stroke of {press.stroke} is less than the travel of {travel} to free")
    if room is not None and not is_over(press.daylight.low, press.daylight.si_low - room):
        needed = show.show(press.daylight.si_low - room, LENGTH, "up")
        found.append(f"its daylight of {press.daylight} is no more than the {needed} of unit and travel alone")
    return tuple(found)


def _reading(press: Press, force: Band) -> Band | None:
    """What the gauge shows at the least and the greatest force, wider by how wrong it can be."""
    if press.gauge is None:
        return None
    wrong = press.gauge.u95.si_high if press.gauge.u95 is not None else 0.0
    low = ram.gauge_reading(force.low, press.ram_area.si_high, press.return_force.si_low) - wrong
    nominal = ram.gauge_reading(force.nominal, press.ram_area.si, press.return_force.si)
    high = ram.gauge_reading(force.high, press.ram_area.si_low, press.return_force.si_high) + wrong
    return Band(max(0.0, float(low)), float(nominal), float(high))
