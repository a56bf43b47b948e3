"""Proofs that can be made only between two parts, as moves of the order: after some go in, before others do."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import reduce
from operator import or_

from layshaft.book.definition import Proof
from layshaft.plan import sequence
from layshaft.plan.bench import Bench
from layshaft.plan.compile import Compiled


def due_proofs(bench: Bench, opened: frozenset[str]) -> tuple[str, ...]:
    """The proofs that this work asks for: those of what was opened, and those asked for always.

    A proof that has to be made before parts that were never opened cannot be made, and is not asked for.
    """
    return tuple(
        name
        for name, proof in bench.unit.proofs.items()
        if (not proof.when_opened or opened.intersection(proof.when_opened))
        and all(out_with(bench, proof, part, opened) for part in proof.before)
    )


def out_with(bench: Bench, proof: Proof, part: str, opened: frozenset[str]) -> str | None:
    """What has to be out for a proof: the part, or what takes it away from those in it; nothing where it stays in."""
    if part in opened:
        return part
    there = reduce(or_, (bench.chain_masks[name] for name in proof.after), 0)
    above = (bench.names[at] for at in bench.tree.chain(bench.index[part]) if not there >> at & 1)
    return next((name for name in above if name in opened), None)


def with_proofs(compiled: Compiled, proofs: tuple[str, ...]) -> sequence.Problem:
    """The problem with each proof as a move: made when its `before` parts are off and its `after` parts still in."""
    problem = compiled.problem
    first = len(problem.moves)
    waits: dict[str, list[int]] = {}
    extra = []
    for number, name in enumerate(proofs):
        proof = compiled.bench.unit.proofs[name]
        for part in proof.after:
            waits.setdefault(part, []).append(first + number)
        needs = tuple((compiled.move_index[part],) for part in covers(compiled, proof))
        extra.append(sequence.Move(f"proof {name}", (sequence.Way(needs),)))
    moves = [_waiting(move, waits.get(compiled.move_parts[index], ())) for index, move in enumerate(problem.moves)]
    return replace(problem, moves=(*moves, *extra))


def covers(compiled: Compiled, proof: Proof) -> tuple[str, ...]:
    """The parts that go in after a proof."""
    opened = compiled.only or frozenset()
    out = (out_with(compiled.bench, proof, part, opened) for part in proof.before)
    return tuple(dict.fromkeys(part for part in out if part is not None))


def _waiting(move: sequence.Move, proofs: Iterable[int]) -> sequence.Move:
    more = tuple((number,) for number in proofs)
    if not more:
        return move
    return replace(move, ways=tuple(replace(way, needs=(*way.needs, *more)) for way in move.ways))
