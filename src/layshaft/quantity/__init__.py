"""The only door to units: text to exact figures in the SI and back, limits, money, and closed arithmetic.

What is here: `parse_quantity`, `parse_reading`, `parse_limit`, `parse_money`, `parse_expression`, and `Show`
for the way back. What is not: what a figure means for a part (gauging, plan), what steel does (mechanics).

>>> gap = parse_quantity("0.0276 in", LENGTH)
>>> gap.nominal
Fraction(8763, 12500000)
>>> parse_limit("0.50 .. 0.90 mm", LENGTH).contains(gap.nominal)
True
>>> Show().show_both(gap.nominal, LENGTH)
'0.70 mm (0.0276 in)'
>>> stroke = parse_expression("brake clearance - hub gap", ["brake clearance", "hub gap"])
>>> stroke.linear().coefficients
{'brake clearance': Fraction(1, 1), 'hub gap': Fraction(-1, 1)}
"""

from layshaft.quantity.comparison import is_less, is_more, is_over
from layshaft.quantity.dimension import (
    ACCELERATION,
    ANGLE,
    AREA,
    DENSITY,
    ENERGY,
    EXPANSION,
    FORCE,
    FRACTION,
    FREQUENCY,
    LENGTH,
    MASS,
    POWER,
    PRESSURE,
    PURE,
    RATE,
    ROTATIONAL_SPEED,
    SPEED,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    TIME,
    TORQUE,
    TORSION_RATE,
    VOLUME,
    Dimension,
)
from layshaft.quantity.display import Direction, Show
from layshaft.quantity.expression import Expression, parse_expression
from layshaft.quantity.fault import FAULT_IDS, FaultId, QuantityFault, nearest, quote
from layshaft.quantity.limit import Limit, parse_limit
from layshaft.quantity.money import Money, parse_money
from layshaft.quantity.node import Interval, Linear, Value
from layshaft.quantity.quantity import Quantity, parse_quantity, parse_reading
from layshaft.quantity.spelling import find_unit, usual_units
from layshaft.quantity.unit import UNITS, System, Unit

__all__ = [
    "ACCELERATION",
    "ANGLE",
    "AREA",
    "DENSITY",
    "ENERGY",
    "EXPANSION",
    "FAULT_IDS",
    "FORCE",
    "FRACTION",
    "FREQUENCY",
    "LENGTH",
    "MASS",
    "POWER",
    "PRESSURE",
    "PURE",
    "RATE",
    "ROTATIONAL_SPEED",
    "SPEED",
    "TEMPERATURE",
    "TEMPERATURE_DIFFERENCE",
    "TIME",
    "TORQUE",
    "TORSION_RATE",
    "UNITS",
    "VOLUME",
    "Dimension",
    "Direction",
    "Expression",
    "FaultId",
    "Interval",
    "Limit",
    "Linear",
    "Money",
    "Quantity",
    "QuantityFault",
    "Show",
    "System",
    "Unit",
    "Value",
    "find_unit",
    "is_less",
    "is_more",
    "is_over",
    "nearest",
    "parse_expression",
    "parse_limit",
    "parse_money",
    "parse_quantity",
    "parse_reading",
    "quote",
    "usual_units",
]
