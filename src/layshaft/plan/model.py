"""The mechanics models that a result of a book may name, with the dimensions of what goes in and what comes out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from layshaft.mechanics import bearing, chain, clutch, fit, oneway, piston, spring
from layshaft.quantity import (
    ANGLE,
    AREA,
    ENERGY,
    EXPANSION,
    FORCE,
    LENGTH,
    PRESSURE,
    PURE,
    RATE,
    TEMPERATURE_DIFFERENCE,
    TORQUE,
    Dimension,
)

TORQUE_PER_FORCE = LENGTH


@dataclass(frozen=True, slots=True)
class Model:
    """A formula of mechanics by its name; arguments go in and the figure comes out in the SI."""

    function: Callable[..., Any]
    arguments: Mapping[str, Dimension]
    dimension: Dimension
    optional: frozenset[str] = frozenset()

    def value(self, of: Mapping[str, float]) -> float:
        """The figure for arguments named as a book names them, with blanks."""
        return float(self.function(**{name.replace(" ", "_"): value for name, value in of.items()}))

    def missing(self, given: Mapping[str, object]) -> tuple[str, ...]:
        """Arguments that have to be given and are not."""
        return tuple(name for name in self.arguments if name not in given and name not in self.optional)

    def unknown(self, given: Mapping[str, object]) -> tuple[str, ...]:
        """What was given and is no argument."""
        return tuple(name for name in given if name not in self.arguments)


_SIZES = {"race radius": LENGTH, "roller radius": LENGTH, "cam height": LENGTH}
_WIRE = {"shear modulus": PRESSURE, "wire": LENGTH, "mean diameter": LENGTH, "active coils": PURE}


def _friction_needed_by_sizes(race_radius: float, roller_radius: float, cam_height: float) -> Any:
    return oneway.friction_needed(oneway.strut_angle(race_radius, roller_radius, cam_height))


MODELS: Mapping[str, Model] = {
    "chain elongation": Model(chain.elongation, {"slack": LENGTH, "span": LENGTH, "length": LENGTH}, PURE),
    "strut angle": Model(oneway.strut_angle, _SIZES, ANGLE),
    "friction needed": Model(_friction_needed_by_sizes, _SIZES, PURE),
    "preload force": Model(bearing.preload_force, {"interference": LENGTH, "stiffness": RATE}, FORCE),
    "turning torque": Model(
        bearing.turning_torque,
        {"preload": FORCE, "torque per force": TORQUE_PER_FORCE, "seal drag": TORQUE},
        TORQUE,
        frozenset({"seal drag"}),
    ),
    "bearing torque": Model(bearing.bearing_torque, {"read torque": TORQUE, "seal drag": TORQUE}, TORQUE),
    "preload change": Model(
        bearing.preload_change,
        {
            "span": LENGTH,
            "shaft expansion": EXPANSION,
            "case expansion": EXPANSION,
            "rise": TEMPERATURE_DIFFERENCE,
        },
        LENGTH,
    ),
    "thermal growth": Model(
        fit.thermal_growth, {"length": LENGTH, "expansion": EXPANSION, "rise": TEMPERATURE_DIFFERENCE}, LENGTH
    ),
    "growth difference": Model(
        fit.growth_difference,
        {
            "length": LENGTH,
            "outer expansion": EXPANSION,
            "inner expansion": EXPANSION,
            "rise": TEMPERATURE_DIFFERENCE,
        },
        LENGTH,
    ),
    "spring rate": Model(spring.rate, _WIRE, RATE),
    "spring force": Model(spring.force, {"rate": RATE, "free length": LENGTH, "length": LENGTH}, FORCE),
    "spring energy": Model(spring.stored_energy, {"rate": RATE, "free length": LENGTH, "length": LENGTH}, ENERGY),
    "spring rate from loads": Model(
        spring.rate_from_loads, {"length 1": LENGTH, "load 1": FORCE, "length 2": LENGTH, "load 2": FORCE}, RATE
    ),
    "clutch torque": Model(
        clutch.disc_torque, {"faces": PURE, "friction": PURE, "clamp": FORCE, "effective radius": LENGTH}, TORQUE
    ),
    "piston area": Model(piston.area, {"bore": LENGTH, "rod": LENGTH}, AREA, frozenset({"rod"})),
    "piston force": Model(
        piston.force, {"pressure": PRESSURE, "area": AREA, "opposing": FORCE}, FORCE, frozenset({"opposing"})
    ),
    "piston pressure": Model(
        piston.pressure, {"force": FORCE, "area": AREA, "opposing": FORCE}, PRESSURE, frozenset({"opposing"})
    ),
}
"""The closed list: a book can name no other."""
