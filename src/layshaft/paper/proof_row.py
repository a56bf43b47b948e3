"""What a sheet says of the proofs: each with its limit and what it gave, and what is left of them before release."""

from __future__ import annotations

from typing import Any

from layshaft.book.definition import Proof
from layshaft.book.definition.job import Proved
from layshaft.paper.wording import counted
from layshaft.plan.proof_moment import ProofMoments
from layshaft.plan.proof_outcome import last_records, limit_of
from layshaft.plan.rebuild import Rebuild
from layshaft.plan.telling import Telling

Row = dict[str, Any]


def due_proofs(rebuilt: Rebuild) -> list[str]:
    """The proofs that this work asks for, in the order in which they come."""
    return [step.proof for step in rebuilt.assembly.steps if step.proof]


def to_release(rebuilt: Rebuild) -> str:
    """What stands between a unit of which nothing is open and its release."""
    names = due_proofs(rebuilt)
    left = len(set(names) - set(last_records(rebuilt.job)))
    if left:
        proofs = counted(left, "proof is", "proofs are")
        return f"Nothing is open; {proofs} still to be made and written down before the unit is released."
    proofs = f"{counted(len(names), 'proof has', 'proofs have')} held, and " if names else ""
    return f"Nothing is open; {proofs}the signatures at the end release the unit."


def proof_rows(rebuilt: Rebuild, telling: Telling) -> list[Row]:
    """Each proof that is due, with its record where there is one."""
    done = last_records(rebuilt.job)
    moments = ProofMoments(rebuilt.unit, rebuilt.job)
    return [_row(rebuilt, rebuilt.unit.proofs[name], done.get(name), telling, moments) for name in due_proofs(rebuilt)]


def _row(rebuilt: Rebuild, proof: Proof, done: Proved | None, telling: Telling, moments: ProofMoments) -> Row:
    limit = limit_of(rebuilt.unit, proof)
    found, by, on, words = "", "", "", ""
    if done is not None:
        figure = done.figure.text if done.figure else _read_on_it(rebuilt, proof)
        found = " ".join(word for word in (figure, done.outcome or "") if word)
        person = rebuilt.shop.people.get(done.by or "")
        by, on, words = person.name if person else done.by or "", done.at or "", _words(proof, done, moments)
    return {
        "name": proof.name,
        "how": proof.how,
        "proves": proof.proves,
        "not": proof.does_not_prove,
        "label": "limit" if limit else "expect",
        "limit": telling.limit(limit) if limit else proof.expects or "",
        "count": _plates(rebuilt, proof),
        "found": found,
        "by": by,
        "on": on,
        "words": words,
        "caution": proof.caution or "",
    }


def _words(proof: Proof, done: Proved, moments: ProofMoments) -> str:
    """What was said of it, and what its moment comes to beside what came off."""
    why = moments.overtaken_by(proof, done)
    counts = f"Counts no more; since then {why}." if why else moments.assumed(proof, done)
    return " ".join(one for one in (done.words or "", counts) if one)


def _read_on_it(rebuilt: Rebuild, proof: Proof) -> str:
    """What the built unit was read at, where a proof's own record has no figure."""
    read = [one for one in rebuilt.job.readings if one.new and one.result and one.result == proof.result]
    return ", ".join(figure.text for figure in read[-1].figures) if read else ""


def _plates(rebuilt: Rebuild, proof: Proof) -> str:
    """For a proof that counts: how many of what, and how high together."""
    if proof.result is None or rebuilt.unit.results[proof.result].limit is not None:
        return ""
    parts = [(name, rebuilt.unit.parts[name].count) for name in proof.after]
    several = [f"{count} {name}" for name, count in parts if count > 1]
    if not several:
        return ""
    value = rebuilt.results[proof.result]
    return f"{', '.join(several)}; {value.sentence.rstrip('.')}"
