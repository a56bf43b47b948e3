"""The mechanics models that a result of a book may name, with what goes in and what comes out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

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
class ModelPlan:
    """A model by what it says, its arguments with their dimensions, and the dimension of its figure."""

    about: str
    arguments: Mapping[str, Dimension]
    dimension: Dimension
    optional: frozenset[str] = frozenset()

    def missing(self, given: Mapping[str, object]) -> tuple[str, ...]:
        """Arguments that have to be given and are not."""
        return tuple(name for name in self.arguments if name not in given and name not in self.optional)

    def unknown(self, given: Mapping[str, object]) -> tuple[str, ...]:
        """What was given and is no argument."""
        return tuple(name for name in given if name not in self.arguments)


_SIZES = {"race radius": LENGTH, "roller radius": LENGTH, "cam height": LENGTH}
_WIRE = {"shear modulus": PRESSURE, "wire": LENGTH, "mean diameter": LENGTH, "active coils": PURE}

MODEL_PLANS: Mapping[str, ModelPlan] = {
    "chain elongation": ModelPlan(
        "How much longer a chain has become, from the slack of its run.",
        {"slack": LENGTH, "span": LENGTH, "length": LENGTH},
        PURE,
    ),
    "strut angle": ModelPlan("The angle at which a roller wedges in a one-way clutch.", _SIZES, ANGLE),
    "friction needed": ModelPlan("The friction that a one-way clutch of these sizes needs to hold.", _SIZES, PURE),
    "preload force": ModelPlan(
        "What a preload told as a length pushes.", {"interference": LENGTH, "stiffness": RATE}, FORCE
    ),
    "turning torque": ModelPlan(
        "What a preloaded pair of bearings takes to turn.",
        {"preload": FORCE, "torque per force": TORQUE_PER_FORCE, "seal drag": TORQUE},
        TORQUE,
        frozenset({"seal drag"}),
    ),
    "bearing torque": ModelPlan(
        "What is left of a turning torque without the seal.", {"read torque": TORQUE, "seal drag": TORQUE}, TORQUE
    ),
    "preload change": ModelPlan(
        "How a preload changes when shaft and case get warm.",
        {"span": LENGTH, "shaft expansion": EXPANSION, "case expansion": EXPANSION, "rise": TEMPERATURE_DIFFERENCE},
        LENGTH,
    ),
    "thermal growth": ModelPlan(
        "How much a length grows when it gets warm.",
        {"length": LENGTH, "expansion": EXPANSION, "rise": TEMPERATURE_DIFFERENCE},
        LENGTH,
    ),
    "growth difference": ModelPlan(
        "How much more the outer of two parts grows than the inner.",
        {"length": LENGTH, "outer expansion": EXPANSION, "inner expansion": EXPANSION, "rise": TEMPERATURE_DIFFERENCE},
        LENGTH,
    ),
    "spring rate": ModelPlan("The rate of a coil spring from its wire.", _WIRE, RATE),
    "spring force": ModelPlan(
        "What a spring pushes at a length.", {"rate": RATE, "free length": LENGTH, "length": LENGTH}, FORCE
    ),
    "spring energy": ModelPlan(
        "What a spring holds at a length.", {"rate": RATE, "free length": LENGTH, "length": LENGTH}, ENERGY
    ),
    "spring rate from loads": ModelPlan(
        "The rate of a spring from two lengths and the loads there.",
        {"length 1": LENGTH, "load 1": FORCE, "length 2": LENGTH, "load 2": FORCE},
        RATE,
    ),
    "clutch torque": ModelPlan(
        "What a pack of plates holds.",
        {"faces": PURE, "friction": PURE, "clamp": FORCE, "effective radius": LENGTH},
        TORQUE,
    ),
    "piston area": ModelPlan(
        "The area that oil presses on.", {"bore": LENGTH, "rod": LENGTH}, AREA, frozenset({"rod"})
    ),
    "piston force": ModelPlan(
        "What a piston pushes.",
        {"pressure": PRESSURE, "area": AREA, "opposing": FORCE},
        FORCE,
        frozenset({"opposing"}),
    ),
    "piston pressure": ModelPlan(
        "The pressure that a piston needs for a push.",
        {"force": FORCE, "area": AREA, "opposing": FORCE},
        PRESSURE,
        frozenset({"opposing"}),
    ),
}
"""The closed list: a book can name no other."""

MODEL_HEAD = "| model | given | gives | what it says |\n| --- | --- | --- | --- |\n"


def model_table() -> str:
    """The manual's table of models."""
    return MODEL_HEAD + "".join(_row(name, plan) for name, plan in MODEL_PLANS.items())


def _row(name: str, plan: ModelPlan) -> str:
    given = ", ".join(
        f"`{argument}` ({dimension.name}{', may be left out' if argument in plan.optional else ''})"
        for argument, dimension in plan.arguments.items()
    )
    return f"| `{name}` | {given} | {plan.dimension.name} | {plan.about} |\n"
