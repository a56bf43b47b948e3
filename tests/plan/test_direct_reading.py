"""Results read straight off a unit: which place decides, places still to come, and readings that count no more."""

from fractions import Fraction
from functools import cache

import pytest

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.plan.fit import choose_fit
from layshaft.plan.measured import Measured
from layshaft.plan.result import ResultValue, results
from layshaft.plan.verdict import judge
from tests.plan.gap_box import BOOK, MEASURED, job, shop

MM = Fraction(1, 1000)
READ = "    drawn: 1.0 mm\n    read: {how: feeler at the rim, gauge: feeler, places: 4, decides: worst}\n"
SHIMS = """\
  - {part: GB-03, reading: thickness, figures: [1.000 mm], gauge: micrometer 1}
  - {part: GB-04, reading: thickness, figures: [2.000 mm], gauge: micrometer 1}
"""


@cache
def read_unit() -> Unit:
    """The small unit, its floor gap read at four places of which the worst decides."""
    return load_book(BOOK.replace("    drawn: 1.0 mm\n", READ, 1), "gap-box.yaml").unit("plain")


def found(figures: str, more: str = "", readings: str = MEASURED + SHIMS, choices: str = "") -> ResultValue:
    typed = f"{readings}  - {{result: floor gap, figures: [{figures}], gauge: feeler 1{more}}}\n"
    measured = Measured(read_unit(), job(typed, "", choices), shop())
    judged = judge(read_unit(), measured.job, shop(), None, measured)
    return results(read_unit(), measured, None, judged)["floor gap"]


@pytest.mark.parametrize(
    ("figures", "value", "verdict"),
    [
        # The means are 0.95, 1.05 and 1.00 mm; the ends of the limit are 0.80 and 1.20 mm.
        ("0.75 mm, 1.00 mm, 1.00 mm, 1.05 mm", "0.75", "outside"),
        ("0.95 mm, 1.00 mm, 1.00 mm, 1.25 mm", "1.25", "outside"),
        ("0.90 mm, 1.00 mm, 1.05 mm, 1.05 mm", "0.90", "inside"),
    ],
)
def test_the_worst_place_decides_where_the_book_says_so(figures, value, verdict):
    one = found(figures, ", new: true")
    assert (one.value, one.verdict, one.origin) == (Fraction(value) * MM, verdict, "read")


def test_too_few_places_wait_although_the_links_are_known():
    one = found("1.00 mm, 1.01 mm", ", new: true")
    assert one.verdict == "open"
    assert [point.sentence for point in one.missing] == ["Read again floor gap (feeler at the rim)."]
    typed = "  - {result: floor gap, figures: [1.00 mm, 1.01 mm], gauge: feeler 1}\n"
    findings = Measured(read_unit(), job(typed), shop()).findings
    assert [one.sentence for one in findings] == [
        "Result floor gap: 1.00 mm at place 1, 1.01 mm at place 2, and 2 more places are to be measured."
    ]


def test_figures_by_piece_are_no_way_round_the_places():
    assert found("1.00 mm, 1.00 mm", ", new: true, per: piece").verdict == "open"


def test_a_size_is_chosen_for_the_worst_place():
    """Read 0.62, 0.90, 0.90, 0.90 with a shim of 1.00: with 0.90 the mean is 0.93, but the least place only 0.72."""
    typed = SHIMS + "  - {result: floor gap, figures: [0.62 mm, 0.90 mm, 0.90 mm, 0.90 mm], gauge: feeler 1}\n"
    measured = Measured(read_unit(), job(typed), shop())
    judged = judge(read_unit(), measured.job, shop(), None, measured)
    drawer = "  GB-03: {sizes: {0.90 mm: 1, 1.10 mm: 1}}\n  GB-04: {sizes: {2.00 mm: 1}}\n"
    fit = choose_fit(read_unit(), measured, shop(drawer), judged)
    assert "GB-03" not in fit.sizes
    assert fit.values["floor gap"].verdict == "outside"


RENEWED = "choices: [{renew: GB-02, by: tm}]\n"
NEW_SHAFT = "  - {part: GB-02, reading: length, figures: [30.05 mm], gauge: micrometer 1, new: true}\n"
FOUR = "1.10 mm, 1.10 mm, 1.10 mm, 1.10 mm"


def test_a_reading_as_found_counts_for_parts_that_stay():
    assert found(FOUR).value == Fraction("1.10") * MM


def test_known_links_come_before_a_reading_as_found_once_one_is_renewed():
    """By hand: 40 less 30.05, 1 and four times 2 is 0.95 mm, whatever the feeler said before the shaft was renewed."""
    one = found(FOUR, readings=MEASURED + SHIMS + NEW_SHAFT, choices=RENEWED)
    assert (one.value, one.origin) == (Fraction("0.95") * MM, "measured")
    assert one.sentence.endswith(
        "Its reading as found counts no more: GB-02 Shaft is changed since. If it was taken on the built unit, note it "
        "as new."
    )


def test_a_reading_as_found_is_corrected_where_a_link_has_no_figure():
    """By hand: 1.10 with a shaft of 30.00 is 1.05 with one of 30.05, though the box was never measured."""
    unread = "".join((MEASURED + SHIMS).splitlines(keepends=True)[1:])
    one = found(FOUR, readings=unread + NEW_SHAFT, choices=RENEWED)
    assert (one.value, one.verdict) == (Fraction("1.05") * MM, "inside")


def test_a_reading_of_the_built_unit_stands():
    one = found(FOUR, ", new: true", MEASURED + SHIMS + NEW_SHAFT, RENEWED)
    assert (one.value, one.origin) == (Fraction("1.10") * MM, "read")


def test_a_changed_part_drawn_without_a_tolerance_counts_alike_and_is_told():
    """The shaft drawn 30.00 mm sharp: by the book's word the new one is as the old one, and whoever reads it knows."""
    sharp = load_book(
        BOOK.replace("    drawn: 1.0 mm\n", READ, 1).replace("rear: 30.00 ± 0.04 mm", "rear: 30.00 mm"), "gap-box.yaml"
    ).unit("plain")
    unread = "".join(line for line in (MEASURED + SHIMS).splitlines(keepends=True) if "GB-01" not in line)
    unread = "".join(line for line in unread.splitlines(keepends=True) if "length" not in line)
    typed = f"{unread}  - {{result: floor gap, figures: [{FOUR}], gauge: feeler 1}}\n"
    measured = Measured(sharp, job(typed, "", RENEWED), shop())
    one = results(sharp, measured, None, judge(sharp, measured.job, shop(), None, measured))["floor gap"]
    assert (one.value, one.origin) == (Fraction("1.10") * MM, "read")
    assert one.sentence.endswith(
        "Read as found, and GB-02 Shaft is changed since: the book draws it without a tolerance, so old and new count "
        "alike."
    )


def test_a_result_that_rests_on_such_a_reading_tells_it_too():
    """The difference is the shoulder gap less the floor gap: what counts alike in the one does so in the other."""
    sharp = load_book(
        BOOK.replace("    drawn: 1.0 mm\n", READ, 1).replace("rear: 30.00 ± 0.04 mm", "rear: 30.00 mm"), "gap-box.yaml"
    ).unit("plain")
    unread = [line for line in (MEASURED + SHIMS).splitlines(keepends=True) if "GB-01" not in line]
    typed = "".join(line for line in unread if "length" not in line)
    told = "It rests on floor gap, read as found with the old GB-02 Shaft: it is drawn without a tolerance"
    for more, is_told in (("", True), (", new: true", False)):
        gap = f"  - {{result: floor gap, figures: [{FOUR}], gauge: feeler 1{more}}}\n"
        measured = Measured(sharp, job(typed + gap, "", RENEWED), shop())
        one = results(sharp, measured, None, judge(sharp, measured.job, shop(), None, measured))["difference"]
        assert (told in one.sentence) is is_told
