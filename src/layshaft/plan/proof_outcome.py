"""How the proofs of a job came out: the last record of each counts, and one that speaks against the unit blocks it.

One that was made before parts of it came off, or were found bad, speaks for nothing and blocks it as well.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from layshaft.book.definition import Job, Proof, Unit
from layshaft.book.definition.job import Proved
from layshaft.book.moment import last_of
from layshaft.plan.proof_moment import ProofMoments
from layshaft.plan.telling import METRIC, Telling
from layshaft.quantity import Limit


@dataclass(frozen=True, slots=True)
class FailedProof:
    """A proof that did not hold, whose figure lies outside its limit, or that something came after."""

    proof: str
    name: str
    sentence: str
    is_overtaken: bool = False
    """Whether it speaks for nothing only because parts of it came off, or were found bad, after it was made."""


def limit_of(unit: Unit, proof: Proof) -> Limit | None:
    """What a proof's figure is held against: its own limit, or that of the result it reads."""
    return proof.limit or (unit.results[proof.result].limit if proof.result else None)


def last_records(job: Job) -> dict[str, Proved]:
    """The record of each proof that counts: the last one of it in the job."""
    found = (last_of(one for one in job.proved if one.proof == proof) for proof in dict.fromkeys(_proofs(job)))
    return {one.proof: one for one in found if one is not None}


def _proofs(job: Job) -> Iterator[str]:
    return (one.proof for one in job.proved)


def failed_proofs(unit: Unit, job: Job, telling: Telling = METRIC) -> tuple[FailedProof, ...]:
    """The proofs that the unit may not be released with, in the book's order."""
    records = last_records(job)
    moments = ProofMoments(unit, job)
    found = []
    for key, proof in unit.proofs.items():
        if key not in records:
            continue
        if why := _against(unit, proof, records[key], telling):
            said = f'The proof "{proof.name}" {why}: find why, mend it and prove again.'
            found.append(FailedProof(key, proof.name, said))
        elif why := moments.overtaken_by(proof, records[key]):
            said = f'The proof "{proof.name}" of {records[key].at} counts no more; since then {why}. Prove it again.'
            found.append(FailedProof(key, proof.name, said, is_overtaken=True))
    return tuple(found)


def borne_out(unit: Unit, job: Job) -> dict[str, str]:
    """Each result that a proof speaks for, with that proof's name; one with a limit has to have given its figure."""
    failed = {one.proof for one in failed_proofs(unit, job)}
    records = last_records(job)
    told: dict[str, str] = {}
    for key, proof in unit.proofs.items():
        if key not in records or key in failed:
            continue
        if proof.result is not None:
            told.setdefault(proof.result, proof.name)
        if limit_of(unit, proof) is None or records[key].figure is not None:
            told |= {name: proof.name for name in proof.settles if name not in told}
    return told


def _against(unit: Unit, proof: Proof, record: Proved, telling: Telling) -> str:
    limit = limit_of(unit, proof)
    figure = record.figure
    is_outside = figure is not None and limit is not None and not limit.contains(figure.nominal)
    told = ""
    if figure is not None:
        told = telling.typed(figure.text, figure.nominal, figure.dimension)
        told += f", {telling.beside(figure.nominal, limit)}" if limit is not None else ""
    if record.outcome == "did not hold":
        more = "; ".join(one for one in (told, (record.words or "").rstrip(".")) if one)
        return f"did not hold{f' ({more})' if more else ''}"
    if is_outside:
        return f"gave {told}{', though it was recorded as held' if record.outcome == 'held' else ''}"
    return ""
