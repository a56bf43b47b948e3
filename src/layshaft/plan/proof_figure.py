"""Figures that proofs gave: one that speaks for the unit is a reading of its result, taken off the built unit."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layshaft.book.definition import Job, Proof, Shop, Unit
from layshaft.book.definition.job import Proved
from layshaft.gauging.places import Place, decide_places
from layshaft.plan.figure import Figure
from layshaft.plan.gauge_band import band_of_readings, gauge_of, told_band, worth
from layshaft.plan.proof_outcome import failed_proofs, last_records
from layshaft.quantity import Quantity


def proved_figures(unit: Unit, job: Job, shop: Shop) -> Iterator[Figure]:
    """The figure of each proof that shows a result and did not fail; of two of one result the later in the book."""
    failed = {one.proof for one in failed_proofs(unit, job)}
    records = last_records(job)
    for key, proof in unit.proofs.items():
        record = records.get(key)
        if record is None or record.figure is None or proof.result is None or key in failed:
            continue
        if _is_of_it(unit, proof.result, record.figure):
            yield _figure(proof, proof.result, record, record.figure, shop)


def _is_of_it(unit: Unit, result: str, figure: Quantity) -> bool:
    definition = unit.results[result]
    told = definition.limit or definition.drawn or definition.target
    return told is not None and told.dimension.exponents == figure.dimension.exponents


def _figure(proof: Proof, result: str, record: Proved, typed: Quantity, shop: Shop) -> Figure:
    """A proof names no single gauge: the one of its class that errs most stands for it."""
    places = decide_places((Place("the place", (typed.nominal,)),), "mean", None, 1)
    name, gauge = gauge_of(proof.gauge or "", None, shop, abs(typed.nominal), typed.dimension)
    return Figure(
        part="",
        reading=result,
        piece=0,
        is_new=True,
        value=typed.nominal,
        size=typed.nominal,
        places=(Fraction(typed.nominal),),
        text=typed.text,
        typed=typed.text,
        place="",
        dimension=typed.dimension.name,
        missing=0,
        uncertainty=worth(places, band_of_readings(gauge, (typed,))),
        gauge=name,
        band=told_band(name, gauge, (typed,)),
        by=record.by,
        at=record.at,
    )
