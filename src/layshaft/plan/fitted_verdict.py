"""Verdicts once the fit is known: a good part in whose place another size goes in is not used again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from layshaft.plan.fit import Fit
from layshaft.plan.judgement import Judgement
from layshaft.plan.telling import METRIC, Telling


def fitted_verdicts(
    judgements: Mapping[str, Judgement], fit: Fit, telling: Telling = METRIC
) -> dict[str, Judgement]:
    """The verdicts, each with what goes in instead of the part where the fit chose so."""
    found = {}
    for part, one in judgements.items():
        told = _instead(part, fit, telling) if one.verdict in ("reuse", "rework") else ""
        found[part] = replace(one, replaced_by=told) if told else one
    return found


def _instead(part: str, fit: Fit, telling: Telling) -> str:
    """The sizes that go in instead of a part, and at which places where a piece of it stays."""
    places = [place for place in fit.sizes if place.split(" ")[0] == part]
    replaced = {place: telling.size(size) for place, size in fit.replaced.items() if place in places}
    told = replaced.values() if len(replaced) == len(places) else (f"{size} at {at}" for at, size in replaced.items())
    return " and ".join(dict.fromkeys(told))
