"""What a unit's definitions have to agree on among themselves, one subject a module."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping

from layshaft.book.check.bound import check_bounds, spoilt_by
from layshaft.book.check.custom import check_customs, check_groups
from layshaft.book.check.holding import check_holding, check_lying
from layshaft.book.check.load import check_loads, check_springs
from layshaft.book.check.pack import check_packs
from layshaft.book.check.part import check_parts
from layshaft.book.check.press_stand import check_press_stands
from layshaft.book.check.reference import check_references
from layshaft.book.check.release import check_releases
from layshaft.book.check.result import check_limits, check_results
from layshaft.book.check.retainer import check_retainers
from layshaft.book.check.sale import check_sales, check_serving
from layshaft.book.check.stop import check_stops
from layshaft.book.check.subject import Memory, Subject
from layshaft.book.check.train import check_train
from layshaft.book.definition import Unit
from layshaft.book.fault import Fault

Check = Callable[[Subject], Iterator[Fault]]

_DRAWN = frozenset({"parts", "packs", "pack faces", "results"})
_STOPPED = _DRAWN | {"axes", "base", "stops", "figures"}
_LOADED = _STOPPED | {"ends", "loads", "positions"}
CHECKS: tuple[tuple[Check, frozenset[str]], ...] = (
    (check_springs, frozenset({"parts", "loads"})),
    (check_limits, frozenset()),
    (check_parts, frozenset({"parts"})),
    (check_serving, frozenset({"parts"})),
    (check_sales, frozenset({"parts"})),
    (check_holding, frozenset({"parts", "base", "tree"})),
    (check_packs, frozenset({"parts", "packs"})),
    (check_results, _DRAWN | {"stops"}),
    (check_customs, frozenset({"axes", "parts", "sets", "kits", "proofs", "results"})),
    (check_stops, _STOPPED | {"ends"}),
    (check_loads, _LOADED),
    (check_releases, _LOADED | {"tree"}),
    (check_press_stands, _LOADED | {"tree"}),
    (check_retainers, _LOADED),
    (check_train, frozenset({"train"})),
    (check_groups, frozenset({"parts", "base", "tree", "groups"})),
)
"""Each check, and what has to be free of faults before it can be made at all."""

_SPOILS = {
    "lies in itself": "tree",
    "base lies in": "tree",
    "pack face": "pack faces",
    "expression": "figures",
    "result in a circle": "figures",
    "link is no sum": "figures",
    "wrong dimension": "figures",
    "axis ends alike": "ends",
    "stop on one part": "positions",
    "stop over two axes": "positions",
    "stops contradict": "positions",
}
"""Faults after which what is asked above cannot be worked out; the first key of its path goes with a name that
leads nowhere."""


def check_unit(
    unit: Unit, memory: Memory | None = None, named: Mapping[str, Collection[str]] | None = None
) -> Iterator[Fault]:
    """Every fault and note in the definitions of one variant.

    `memory` is shared by the variants of a book; `named` has every name of each section, in whatever variant it is.
    """
    subject = Subject(unit, memory if memory is not None else {}, named or {})
    faults = list(check_references(subject))
    spoilt = {str(one.path[0]) for one in faults}
    if not spoilt & {"parts", "base"}:
        faults += check_lying(unit)
    bounds = list(check_bounds(subject))
    faults += bounds
    spoilt = spoilt.union(*map(spoilt_by, bounds))
    for check, asks in CHECKS:
        spoilt |= {_SPOILS[one.id] for one in faults if one.id in _SPOILS}
        if not spoilt & asks:
            faults += check(subject)
    yield from faults
