"""What came after a proof: with a part of it taken off or found bad since, it says nothing of the unit any more."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, reduce
from operator import or_

from layshaft.book.definition import Job, Look, Proof, Reading, Unit
from layshaft.book.definition.job import Proved
from layshaft.book.definition.part import ReadingPlan
from layshaft.book.moment import is_before, last_of
from layshaft.book.separation import bits_of
from layshaft.gauging.window import is_inside
from layshaft.plan.bench import Bench
from layshaft.plan.source import Sources
from layshaft.quantity import Limit

_BAD = ("renew", "rework", "ask")
_MOST = 3


@dataclass(frozen=True, slots=True)
class _Event:
    """Something on record of a part that a proof made before it knows nothing of."""

    part: str
    what: str
    at: str | None


class ProofMoments:
    """The records of a job's proofs, held against what came off and was found bad."""

    def __init__(self, unit: Unit, job: Job) -> None:
        self.unit = unit
        self.job = job

    def overtaken_by(self, proof: Proof, record: Proved) -> str:
        """What surely came after a proof among its parts; nothing where it still counts."""
        after = [one for one in self._events if is_before(record.at, one.at)]
        return self._told(self._among(proof, after))

    def assumed(self, proof: Proof, record: Proved) -> str:
        """What is taken for granted of a proof where no moment tells whether it was made before or after."""
        unsettled = [
            one for one in self._events if not is_before(record.at, one.at) and not is_before(one.at, record.at)
        ]
        if not self._among(proof, unsettled):
            return ""
        known = "its moment does not tell" if record.at else "no moment is written"
        return f"Counted as made after its parts were off and looked at: {known}."

    def _among(self, proof: Proof, events: Iterable[_Event]) -> list[_Event]:
        found = list(events)
        parts = self._parts_of(proof) if found else frozenset()
        return [one for one in found if one.part in parts]

    def _parts_of(self, proof: Proof) -> frozenset[str]:
        """What is in when a proof is made: its parts, those of its result, and all that has to go in before them."""
        bench = self._bench
        results = (*((proof.result,) if proof.result else ()), *proof.settles)
        known = frozenset().union(*(self._sources.parts(name) for name in results))
        if not proof.after:
            return frozenset(self.unit.parts) - set(proof.before)
        out, base = bench.mask(proof.before), bench.bit(self.unit.base)
        there, more = 0, bench.mask(proof.after) & ~base
        while more != there:
            there = more
            more |= bench.leaning_on(there) | reduce(or_, (bench.tree.below[at] for at in bits_of(there)), 0)
            more &= ~out & ~base
        return frozenset(bench.parts(there)) | known - set(proof.before)

    @cached_property
    def _bench(self) -> Bench:
        return Bench(self.unit)

    @cached_property
    def _sources(self) -> Sources:
        return Sources(self.unit)

    @cached_property
    def _events(self) -> tuple[_Event, ...]:
        return (*self._done(), *self._looked(), *self._read())

    def _done(self) -> Iterator[_Event]:
        for done in self.job.done:
            part = done.off or done.partly
            if part is not None:
                yield _Event(part, "came off", done.at)
            elif done.seen is not None and done.is_ in ("broken", "missing"):
                yield _Event(done.seen, f"was found {done.is_}", done.at)

    def _kept(self, part: str) -> bool:
        return any(choice.keep == part for choice in self.job.choices)

    def _looked(self) -> Iterator[_Event]:
        """Each look that counts and speaks against its part, unless somebody keeps the part all the same."""
        found: dict[tuple[str, str, int], list[Look]] = {}
        for look in self.job.looks:
            for piece in look.pieces or range(1, self.unit.parts[look.part].count + 1):
                found.setdefault((look.part, look.look, piece), []).append(look)
        for (part, name, _), looks in found.items():
            last = last_of(looks)
            if last is not None and not self._kept(part):
                verdict = self.unit.parts[part].looks[name].grades.get(last.grade)
                if verdict in _BAD:
                    yield _Event(part, f"was found {last.grade} ({name})", last.at)

    def _read(self) -> Iterator[_Event]:
        """Each reading of a part as found that counts and lies outside its limit."""
        found: dict[tuple[str, str, int], list[Reading]] = {}
        for one in self.job.readings:
            if one.part is not None and one.reading is not None and not one.new:
                found.setdefault((one.part, one.reading, one.piece), []).append(one)
        for (part, name, _), readings in found.items():
            last = last_of(readings)
            plan = self.unit.parts[part].readings[name]
            if last is not None and not self._kept(part) and _is_outside(plan, last):
                yield _Event(part, f"was read outside its limit ({name})", last.at)

    def _told(self, events: list[_Event]) -> str:
        first = {one.part: one for one in reversed(events)}
        told = [
            f"{one.part} {self.unit.parts[one.part].name} {one.what} on {one.at}"
            for one in sorted(first.values(), key=lambda one: one.at or "")
        ]
        more = len(told) - _MOST
        return "; ".join([*told[:_MOST], *([f"and {more} more"] if more > 0 else [])])


def _is_outside(plan: ReadingPlan, reading: Reading) -> bool:
    limit: Limit | None = plan.reuse or (plan.new if plan.from_ is None else None)
    if limit is None:
        return False
    figures = [one.nominal for one in reading.figures]
    if plan.decides == "range":
        return len(figures) > 1 and not is_inside(max(figures) - min(figures), limit)
    if plan.decides == "mean" and reading.per == "place":
        return not is_inside(sum(figures, Fraction(0)) / len(figures), limit)
    return any(not is_inside(one, limit) for one in figures)
