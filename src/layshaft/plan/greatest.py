"""The greatest that springs at rest can push with and hold, over the rates and free lengths that their data leave."""

from __future__ import annotations

from layshaft.mechanics import rest, rest_bounds
from layshaft.plan.spring_fact import SpringFact


def greatest(longest: rest.Rest, facts: dict[str, SpringFact]) -> tuple[float, float]:
    """The greatest force [N] and energy [J] of springs at their longest and stiffest; outer bounds where coupled."""
    if longest.is_coupled:
        every = longest.layout.springs
        rates = {spring.id: _rates(facts.get(str(spring.id)), spring.rate) for spring in every}
        found = rest_bounds.bounds(longest.layout, rest_bounds.Spread(rates=rates)).springs
        return sum(found[one].force[1] for one in facts), sum(found[one].energy[1] for one in facts)
    force = energy = 0.0
    for one, fact in facts.items():
        short = max(0.0, fact.free.high - longest.springs[one].length)
        force += fact.rate.high * short
        energy += 0.5 * fact.rate.high * short**2
    return force, energy


def _rates(fact: SpringFact | None, rate: float) -> tuple[float, float]:
    return (fact.rate.low, fact.rate.high) if fact else (rate, rate)
