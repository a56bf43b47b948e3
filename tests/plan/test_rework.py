"""A rework takes what was read before it along: the old depth of a face that was cut tells nothing any more."""

from functools import cache

import pytest

from layshaft.book import BookFaults, load_book
from layshaft.plan.measured import Measured
from layshaft.plan.result import results
from layshaft.plan.verdict import judge
from tests.plan.gap_box import BOOK, job, shop

HOW = "how: Lap on a flat plate, down to: at most 0.03 mm"
READ = "    drawn: 1.0 mm\n  shoulder gap:"
DIRECT = "    drawn: 1.0 mm\n    read: {how: feeler, gauge: feeler}\n  shoulder gap:"


@cache
def unit(more: str = "", book: str = BOOK):
    """The small unit; `more` is what its book says of the lapping beside how it is done."""
    return load_book(book.replace(HOW, f"{HOW}{more}"), "gap-box.yaml").unit("plain")


def depth(figure: str = "40.00 mm", at: str = "") -> str:
    return f"  - {{part: GB-01, reading: depth, figures: [{figure}], gauge: depth micrometer 1{_at(at)}}}\n"


def flat(figure: str, at: str = "") -> str:
    figures = ", ".join([figure] * 4)
    return f"  - {{part: GB-01, reading: flatness, figures: [{figures}], gauge: feeler 2{_at(at)}}}\n"


def gap(at: str = "", more: str = "") -> str:
    return f"  - {{result: floor gap, figures: [1.00 mm], gauge: feeler 2{_at(at)}{more}}}\n"


def _at(moment: str) -> str:
    return f", at: '{moment}'" if moment else ""


def taken(readings: str, of=None, looks: str = "") -> Measured:
    return Measured(of or unit(), job(readings, looks), shop())


def test_what_was_read_before_the_rework_is_asked_again():
    record = job(depth() + flat("0.12 mm") + flat("0.02 mm"))
    box = judge(unit(), record, shop())["GB-01"]
    assert box.verdict == "open"
    assert "depth: not measured since it was reworked (flatness)" in box.reason
    assert [one.sentence for one in box.open] == ["Measure again GB-01 Box, depth (depth micrometer)."]
    assert Measured(unit(), record, shop()).used("GB-01", "depth") is None


def test_the_result_behind_it_is_open_until_it_is_read_again():
    """By hand: 39.90 - 30.00 - 1.00 - 4 x 2.00 mm is 0.90 mm."""
    before = depth() + flat("0.12 mm") + flat("0.02 mm")
    length = "  - {part: GB-02, reading: length, figures: [30.000 mm], gauge: micrometer 1}\n"
    found = results(unit(), taken(before + length))["floor gap"]
    assert found.verdict == "open"
    assert "Measure again GB-01 Box, depth (depth micrometer)." in [one.sentence for one in found.missing]
    again = results(unit(), taken(before + length + depth("39.90 mm")))["floor gap"]
    assert float(again.value) == pytest.approx(0.90e-3)


def test_a_reading_taken_after_the_rework_counts():
    found = taken(depth() + flat("0.12 mm") + flat("0.02 mm") + depth("39.90 mm"))
    assert found.used("GB-01", "depth") is not None
    assert not found.gone


def test_moments_tell_before_lines_do():
    late = depth(at="2026-11-02 09:00") + flat("0.12 mm", "2026-11-01 08:00") + flat("0.02 mm", "2026-11-01 12:00")
    assert not taken(late).gone
    early = flat("0.12 mm", "2026-11-01 08:00") + flat("0.02 mm", "2026-11-01 12:00") + depth(at="2026-11-01 09:00")
    assert taken(early).gone


def test_told_in_one_go_with_what_shows_the_rework_counts():
    found = taken(
        flat("0.12 mm", "2026-11-01 08:00") + depth(at="2026-11-01 12:00") + flat("0.02 mm", "2026-11-01 12:00")
    )
    assert not found.gone


@pytest.mark.parametrize("second", ["0.12 mm", "0.10 mm"])
def test_without_a_reading_inside_nothing_was_reworked(second):
    assert not taken(depth() + flat("0.12 mm") + flat(second)).reworks


def test_a_figure_that_waits_tells_of_no_rework():
    """A gap of ten times the limit is one that a slip of the point makes; it decides nothing until it is read again."""
    assert not taken(depth() + flat("0.02 mm") + flat("0.03 mm")).reworks


def test_a_book_names_what_is_to_be_read_again():
    readings = depth() + flat("0.12 mm") + flat("0.02 mm")
    assert not taken(readings, unit(", then read again: []")).gone
    assert not taken(readings, unit(", then read again: [flatness]")).gone
    assert set(taken(readings, unit(", then read again: [depth]")).gone) == {("GB-01", "depth", 0, False)}


def test_a_book_names_readings_that_the_part_has():
    with pytest.raises(BookFaults, match="unknown reading") as caught:
        load_book(BOOK.replace(HOW, f"{HOW}, then read again: [dept]"), "gap-box.yaml")
    assert "GB-01 has no reading `dept`" in str(caught.value)


# Results that were read through the part.


def direct(more: str = ""):
    return unit(more, BOOK.replace(READ, DIRECT))


@pytest.mark.parametrize("more", ["", ", new: true"])
def test_a_result_read_through_the_part_before_counts_no_more(more):
    reworked = gap(more=more) + flat("0.12 mm") + flat("0.02 mm")
    found = results(direct(), taken(reworked, direct()))["floor gap"]
    assert found.verdict == "open"
    assert "Its reading counts no more: GB-01 Box was reworked since." in found.sentence
    assert [one.sentence for one in found.missing][:1] == [
        "Read again floor gap (feeler): GB-01 was reworked since it was read."
    ]


def test_a_result_read_after_the_rework_counts():
    for more in ("", ", new: true"):
        record = job(flat("0.12 mm") + flat("0.02 mm") + gap(more=more))
        measured = Measured(direct(), record, shop())
        found = results(direct(), measured, judgements=judge(direct(), record, shop()))["floor gap"]
        assert found.origin == "read", more


def test_a_rework_that_moves_no_face_leaves_the_result():
    read = gap() + flat("0.12 mm") + flat("0.02 mm")
    of = direct(", then read again: [flatness]")
    assert results(of, taken(read, of))["floor gap"].origin == "read"


def test_a_result_whose_links_are_read_after_the_rework_comes_from_them():
    """By hand: 39.90 - 30.00 - 1.00 - 4 x 2.00 mm is 0.90 mm, not the 1.00 mm that was read before."""
    more = "  - {part: GB-02, reading: length, figures: [30.000 mm], gauge: micrometer 1}\n"
    read = gap() + flat("0.12 mm") + flat("0.02 mm") + depth("39.90 mm") + more
    found = results(direct(), taken(read, direct()))["floor gap"]
    assert float(found.value) == pytest.approx(0.90e-3)


# Reworks that a look asks for.

FLANKS = "looks: {flanks: {how: loupe, grades: {even: reuse, pitted: renew}}}"
DRESSED = "looks: {flanks: {how: loupe, grades: {even: reuse, burred: rework, pitted: renew}%s}}"


def carrier(rework: str = ""):
    return unit("", BOOK.replace(FLANKS, DRESSED % rework))


def looked(grade: str, at: str) -> str:
    return f"  - {{part: GB-06, look: flanks, grade: {grade}, at: '{at}'}}\n"


def clearance(at: str) -> str:
    return (
        "  - {part: GB-06, reading: side clearance, figures: [0.30 mm, 0.30 mm, 0.30 mm], gauge: feeler 2"
        f"{_at(at)}}}\n"
    )


def test_a_look_that_is_good_again_tells_of_a_rework():
    looks = looked("burred", "2026-11-01 08:00") + looked("even", "2026-11-01 12:00")
    assert taken(clearance("2026-11-01 09:00"), carrier(), looks).gone
    assert not taken(clearance("2026-11-01 12:00"), carrier(), looks).gone
    assert not taken(clearance("2026-11-01 09:00"), carrier(), looked("burred", "2026-11-01 08:00")).reworks


def test_so_does_the_reading_that_the_mending_asks_for():
    of = carrier(", rework: {how: Stone them, measure: side clearance, time: 12 min}")
    (found,) = taken(clearance("2026-11-01 09:00"), of, looked("burred", "2026-11-01 08:00")).reworks
    assert (found.kind, found.name, found.was, found.time) == ("look", "flanks", "burred", 720)
