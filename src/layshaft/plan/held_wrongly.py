"""A load that is held while the unit stands otherwise than its release way asks: what it can be let off onto."""

from __future__ import annotations

from dataclasses import replace

from layshaft.plan.loaded import is_in_doubt
from layshaft.plan.may import Judge
from layshaft.plan.state import State


def rests_wrongly_held(judge: Judge, state: State) -> bool:
    """Whether a load is held otherwise than the unit has to stand, and what is still on surely holds it once let off.

    Then it is let off onto that before anything else: no retainer comes off as it stands.
    """
    session = state.session
    if session is None or judge.stands_wrong(state, session.load, session.release) is None:
        return False
    let_off = replace(state, session=None)
    now, surely = judge.loads.could_be_loaded(let_off), judge.loads.surely_held(let_off)
    is_sure = not any(is_in_doubt(one, surely[name]) for name, one in now.items())
    return is_sure and now[session.load].is_loaded
