"""The fault itself: its sentence, its fields, its copies, and the nearest word."""

import pickle
from pathlib import Path

import pytest

from layshaft.quantity import FAULT_IDS, QuantityFault, nearest, quote
from layshaft.quantity.fault import edits


def test_sentence_is_built_from_the_fields() -> None:
    fault = QuantityFault("missing unit", "'3' without a unit", "a length", "3 mm")
    assert str(fault) == "Missing unit: found '3' without a unit; needed a length; try 3 mm."
    assert (fault.id, fault.found, fault.needed, fault.try_) == (
        "missing unit",
        "'3' without a unit",
        "a length",
        "3 mm",
    )
    assert fault.at is None
    assert isinstance(fault, ValueError)


def test_fault_survives_being_sent_to_another_process() -> None:
    fault = QuantityFault("unknown name", "'a'", "a known name", "'b'", 7)
    copy = pickle.loads(pickle.dumps(fault))
    assert (str(copy), copy.id, copy.at) == (str(fault), "unknown name", 7)


def test_every_id_is_asserted_somewhere_in_these_tests() -> None:
    texts = "".join(path.read_text(encoding="utf-8") for path in Path(__file__).parent.glob("test_*.py"))
    missing = [i for i in FAULT_IDS if f'"{i}"' not in texts and f'"{i.capitalize()}: ' not in texts]
    assert missing == []


@pytest.mark.parametrize(
    ("text", "quoted"),
    [
        ("3 mm", "'3 mm'"),
        ("5'", '"5\'"'),
        ("5'\"", "'5'\"'"),
        ("a\tb\u202e", "'a\\tb\\u202e'"),
        ("x" * 70, f"'{'x' * 57}...'"),
    ],
)
def test_quote_shows_what_cannot_be_seen(text: str, quoted: str) -> None:
    assert quote(text) == quoted


@pytest.mark.parametrize(
    ("word", "near"),
    [
        ("hub gp", "hub gap"),
        ("HUB GAP", "hub gap"),
        ("brake clearence", "brake clearance"),
        ("OT-44", "OT-044"),
        ("zzz", None),
    ],
)
def test_nearest_word(word: str, near: str | None) -> None:
    assert nearest(word, {"hub gap", "brake clearance", "OT-044", "plate thickness"}) == near


@pytest.mark.parametrize(
    ("word", "near"),
    [("BL-99", None), ("BL-3350", "BL-350"), ("BL-253", "BL-235"), ("BL-23", "BL-235"), ("bl-350", "BL-350")],
)
def test_an_id_with_other_figures_is_another_id(word: str, near: str | None) -> None:
    assert nearest(word, {"BL-235", "BL-350", "BL-100"}) == near


@pytest.mark.parametrize(
    ("word", "other", "apart"),
    [("kitten", "sitting", 3), ("gauge", "gague", 1), ("", "abc", 3), ("same", "same", 0), ("ab", "ba", 1)],
)
def test_edits(word: str, other: str, apart: int) -> None:
    """`kitten` and `sitting` are the common example, three apart; a turned pair is one."""
    assert edits(word, other) == edits(other, word) == apart


def test_nearest_of_many_alike_is_the_one_a_letter_off() -> None:
    names = [f"part {i} {what}" for i in range(300) for what in ("hub gap", "thickness", "free length")]
    assert nearest("part 217 thicknes", names) == "part 217 thickness"
