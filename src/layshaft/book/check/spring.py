"""A spring's own data: enough to tell what it pushes, of one kind, and not at odds with itself."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from layshaft.book.definition import SpringData
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.spring import Rates, rate_by_test, rate_by_wire, solid_length
from layshaft.quantity import LENGTH, RATE, Show

SHOW = Show()
_RATES = "`rate`; or `wire`, `mean diameter`, `active coils` and `shear modulus`; or `test` and `free length`"
ROUNDED = 0.02
"""By so much of themselves two rates of one spring may miss each other, since figures are rounded (own choice)."""
ROUNDED_WIRE = 0.10
"""The same for a rate from the wire: it goes with the fourth power of the diameter (own choice)."""
_WOUND = ("angular rate", "free angle")
_PRESSED = (
    "free length",
    "wire",
    "mean diameter",
    "active coils",
    "total coils",
    "shear modulus",
    "rate",
    "solid length",
    "test",
)


def check_spring(name: str, data: SpringData) -> Iterator[Fault]:
    """Spring data that no force comes from, that is of another kind of spring, or that contradicts itself."""
    path = ("parts", name, "spring")
    yield from _idle(path, data)
    if data.kind == "torsion":
        if data.angular_rate is None:
            yield fault("spring data", path=path, found=f"{name} without `angular rate`", needed="`angular rate`")
        return
    if data.free_length is None:
        yield fault("spring data", path=path, found=f"{name} without `free length`", needed="`free length`")
    coil = (data.wire, data.mean_diameter, data.active_coils, data.shear_modulus)
    if data.rate is None and not all(coil) and data.test is None:
        yield fault("spring data", path=path, found=f"{name} without what its rate comes from", needed=_RATES)
    yield from _lengths(name, path, data)
    yield from _coils(name, path, data)
    yield from _rates(name, path, data)


def _idle(path: Path, data: SpringData) -> Iterator[Fault]:
    """Keys of the other kind of spring: no force would ever come from them."""
    is_wound = data.kind == "torsion"
    given = {str(field.alias) for key, field in SpringData.model_fields.items() if getattr(data, key) is not None}
    for key in _PRESSED if is_wound else _WOUND:
        if key in given:
            yield fault("key without meaning", path=(*path, key), found=key, where=f"for a spring of kind {data.kind}")


def _lengths(name: str, path: Path, data: SpringData) -> Iterator[Fault]:
    solid, free = solid_length(data), data.free_length
    if free is not None and solid is not None and solid >= free.low:
        yield fault(
            "spring lengths",
            path=path,
            found=f"solid {SHOW.show_exact(solid, LENGTH)}, free {free}",
            part=name,
            needed="a solid length below every free length",
        )
    if free is not None and data.test is not None and data.test.length.high >= free.low:
        yield fault(
            "spring lengths",
            path=(*path, "test"),
            found=f"test at {data.test.length}, free {free}",
            part=name,
            needed="a test length below every free length",
        )
    if data.test is not None and solid is not None and data.test.length.high <= solid:
        yield fault(
            "spring lengths",
            path=(*path, "test"),
            found=f"test at {data.test.length}, solid {SHOW.show_exact(solid, LENGTH)}",
            part=name,
            needed="a test length above the solid length",
        )


def _coils(name: str, path: Path, data: SpringData) -> Iterator[Fault]:
    """Coils within coils and wire within the winding, and a solid length that the wire can have.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., Table 10-1 (from memory): the
    coils count once each, and once more where the ends are not ground; one coil less is own choice.
    """
    if data.wire is not None and data.mean_diameter is not None and data.mean_diameter.low <= data.wire.high:
        found = f"wire {data.wire}, mean diameter {data.mean_diameter}"
        yield _odds(name, (*path, "mean diameter"), found, "a mean diameter above the wire's")
    active, total = data.active_coils, data.total_coils
    if active is not None and total is not None and active.low > total.high:
        found = f"{active} active coils, {total} in all"
        yield _odds(name, (*path, "active coils"), found, "no more active coils than there are")
    if data.solid_length is not None and data.wire is not None and total is not None:
        least, most = (total.low - 1) * data.wire.low, (total.high + 1) * data.wire.high
        if not least <= data.solid_length.high or not data.solid_length.low <= most:
            by_wire = SHOW.show_exact(Fraction(total.nominal * data.wire.nominal), LENGTH)
            found = f"solid length {data.solid_length}, and {by_wire} from {total} coils of {data.wire}"
            yield _odds(name, (*path, "solid length"), found, "a solid length within a coil of the other")


def _rates(name: str, path: Path, data: SpringData) -> Iterator[Fault]:
    told: list[tuple[str, str, Rates, float]] = []
    if data.rate is not None:
        told.append(("rate", f"rate {data.rate}", Rates.of(data.rate), ROUNDED))
    if (wire := rate_by_wire(data)) is not None:
        told.append(("wire", f"{_shown(wire)} from wire and coils", wire, ROUNDED_WIRE))
    if (test := rate_by_test(data)) is not None:
        told.append(("test", f"{_shown(test)} from the load at its length", test, ROUNDED))
    for (_, first, one, near), (key, second, other, far) in combinations(told, 2):
        room = 1 + max(near, far)
        if one.low > other.high * room or other.low > one.high * room:
            yield _odds(name, (*path, key), f"{first}, and {second}", "figures of one and the same spring")


def _shown(rates: Rates) -> str:
    return SHOW.show(rates.nominal, RATE)


def _odds(name: str, path: Path, found: str, needed: str) -> Fault:
    return fault("spring at odds", path=path, found=found, needed=needed, part=name)
