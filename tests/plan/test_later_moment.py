"""Of entries about one thing the later moment counts, wherever it is written, and the order of lines is told."""

from __future__ import annotations

from layshaft.plan.figure import Finding
from layshaft.plan.judgement import Judgement, PartVerdict
from layshaft.plan.measured import Measured
from layshaft.plan.verdict import judge
from tests.plan.gap_box import job, shop, unit

EVEN = "  - {part: GB-06, look: flanks, grade: even}\n  - {part: GB-07, look: bore, grade: clean}\n"


def clearance(figures: str) -> str:
    return f"  - {{part: GB-06, reading: side clearance, figures: [{figures}], gauge: feeler 1}}\n"


def verdict(readings: str) -> PartVerdict:
    return judge(unit(), job(readings, EVEN), shop())["GB-06"].verdict


def plates(looks: str) -> Judgement:
    return judge(unit(), job("", looks), shop())["GB-05"]


def findings(readings: str) -> tuple[Finding, ...]:
    return Measured(unit(), job(readings), shop()).findings


def test_of_two_readings_the_later_moment_counts_and_the_order_of_lines_is_told() -> None:
    """0.75 is outside the 0.70 asked and was read later, though it is written first."""
    later = clearance("0.40 mm, 0.75 mm, 0.55 mm").replace("}", ", at: 2026-11-10}")
    earlier = clearance("0.40 mm, 0.45 mm, 0.55 mm").replace("}", ", at: 2026-11-05}")
    assert verdict(later + earlier) == "renew"
    assert verdict(earlier + later) == "renew"
    assert [one.sentence for one in findings(later + earlier) if one.kind == "out of order"] == [
        "GB-06 Carrier, side clearance: 0.40 mm at place 1, 0.45 mm at place 2, 0.55 mm at place 3 of 2026-11-05 is "
        "written after what was read on 2026-11-10, which is later and counts."
    ]
    assert not [one for one in findings(earlier + later) if one.kind == "out of order"]
    without = clearance("0.40 mm, 0.45 mm, 0.55 mm")
    assert verdict(later + without) == "reuse"


def test_of_two_looks_the_later_moment_counts_and_the_order_of_lines_is_told() -> None:
    blue = "  - {part: GB-05, look: heat, grade: blue, at: '2026-11-10 14:00'}\n"
    clean = "  - {part: GB-05, look: heat, grade: clean, at: '2026-11-10 09:00', pieces: [1]}\n"
    found = plates(blue + clean)
    assert (found.verdict, found.renew_count) == ("renew", 4)
    assert found.pieces[0].reason == (
        "heat: blue (the look of 2026-11-10 14:00, not clean of 2026-11-10 09:00, which is written after it)"
    )
    assert found.pieces[1].reason == "heat: blue"
    assert plates(clean + blue).pieces[0].reason == "heat: blue"
