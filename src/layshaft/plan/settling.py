"""What would settle a result that is not sure, is outside, cannot be said yet, or stands partly as drawn."""

from __future__ import annotations

import math

from layshaft.book.definition import Unit
from layshaft.book.size import Form, Leaf
from layshaft.plan.judgement import OpenPoint
from layshaft.plan.lacking import readings_of
from layshaft.plan.read_size import READ
from layshaft.plan.reckoning import Reckoner


def settling(
    unit: Unit,
    reckoner: Reckoner,
    name: str,
    form: Form,
    verdict: str | None,
    missing: tuple[OpenPoint, ...],
) -> tuple[str, ...]:
    """Sentences, the one that helps most first; a proof on the built unit where no reading is left to take."""
    if missing:
        return tuple(point.sentence for point in missing)
    if verdict == "outside":
        return (_other_size(unit, form),)
    if verdict == "not sure":
        return (_finer(unit, reckoner, form),)
    return (_on_the_unit(unit, name),)


def _other_size(unit: Unit, form: Form) -> str:
    parts = dict.fromkeys(leaf.part for leaf in form.terms if leaf.part and unit.parts[leaf.part].selective)
    if parts:
        named = " or ".join(f"{part} {unit.parts[part].name}" for part in parts)
        return f"Choose another size of {named}, or read its links again."
    return "Read its links again; renew what is out of its limit."


def _finer(unit: Unit, reckoner: Reckoner, form: Form) -> str:
    """The gauge that leaves most of the doubt, and what it was read with; what its readings share adds up."""
    shares: dict[str | None, float] = {}
    owns: dict[str | None, float] = {}
    titles: dict[str | None, dict[str, None]] = {}
    for leaf, count in form.terms.items():
        doubt = reckoner.doubt_of(leaf)
        if doubt is None:
            continue
        gauge = doubt.gauge
        shares[gauge] = shares.get(gauge, 0.0) + float(count) * doubt.bias
        owns[gauge] = math.hypot(owns.get(gauge, 0.0), float(count) * doubt.own)
        titles.setdefault(gauge, {})[_title(unit, leaf)] = None
    if not titles:
        return "Read its links again with gauges that err less."
    worst = max(titles, key=lambda one: math.hypot(shares[one], owns[one]))
    finer = f"a gauge that errs less than {worst}" if worst else "a gauge that is known"
    return f"Read {'; '.join(titles[worst])} again with {finer}, which leaves most of the doubt."


def _title(unit: Unit, leaf: Leaf) -> str:
    if not leaf.part:
        return leaf.to if leaf.from_ == READ else "its links"
    readings = readings_of(unit, leaf)
    what = readings[0] if readings else f"{leaf.from_} to {leaf.to}"
    return f"{leaf.part} {unit.parts[leaf.part].name}, {what}"


def _on_the_unit(unit: Unit, name: str) -> str:
    for proof in unit.proofs.values():
        if proof.result == name:
            return f'The proof "{proof.name}" settles it on the built unit.'
    read = unit.results[name].read
    if read is not None:
        return f"Read it on the built unit ({read.how})."
    return "No reading of the book puts a figure in place of the drawn one; the maker's data have it."
