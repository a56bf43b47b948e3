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
    replaced = fit.replaced
    found = {}
    for part, one in judgements.items():
        sizes = replaced.get(part) if one.verdict in ("reuse", "rework") else None
        told = " and ".join(dict.fromkeys(telling.size(size) for size in sizes or ()))
        found[part] = replace(one, replaced_by=told) if told else one
    return found
