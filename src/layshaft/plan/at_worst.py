"""A load's greatest force and energy in a state, every size along what holds it at its worst: for banners and plans.

`load` judges by drawn sizes, the longest springs and the stiffest rates; what a person is told is the bound.
"""

from __future__ import annotations

from dataclasses import replace

from layshaft.plan.held import held_at
from layshaft.plan.length import Lengths
from layshaft.plan.loaded import Loaded
from layshaft.plan.state import State


def at_worst(lengths: Lengths, state: State, loaded: Loaded) -> Loaded:
    """The load with its greatest figures as outer bounds; a free one, or one that is held just now, as it is."""
    loads = lengths.loads
    if not loaded.is_loaded or (state.session is not None and state.session.load == loaded.load):
        return loaded
    there = set(loads.spring_ids(loaded.load, loads.present(state, loads.bench.gone(state))))
    facts = [fact for fact in loads.springs[loaded.load] if f"{loaded.load} / {fact.part}" in there]
    held = held_at(facts, lengths.in_state(loaded.load, state))
    return replace(
        loaded,
        greatest_force=max(loaded.greatest_force, held.force.high),
        greatest_energy=max(loaded.greatest_energy, held.energy.high),
    )
