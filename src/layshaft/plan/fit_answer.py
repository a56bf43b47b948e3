"""What was found for one question of a fit: what is taken, what has to be bought for it, and what else would do."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from layshaft.gauging import assortment as gauging
from layshaft.gauging.pick import Miss, Pick, Selection
from layshaft.plan.fit_candidate import KEPT, Candidate, Field


@dataclass(frozen=True, slots=True)
class Answer:
    """One question with what was found for it."""

    sure: gauging.Assortment
    selection: Selection
    compared: Field
    looked_at: tuple[str, ...]
    """Every limited result that hangs on what is chosen."""

    @property
    def pick(self) -> Pick | None:
        """What is taken."""
        return None if self.compared.best is None else self.compared.best.pick

    @property
    def miss(self) -> Miss | None:
        """How near what is on hand comes; how near all that is sold does, where not even that would do."""
        miss = self.selection.miss
        return miss if miss is None or miss.of_sold is None else miss.of_sold

    @property
    def to_buy(self) -> dict[str, Fraction]:
        """What of it has to be bought."""
        return {} if self.compared.best is None else dict(self.compared.best.to_buy)

    @property
    def others(self) -> tuple[Candidate, ...]:
        """What else would do with what is on hand: the unit's own pieces first, then by rank."""
        best = self.compared.best
        offered = [one for one in self.compared.on_hand if one is not best and one.standing.is_offered]
        known = set() if best is None else {self._set_of(best)}
        found = []
        for one in sorted(offered, key=lambda one: one.replaced > 0):
            if self._set_of(one) not in known:
                known.add(self._set_of(one))
                found.append(one)
        return tuple(found[: KEPT - 1])

    def _set_of(self, one: Candidate) -> frozenset[object]:
        """What a way takes and gives: pieces of one drawer that change places and give the same are one set."""
        drawers = {place.name: place.drawer or place.name for place in self.sure.selectives}
        sizes = Counter((drawers[name], size) for name, size in one.pick.sizes.items())
        return frozenset([*sizes.items(), *one.pick.pieces.items(), *one.pick.values.items()])
