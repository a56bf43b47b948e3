"""What a result still waits for: a reading that is there and decides nothing is to be taken again."""

from __future__ import annotations

import pytest

from tests.plan.axle_box import FULL, fitted

NEW = ", new: true"
RENEWED = "looks:\n  - {part: AB-02, look: teeth, grade: chipped}\n"


def wanted(readings: str, more: str = "") -> list[str]:
    return [point.sentence for point in fitted(readings, FULL, more=more).waiting]


@pytest.mark.parametrize("figures", ["10.000 mm", "100.000 mm, 100.900 mm"])
def test_a_reading_whose_figure_waits_is_wanted_again(figures: str) -> None:
    """Ten times off what is drawn, and two repeats 0.9 mm apart: both have been read, and say nothing."""
    width = f"  - {{part: AB-01, reading: width, figures: [{figures}], gauge: inside micrometer 1}}\n"
    told = wanted(width)
    assert told[:2] == [
        "Measure again AB-01 Housing, width (inside micrometer).",
        "Measure AB-02 Case with wheel, length (micrometer).",
    ]


def test_of_a_new_part_whose_figure_waits_the_new_one_is_wanted_again() -> None:
    width = "  - {part: AB-01, reading: width, figures: [100.000 mm], gauge: inside micrometer 1}\n"
    wild = f"  - {{part: AB-02, reading: length, figures: [9.706 mm], gauge: micrometer 1{NEW}}}\n"
    assert wanted(width + wild, RENEWED)[0] == (
        "Measure again the new AB-02 Case with wheel, length (micrometer), noted as new."
    )
    assert wanted(width, RENEWED)[0] == (
        "Measure the new AB-02 Case with wheel, length (micrometer), noted as new."
    )
