"""Results as plain data: what JSON can hold, each figure as its text."""

from __future__ import annotations

import json
import math
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction

import pytest

from layshaft.paper.data import plain
from layshaft.quantity import parse_limit, parse_money, parse_quantity
from tests.paper.two_jobs import inch


@dataclass
class Thing:
    """A record with a field that is kept to itself."""

    size: Fraction
    own: int = field(default=1, repr=False)


@pytest.mark.parametrize(
    ("value", "made"),
    [
        (Fraction(1, 4), 0.25),
        (Decimal("1.5"), 1.5),
        (math.nan, None),
        (parse_quantity("0.50 mm"), "0.50 mm"),
        (parse_limit("preload 0.02 .. 0.08 mm"), "preload 0.02 .. 0.08 mm"),
        (parse_money("12.50 CUR"), "12.50 CUR"),
        (frozenset({"b", "a"}), ["a", "b"]),
        ({("a", 1): (True, None)}, {"a 1": [True, None]}),
        (Thing(Fraction(2)), {"size": 2.0}),
    ],
)
def test_each_kind_has_a_plain_form(value: object, made: object) -> None:
    assert plain(value) == made


def test_what_has_none_is_refused() -> None:
    with pytest.raises(TypeError, match="object has no plain form"):
        plain(object())


def test_verdicts_and_results_of_a_job_are_json() -> None:
    rebuilt = inch()
    made = json.loads(json.dumps(plain(rebuilt.results)))
    assert made["countershaft setting"]["limit"] == "preload 0.0008 .. 0.0031 in (preload 0.02 .. 0.08 mm)"
    assert set(json.loads(json.dumps(plain(rebuilt.judgements)))) == set(rebuilt.judgements)
