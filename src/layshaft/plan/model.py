"""The formulas of mechanics behind the models that a result of a book may name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from layshaft.book.model import MODEL_PLANS, ModelPlan
from layshaft.mechanics import bearing, chain, clutch, fit, oneway, piston, spring
from layshaft.quantity import Dimension


@dataclass(frozen=True, slots=True)
class Model:
    """A formula of mechanics by its name; arguments go in and the figure comes out in the SI."""

    function: Callable[..., Any]
    plan: ModelPlan

    @property
    def dimension(self) -> Dimension:
        """The dimension of what comes out."""
        return self.plan.dimension

    def value(self, of: Mapping[str, float]) -> float:
        """The figure for arguments named as a book names them, with blanks."""
        return float(self.function(**{name.replace(" ", "_"): value for name, value in of.items()}))

    def missing(self, given: Mapping[str, object]) -> tuple[str, ...]:
        """Arguments that have to be given and are not."""
        return self.plan.missing(given)

    def unknown(self, given: Mapping[str, object]) -> tuple[str, ...]:
        """What was given and is no argument."""
        return self.plan.unknown(given)


def _friction_needed_by_sizes(race_radius: float, roller_radius: float, cam_height: float) -> Any:
    return oneway.friction_needed(oneway.strut_angle(race_radius, roller_radius, cam_height))


FUNCTIONS: Mapping[str, Callable[..., Any]] = {
    "chain elongation": chain.elongation,
    "strut angle": oneway.strut_angle,
    "friction needed": _friction_needed_by_sizes,
    "preload force": bearing.preload_force,
    "turning torque": bearing.turning_torque,
    "bearing torque": bearing.bearing_torque,
    "preload change": bearing.preload_change,
    "thermal growth": fit.thermal_growth,
    "growth difference": fit.growth_difference,
    "spring rate": spring.rate,
    "spring force": spring.force,
    "spring energy": spring.stored_energy,
    "spring rate from loads": spring.rate_from_loads,
    "clutch torque": clutch.disc_torque,
    "piston area": piston.area,
    "piston force": piston.force,
    "piston pressure": piston.pressure,
}

MODELS: Mapping[str, Model] = {name: Model(FUNCTIONS[name], plan) for name, plan in MODEL_PLANS.items()}
"""Every model that a book can name, with its formula."""
