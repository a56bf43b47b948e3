"""The last hand on sentences: full stops, units, singular and plural."""

from __future__ import annotations

import pytest

from layshaft.paper.wording import capital, counted, one_stop, worded
from layshaft.plan.telling import Telling


@pytest.mark.parametrize(
    ("text", "closed"),
    [
        ("Measure it..", "Measure it."),
        ("Measure it. . Then go on.", "Measure it. Then go on."),
        ("inside 0.50 .. 0.90 mm.", "inside 0.50 .. 0.90 mm."),
        ("0.5 .. 0.9", "0.5 .. 0.9"),
        ("Said once.", "Said once."),
    ],
)
def test_a_sentence_is_closed_once(text: str, closed: str) -> None:
    assert one_stop(text) == closed


def test_names_stay_and_sentences_are_told_in_the_shops_units() -> None:
    data = {"name": "Bolt 8 mm", "rows": [{"part": "A 8 mm", "sentence": "8 mm long.."}], "count": 3, "none": None}
    assert worded(data, Telling("inch", decimals=2)) == {
        "name": "Bolt 8 mm",
        "rows": [{"part": "A 8 mm", "sentence": "0.31 in (8 mm) long."}],
        "count": 3,
        "none": None,
    }


def test_one_and_several() -> None:
    assert [counted(number, "step", "steps") for number in (0, 1, 2)] == ["0 steps", "1 step", "2 steps"]
    assert capital("hub gap") == "Hub gap"
    assert capital("") == ""
