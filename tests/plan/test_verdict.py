"""Verdicts on parts: looks, readings, state, sets and assemblies, choices, and what is never a pass."""

import math
from dataclasses import fields, is_dataclass
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.plan.judgement import Judgement
from layshaft.plan.measured import Measured
from layshaft.plan.verdict import judge
from layshaft.plan.wanted import next_most_telling
from tests.plan.gap_box import job, shop, unit

EVEN = "  - {part: GB-06, look: flanks, grade: even}\n  - {part: GB-07, look: bore, grade: clean}\n"


def verdicts(readings: str = "", looks: str = "", more: str = "", opened: frozenset[str] | None = None):
    return judge(unit(), job(readings, looks, more), shop(), opened)


def clearance(figures: str, gauge: str = "feeler 1") -> str:
    return f"  - {{part: GB-06, reading: side clearance, figures: [{figures}], gauge: {gauge}}}\n"


def plates(figures: str) -> str:
    return f"  - {{part: GB-05, reading: thickness, per: piece, figures: [{figures}], gauge: micrometer 1}}\n"


def test_near_the_limit_is_measured_again():
    """0.68 against 0.70 by a feeler of ± 0.025 at k = 2: the project's own invented case, by the error function."""
    found = verdicts(clearance("0.40 mm, 0.68 mm, 0.55 mm"), EVEN)["GB-06"]
    assert found.verdict == "measure again"
    assert found.figures[0].probability == pytest.approx((1 + math.erf(0.02 / 0.0125 / math.sqrt(2))) / 2, abs=1e-9)
    assert found.reason == (
        "Carrier: side clearance 0.68 mm at place 2, within the 0.70 mm allowed, 94.5 % sure by feeler 1 (± 0.025 mm), "
        "less than 95 %; read it again with a gauge that errs less, or renew."
    )
    assert found.open[0].sentence == (
        "Measure again GB-06 Carrier, side clearance (feeler) with a gauge that errs less than feeler 1."
    )


def test_a_finer_gauge_settles_it():
    assert verdicts(clearance("0.40 mm, 0.68 mm, 0.55 mm", "feeler 2"), EVEN)["GB-06"].verdict == "reuse"


def test_the_last_reading_counts():
    readings = clearance("0.40 mm, 0.68 mm, 0.55 mm") + clearance("0.40 mm, 0.45 mm, 0.55 mm")
    assert verdicts(readings, EVEN)["GB-06"].verdict == "reuse"


def test_exactly_on_the_limit_is_inside():
    figure = verdicts(clearance("0.40 mm, 0.70 mm, 0.55 mm"), EVEN)["GB-06"].figures[0]
    assert figure.is_inside
    assert figure.probability == pytest.approx(0.5)


def test_outside_is_renewed_however_unsure():
    found = verdicts(clearance("0.40 mm, 0.7001 mm, 0.55 mm"), EVEN)["GB-06"]
    assert found.verdict == "renew"
    assert not found.figures[0].is_inside


@given(st.integers(1, 2000))
def test_no_figure_outside_is_ever_used_again(ten_thousandths):
    """Against plain comparison of the typed figure with the typed limit."""
    text = f"{ten_thousandths / 10000:.4f}"
    typed = clearance(f"0.10 mm, {text} mm, 0.12 mm")
    found = verdicts(typed.replace("}", ", confirmed: true}"), EVEN)["GB-06"]
    worst = max(Fraction(text), Fraction("0.12"))
    assert (verdicts(typed, EVEN)["GB-06"].verdict == "reuse") <= (worst <= Fraction("0.70"))
    assert (found.verdict == "renew") == (worst > Fraction("0.70"))
    assert found.figures[0].is_inside == (worst <= Fraction("0.70"))


def test_missing_is_never_a_pass():
    found = verdicts("", EVEN)["GB-06"]
    assert (found.verdict, found.is_open) == ("open", True)
    assert [one.name for one in found.open] == ["side clearance"]
    for part, judged in verdicts().items():
        definition = unit().parts[part]
        if definition.looks or any(not plan.optional for plan in definition.readings.values()):
            assert judged.verdict != "reuse", part


def test_too_few_places_are_measured_again():
    found = verdicts(clearance("0.40 mm, 0.45 mm"), EVEN)["GB-06"]
    assert found.verdict == "measure again"
    assert "1 more place is to be measured" in found.reason


def test_missing_places_are_asked_for_and_no_finer_gauge():
    assert verdicts(clearance("0.40 mm, 0.45 mm"), EVEN)["GB-06"].open[0].sentence == (
        "Measure again GB-06 Carrier, side clearance (feeler) at all 3 places."
    )


def test_pieces_that_want_a_reading_for_unlike_reasons_are_told_apart():
    """Piece 1 is 1 µm over its limit by a gauge of ± 4 µm, piece 2 ten times off, 3 and 4 nobody has read."""
    found = verdicts(plates("1.901 mm, 20.0 mm"), "  - {part: GB-05, look: heat, grade: clean}\n")["GB-05"]
    assert [one.sentence for one in found.open] == [
        "Measure GB-05 Plate, thickness (micrometer), pieces 3, 4; again, piece 2; again with a gauge that errs less "
        "than micrometer 1, piece 1."
    ]


def test_pieces_beside_a_condemned_one_are_still_undecided():
    looks = "  - {part: GB-05, look: heat, grade: blue, pieces: [2]}\n"
    found = verdicts(plates("2.00 mm, 1.99 mm, 1.96 mm, 1.98 mm"), looks)["GB-05"]
    assert (found.verdict, found.renew_count, found.is_undecided, found.is_open) == ("renew", 1, True, True)
    looks += "  - {part: GB-05, look: heat, grade: clean, pieces: [1, 3, 4]}\n"
    found = verdicts(plates("2.00 mm, 1.99 mm, 1.96 mm, 1.98 mm"), looks)["GB-05"]
    assert (found.verdict, found.renew_count, found.is_undecided, found.is_open) == ("renew", 1, False, False)


def test_too_few_places_that_are_bad_already_are_renewed():
    assert verdicts(clearance("0.40 mm, 0.95 mm"), EVEN)["GB-06"].verdict == "renew"


def test_a_look_overrides_a_reading():
    found = verdicts(clearance("0.20 mm, 0.21 mm, 0.20 mm"), "  - {part: GB-06, look: flanks, grade: pitted}\n")[
        "GB-06"
    ]
    assert (found.verdict, found.reason) == ("renew", "Carrier: flanks: pitted.")
    assert not found.open


def test_a_look_does_not_excuse_a_reading():
    assert verdicts(clearance("0.90 mm, 0.21 mm, 0.20 mm"), EVEN)["GB-06"].verdict == "renew"


@pytest.mark.parametrize(("day", "verdict"), [("2026-11-01 15:00", "reuse"), ("2026-11-01 09:00", "measure again")])
def test_a_doubtful_look_is_settled_by_a_later_reading(day, verdict):
    readings = (
        "  - {part: GB-05, reading: thickness, per: piece, figures: [2.00 mm, 2.00 mm, 1.99 mm, 2.00 mm], "
        f"gauge: micrometer 1, at: '{day}'}}\n"
    )
    looks = "  - {part: GB-05, look: heat, grade: straw, at: '2026-11-01 10:00'}\n"
    assert verdicts(readings, looks)["GB-05"].verdict == verdict


def test_plates_are_judged_one_by_one():
    looks = "  - {part: GB-05, look: heat, grade: clean}\n  - {part: GB-05, look: heat, grade: blue, pieces: [4]}\n"
    found = verdicts(plates("2.00 mm, 1.89 mm, 1.99 mm, 2.00 mm"), looks)["GB-05"]
    assert [one.verdict for one in found.pieces] == ["reuse", "renew", "reuse", "renew"]
    assert (found.verdict, found.renew_count) == ("renew", 2)
    assert found.reason.startswith("Plate: 2 of 4 (pieces 2, 4): ")


def test_a_face_out_of_flat_is_lapped_and_measured_again():
    readings = (
        "  - {part: GB-01, reading: flatness, figures: [0.03 mm, 0.10 mm, 0.04 mm, 0.03 mm], gauge: feeler 2}\n"
        "  - {part: GB-01, reading: depth, figures: [40.00 mm], gauge: depth micrometer 1}\n"
    )
    found = verdicts(readings)["GB-01"]
    assert found.verdict == "rework"
    assert "Lap on a flat plate to at most 0.03 mm, then measure again" in found.reason
    assert found.renew_count == 0


def test_always_renewed():
    assert verdicts()["GB-11"].reason == "Seal: always renewed."


def test_what_is_sold_only_with_its_assembly_condemns_it():
    looks = (
        EVEN
        + "  - {part: GB-07, look: bore, grade: clean}\n  - {part: GB-07, look: bore, grade: scored, pieces: [2]}\n"
    )
    found = verdicts(clearance("0.20 mm, 0.21 mm, 0.20 mm"), looks)
    assert (found["GB-06"].verdict, found["GB-06"].renew_count, found["GB-06"].carried_from) == ("renew", 1, "GB-07")
    assert found["GB-06"].reason == "Carrier: GB-07 Pinion is sold only with it; 1 of 3 (piece 2): bore: scored."
    assert (found["GB-07"].bought_as, found["GB-08"].bought_as) == ("GB-06", "GB-06")
    assert found["GB-08"].verdict == "renew"


def test_what_waits_in_an_assembly_leaves_it_open():
    looks = EVEN + "  - {part: GB-07, look: bore, grade: doubtful}\n"
    found = verdicts(clearance("0.20 mm, 0.21 mm, 0.20 mm"), looks)["GB-06"]
    assert (found.verdict, found.is_open, found.renew_count) == ("measure again", True, 0)


def test_a_part_without_criteria_follows_its_assembly():
    assert verdicts()["GB-08"].verdict == "open"
    found = verdicts(clearance("0.20 mm, 0.21 mm, 0.20 mm"), EVEN)["GB-08"]
    assert (found.verdict, found.carried_from) == ("reuse", "GB-06")
    assert found.reason == "Pin: judged with GB-06 Carrier, not by itself."


def test_the_piece_nearest_its_limit_is_named():
    """1.90 is the limit of a used plate: piece 3 has 0.06 of room, the others 0.08 and more."""
    looks = "  - {part: GB-05, look: heat, grade: clean}\n"
    found = verdicts(plates("2.00 mm, 1.99 mm, 1.96 mm, 1.98 mm"), looks)["GB-05"]
    assert found.reason == (
        "Plate: of 4, piece 3 is nearest its limit: heat: clean; thickness 1.96 mm, not under the 1.90 mm asked."
    )


@pytest.mark.parametrize(
    ("grade", "told"),
    [
        ("worn", "this overrules the verdict to renew it (tip: worn)"),
        ("sharp", "no verdict speaks against it"),
    ],
)
def test_a_kept_part_says_what_that_overrules(grade, told):
    more = "choices: [{keep: GB-12, by: customer, why: told of it}]\n"
    found = verdicts("", f"  - {{part: GB-12, look: tip, grade: {grade}}}\n", more)["GB-12"]
    assert found.reason == f"Rotor: customer chose to keep it: told of it; {told}."


def test_inch_first_where_the_shop_works_in_inches():
    inch = shop().model_copy(update={"units": "inch"})
    found = judge(unit(), job(clearance("0.40 mm, 0.68 mm, 0.55 mm"), EVEN), inch)["GB-06"]
    assert found.reason == (
        "Carrier: side clearance 0.0268 in (0.68 mm) at place 2, within the 0.0275 in (0.70 mm) allowed, 94.5 % sure "
        "by feeler 1 (± 0.0010 in (0.025 mm)), less than 95 %; read it again with a gauge that errs less, or renew."
    )


def test_renewed_together():
    looks = "  - {part: GB-09, look: track, grade: grooved}\n  - {part: GB-10, look: track, grade: even}\n"
    found = verdicts("", looks)["GB-10"]
    assert found.verdict == "renew"
    assert found.reason == "Thrust bearing: thrust is a set, and GB-09 Thrust plate is renewed; renewed together."


def test_kept_together_is_asked():
    looks = "  - {part: GB-12, look: tip, grade: worn}\n  - {part: GB-13, look: bore, grade: even}\n"
    found = verdicts("", looks)["GB-13"]
    assert (found.verdict, found.is_open, found.renew_count) == ("ask", True, 0)
    kept = verdicts("", looks, "choices: [{keep: GB-13, by: customer, why: told of it}]\n")["GB-13"]
    assert (kept.verdict, kept.kept_by) == ("reuse", "customer")


def test_broken_is_renewed_and_cannot_be_kept():
    more = "intake: {noticed: [{part: GB-09, is: broken, words: in two}]}\nchoices: [{keep: GB-09, by: customer}]\n"
    found = verdicts("", "  - {part: GB-09, look: track, grade: even}\n", more)["GB-09"]
    assert found.verdict == "renew"
    assert "broken: in two" in found.reason
    assert "which this does not allow" in found.reason


def test_a_missing_look_cannot_be_kept_away():
    found = verdicts("", "", "choices: [{keep: GB-09, by: customer}]\n")["GB-09"]
    assert (found.verdict, found.is_open) == ("open", True)


def test_an_unsure_part_can_be_kept_and_says_so():
    more = "choices: [{keep: GB-06, by: customer, why: Told of the odds}]\n"
    looks = EVEN + "  - {part: GB-07, look: bore, grade: clean}\n"
    found = verdicts(clearance("0.40 mm, 0.68 mm, 0.55 mm"), looks, more)["GB-06"]
    assert (found.verdict, found.kept_by, found.is_open) == ("reuse", "customer", False)
    assert "94.5 %" in found.reason


def test_a_good_part_can_be_renewed():
    more = "choices: [{renew: GB-09, by: ferrow, why: cheap}]\n"
    found = verdicts("", "  - {part: GB-09, look: track, grade: even}\n", more)["GB-09"]
    assert (found.verdict, found.reason) == ("renew", "Thrust plate: ferrow chose to renew it: cheap.")


def test_renewed_by_one_and_kept_by_another_is_asked_about():
    even = "  - {part: GB-09, look: track, grade: even}\n"
    both = "choices: [{renew: GB-09, by: customer, why: cheap}, {keep: GB-09, by: ferrow, why: good.}]\n"
    found = verdicts("", even, both)["GB-09"]
    told = "customer chose to renew it: cheap; ferrow chose to keep it: good"
    assert (found.verdict, found.reason, found.is_open) == ("ask", f"Thrust plate: {told}.", True)
    assert [(one.kind, one.sentence) for one in found.open] == [
        ("choice", f"Say whether GB-09 Thrust plate is renewed or kept: {told}.")
    ]
    own = "choices: [{renew: GB-09, by: customer}, {keep: GB-09, by: ferrow}, {renew: GB-09, by: ferrow}]\n"
    assert verdicts("", even, own)["GB-09"].verdict == "renew", "whoever chose may think again"


def test_what_is_bad_is_renewed_whoever_keeps_it_against_another_s_word():
    both = "choices: [{keep: GB-12, by: ferrow}, {renew: GB-12, by: customer}]\n"
    found = verdicts("", "  - {part: GB-12, look: tip, grade: worn}\n", both)["GB-12"]
    assert (found.verdict, found.open) == ("renew", ())
    assert found.reason == "Rotor: tip: worn; customer chose to renew it; ferrow chose to keep it."


def test_only_what_is_opened_is_judged():
    more = "intake: {noticed: [{part: GB-09, is: broken}]}\n"
    assert list(verdicts("", "", more, frozenset({"GB-06", "GB-11"}))) == ["GB-06", "GB-09", "GB-11"]


# Figures that wait.


def findings(readings: str, more: str = ""):
    return Measured(unit(), job(readings, "", more), shop()).findings


@pytest.mark.parametrize(
    ("reading", "kind"),
    [
        ("{part: GB-02, reading: length, figures: [3.00 mm], gauge: micrometer 1}", "ten times off"),
        ("{part: GB-02, reading: length, figures: [300 mm], gauge: micrometer 1}", "ten times off"),
        ("{part: GB-02, reading: length, figures: [1.181 mm], gauge: micrometer 1}", "wrong unit"),
        ("{part: GB-02, reading: length, figures: [30.0 in], gauge: micrometer 1}", "wrong unit"),
        ("{part: GB-02, reading: length, figures: [12.0 mm], gauge: micrometer 1}", "far from drawn"),
        ("{part: GB-02, reading: length, figures: [30 N], gauge: micrometer 1}", "wrong unit"),
        ("{part: GB-02, reading: journal, figures: [2.499 mm, 24.99 mm], gauge: micrometer 1}", "ten times off"),
        ("{part: GB-02, reading: length, figures: [30.0 mm], gauge: micrometer 1, temperature: 44 °C}", "temperature"),
    ],
)
def test_a_slip_waits(reading, kind):
    found = findings(f"  - {reading}\n")
    assert [one.kind for one in found if one.is_waiting] == [kind]
    judged = verdicts(f"  - {reading}\n")["GB-02"]
    assert judged.verdict == "measure again"
    assert judged.is_open


def test_a_confirmed_figure_does_not_wait():
    reading = "  - {part: GB-02, reading: length, figures: [12.0 mm], gauge: micrometer 1, confirmed: true}\n"
    assert not findings(reading)


def test_a_warm_part_is_read_again_even_if_confirmed():
    reading = (
        "  - {part: GB-02, reading: length, figures: [30.0 mm], gauge: micrometer 1, "
        "temperature: 44 °C, confirmed: true}\n"
    )
    (found,) = findings(reading)
    assert found.sentence == (
        "GB-02 Shaft, length: the part was at 44 °C, 24 K above the reference of 20 °C; "
        "let it come to the room's temperature and read it again."
    )


def test_an_overdue_gauge_is_told_and_the_figure_stands():
    reading = "  - {part: GB-02, reading: length, figures: [30.0 mm], gauge: micrometer 1, at: '2026-11-12 09:00'}\n"
    (found,) = findings(reading)
    assert (found.kind, found.is_waiting) == ("gauge overdue", False)
    assert found.sentence == (
        "GB-02 Shaft, length: micrometer 1 was due to be held to a standard on 2026-11-10, "
        "before it was used on 2026-11-12."
    )


def test_next_is_what_decides_most_for_its_minutes():
    points = next_most_telling(verdicts("", EVEN), unit())
    weights = [one.minutes for one in points]
    assert points
    assert {one.part for one in points} <= set(unit().parts)
    assert weights[0] <= max(weights)
    assert len({(one.part, one.kind, one.name) for one in points}) == len(points)


def test_a_judgement_is_plain_data():
    """Every field is a text, a number, a truth, nothing, or a tuple of records of such."""

    def plain(value: object) -> bool:
        if value is None or isinstance(value, (str, int, float, Fraction)):
            return True
        if isinstance(value, tuple):
            return all(plain(one) for one in value)
        assert is_dataclass(value) and not isinstance(value, type)
        return all(plain(getattr(value, one.name)) for one in fields(value))

    for judged in verdicts(clearance("0.40 mm, 0.68 mm, 0.55 mm"), EVEN).values():
        assert isinstance(judged, Judgement)
        assert plain(judged)


def test_what_is_found_bad_decides_while_something_is_missing():
    """The flatness is over its limit and is lapped, whether the depth has been read or not; both are told."""
    flat = "  - {part: GB-01, reading: flatness, figures: [0.10 mm, 0.02 mm, 0.02 mm, 0.02 mm], gauge: feeler 1}\n"
    found = verdicts(flat)["GB-01"]
    assert found.verdict == "rework"
    assert found.is_undecided
    assert "Lap on a flat plate" in found.reason
    assert found.reason.endswith("depth: not measured yet.")
    assert [one.name for one in found.open] == ["depth", "flatness"]
    whole = verdicts(flat + "  - {part: GB-01, reading: depth, figures: [40.00 mm], gauge: depth micrometer 1}\n")
    assert not whole["GB-01"].is_undecided
    waiting = verdicts(flat + "  - {part: GB-01, reading: depth, figures: [4.00 mm], gauge: depth micrometer 1}\n")
    assert waiting["GB-01"].verdict == "measure again"
    assert "Lap on a flat plate" in waiting["GB-01"].reason
    assert [one.name for one in waiting["GB-01"].open] == ["depth", "flatness"]
