"""What a job was priced at before it was opened: the same reckoning, with nothing looked at, read or chosen yet."""

from __future__ import annotations

from layshaft.plan.price import Price
from layshaft.plan.rebuild import rebuild
from layshaft.shop.ledger.standing import Standing

KEPT = 64
"""So many estimates are kept."""
_NOTHING: dict[str, tuple[()]] = {"looks": (), "readings": (), "done": (), "choices": (), "proved": ()}
_estimates: dict[tuple[str, ...], Price] = {}
"""Estimates by all that they come from: the job as it was taken in, and the shop's settings as they are now."""


def has_findings(stand: Standing) -> bool:
    """Whether anything was found on a job that its first estimate did not know."""
    content = stand.desk.content
    return bool(content.looks or content.readings or content.choices)


def estimate_of(stand: Standing) -> Price:
    """The price as it was before anything was found, at the lists of the day it came in."""
    content, shop = stand.desk.content, stand.desk.shop
    taken_in = content.model_copy(update={**_NOTHING, "today": content.opened})
    key = (stand.desk.book.sha256, stand.desk.job.variant, repr(taken_in), repr(shop))
    if key not in _estimates:
        while len(_estimates) >= KEPT:
            _estimates.pop(next(iter(_estimates)), None)
        _estimates[key] = rebuild(stand.unit, taken_in, shop).price
    return _estimates[key]
