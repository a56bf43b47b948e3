"""What would settle a result that is not sure, is outside, cannot be said yet, or stands partly as drawn."""

from __future__ import annotations

import math
from collections.abc import Iterable
from fractions import Fraction

from layshaft.book.definition import Unit
from layshaft.book.size import Form, Leaf, Sizes
from layshaft.gauging.conformity import DEFAULT_CONFIDENCE, probability_inside
from layshaft.plan.figure import listed
from layshaft.plan.judgement import OpenPoint
from layshaft.plan.lacking import readings_of
from layshaft.plan.read_size import READ
from layshaft.plan.reckoning import Reckoner
from layshaft.plan.source import Sources

NO_WAY = (
    "No reading or proof of the book puts a figure in place of the drawn one, and at worst it is outside: give the "
    "book a reading of it, or of its links."
)


def settling(
    unit: Unit,
    reckoner: Reckoner,
    name: str,
    form: Form,
    verdict: str | None,
    missing: tuple[OpenPoint, ...],
    is_sure: bool = False,
) -> tuple[str, ...]:
    """Sentences, the one that helps most first; a proof on the built unit where no reading is left to take.

    Nothing where even the worst case is inside and the book plans nothing that could tell more: no entry could close
    it, and nothing is in doubt.
    """
    if missing:
        return tuple(point.sentence for point in missing)
    if verdict == "outside":
        return (_brought_inside(unit, reckoner, name, form),)
    if verdict == "not sure":
        surer, proof = _surer(unit, reckoner, name, form), _by_proof(unit, name)
        return (surer,) if proof is None or proof in surer else (surer, proof)
    on_the_unit = _on_the_unit(unit, name)
    if is_sure and on_the_unit == NO_WAY:
        return ()
    return (on_the_unit,)


# Outside.


def _brought_inside(unit: Unit, reckoner: Reckoner, name: str, form: Form) -> str:
    """Which other size or new part brings a result inside its limit, as sizes are listed and new parts drawn."""
    limit = unit.results[name].limit
    is_read = any(leaf.from_ == READ for leaf in form.terms)
    links = (reckoner.sizes.chain_form(name) if is_read else form) or Form(0)
    value = _nominal(reckoner, form)
    value += reckoner.sizes.worst_place(name, value, limit)
    linked = list(dict.fromkeys(leaf.part for leaf in links.terms if leaf.part))
    selective = [part for part in linked if unit.parts[part].selective is not None]
    doing = [
        part
        for part in linked
        if limit is not None and any(limit.contains(value + by) for by in _moves(unit, reckoner, links, part))
    ]
    sizes, parts = [one for one in doing if one in selective], [one for one in doing if one not in selective]
    told = [f"Another listed size of {_named(unit, sizes)} brings it inside, if other limits allow."] if sizes else []
    told += [f"A new {_named(unit, parts)} brings it inside, if made as drawn."] if parts else []
    if told:
        return " ".join(told)
    behind = [part for part in unit.parts if part in Sources(unit).parts(name) and unit.parts[part].selective]
    if is_read and behind and not links.terms:
        return f"Try another size of {_named(unit, behind)}, and read it again."
    sized = f"no listed size of {_named(unit, selective)} and " if selective else ""
    again = "Read it again" if is_read else "Read its links again"
    return f"{again}: {sized}no single new part as drawn brings it inside."


def _moves(unit: Unit, reckoner: Reckoner, links: Form, part: str) -> list[Fraction]:
    """By how much a result moves with each other listed size of a part, or with a new one as drawn."""
    leaves = {leaf: count for leaf, count in links.terms.items() if leaf.part == part}
    selective = unit.parts[part].selective
    if selective is None:
        by = Fraction(0)
        for leaf, count in leaves.items():
            now = reckoner.span_of(leaf).nominal
            new = _as_new(unit, leaf)
            by += 0 if new is None else (new - now) * count
        return [by] if by else []
    return [
        (size.nominal - reckoner.span_of(leaf).nominal) * count
        for leaf, count in leaves.items()
        if reckoner.is_read(leaf)
        for size in selective.sizes
    ]


def _as_new(unit: Unit, leaf: Leaf) -> Fraction | None:
    """What a size, or a reading by its name, is of a new part as drawn; nothing where the book does not say."""
    part = unit.parts[leaf.part]
    if leaf.to in part.faces:
        return Sizes(unit).span(leaf).nominal
    plan = part.readings.get(leaf.to)
    return plan.new.middle if plan is not None and plan.new is not None else None


def _nominal(reckoner: Reckoner, form: Form) -> Fraction:
    return sum((reckoner.span_of(leaf).nominal * count for leaf, count in form.terms.items()), Fraction(form.constant))


def _named(unit: Unit, parts: Iterable[str]) -> str:
    return " or ".join(f"{part} {unit.parts[part].name}" for part in dict.fromkeys(parts))


# Not sure.


def _surer(unit: Unit, reckoner: Reckoner, name: str, form: Form) -> str:
    """Finer gauges where they are what the doubt comes from; else what takes a tolerance out of it."""
    limit = unit.results[name].limit
    wide = [leaf for leaf in form.terms if _is_wide(reckoner, leaf)]
    value = _nominal(reckoner, form)
    at_tolerance = _of_tolerances(reckoner, form, wide)
    if not wide or (limit is not None and probability_inside(value, limit, at_tolerance) >= DEFAULT_CONFIDENCE):
        return _finer(unit, reckoner, form)
    parts = dict.fromkeys(leaf.part for leaf in wide if leaf.part)
    what = f"{_named_all(unit, parts)} as drawn or listed" if parts else "a size of the book with its tolerance"
    return f"The doubt is that of {what}, and no finer gauge takes it away. {_on_the_unit(unit, name)}"


def _named_all(unit: Unit, parts: Iterable[str]) -> str:
    return listed([f"{part} {unit.parts[part].name}" for part in parts])


def _is_wide(reckoner: Reckoner, leaf: Leaf) -> bool:
    span = reckoner.span_of(leaf)
    return span.low != span.high


def _of_tolerances(reckoner: Reckoner, form: Form, wide: Iterable[Leaf]) -> float:
    """One standard deviation of all that stands at its tolerance; the pieces of one part all high or low together."""
    by_part: dict[object, float] = {}
    for leaf in wide:
        span = reckoner.span_of(leaf)
        half = abs(float(form.terms[leaf])) * float(span.high - span.low) / 2
        key = (leaf.part, leaf.from_, leaf.to) if leaf.part else leaf
        by_part[key] = by_part.get(key, 0.0) + half / 3
    return math.hypot(*by_part.values())


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
        titles.setdefault(gauge, {})[_title(unit, reckoner, leaf)] = None
    if not titles:
        return "Read its links again with gauges that err less."
    worst = max(titles, key=lambda one: math.hypot(shares[one], owns[one]))
    finer = f"a gauge that errs less than {worst}" if worst else "a gauge that is known"
    return f"Read {'; '.join(titles[worst])} again with {finer}, which leaves most of the doubt."


def _title(unit: Unit, reckoner: Reckoner, leaf: Leaf) -> str:
    if not leaf.part:
        return leaf.to if leaf.from_ == READ else "its links"
    readings = readings_of(unit, leaf)
    what = readings[0] if readings else f"{leaf.from_} to {leaf.to}"
    new = "the new " if (leaf.part, leaf.piece) in reckoner.sizes.changed else ""
    return f"{new}{leaf.part} {unit.parts[leaf.part].name}, {what}"


def _by_proof(unit: Unit, name: str) -> str | None:
    for proof in unit.proofs.values():
        if proof.result == name or name in proof.settles:
            return f'The proof "{proof.name}" settles it on the built unit.'
    return None


def _on_the_unit(unit: Unit, name: str) -> str:
    proof = _by_proof(unit, name)
    if proof is not None:
        return proof
    read = unit.results[name].read
    if read is not None:
        return f"Read it on the built unit ({read.how})."
    return NO_WAY
