"""Parts named on the command line: by id, or by a name that is one part's alone."""

from __future__ import annotations

import pytest

from layshaft.cli.part import find_part
from tests.book.overtop import UNITS

UNIT = UNITS[2]


@pytest.mark.parametrize(
    ("word", "found"), [("OT-085", "OT-085"), ("tail seal", "OT-085"), ("Tail Seal", "OT-085"), ("Park pawl", "OT-086")]
)
def test_an_id_or_a_whole_name_is_taken(word: str, found: str) -> None:
    assert find_part(UNIT, word) == (found, "")


def test_of_several_none_is_taken() -> None:
    assert find_part(UNIT, "seal") == (
        None,
        " Parts called so: OT-014 (piston inner lip seal), OT-015 (piston outer lip seal), OT-085 (tail seal).",
    )


def test_a_part_of_a_name_is_never_taken_even_of_one_part_alone() -> None:
    assert find_part(UNIT, "pawl pin") == (None, " Parts called so: OT-087 (park pawl pin).")


def test_two_of_one_name_are_listed() -> None:
    twin = UNIT.parts["OT-085"].model_copy(update={"name": "Tail bush"})
    unit = UNIT.model_copy(update={"parts": {**UNIT.parts, "OT-085": twin}})
    assert find_part(unit, "tail bush") == (None, " Parts called so: OT-085 (tail bush), OT-094 (tail bush).")


def test_many_are_cut_short() -> None:
    part, hint = find_part(UNIT, "direct")
    assert part is None
    assert hint.count("OT-") == 6
    assert hint.endswith(" more.")


@pytest.mark.parametrize(("word", "near"), [("OT-54", "OT-054"), ("OT-0855", "OT-085"), ("OT-99", ""), ("zzz", "")])
def test_one_slip_in_an_id_is_guessed_and_no_more(word: str, near: str) -> None:
    part, hint = find_part(UNIT, word)
    assert part is None
    assert (f"Did you mean {near} (" in hint) if near else hint == ""
