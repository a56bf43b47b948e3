"""JCGM 100:2008, Guide to the expression of uncertainty in measurement.

Example H.1, calibration of an end gauge, and the Student factors of Annex G. Seen in the tests of a public
uncertainty calculator and in the manual page of a public package. The three parts of the comparison (13 nm
over 5 readings, 10 nm over the factor 2.57, 20 nm over 3) are from memory; the guide prints them rounded as
5.8, 3.9 and 6.7, and its 25.6 degrees of freedom follow from the unrounded ones. From the rounded parts
25.4 would follow.
"""

import math

import pytest

from layshaft.gauging.student import student_factor
from layshaft.gauging.uncertainty import Contribution, combine_uncertainty
from tests.worked.check import MEMORY, SEEN, Check

COMPARISON = combine_uncertainty(
    [Contribution(13 / math.sqrt(5), 1, 24), Contribution(10 / 2.57, 1, 5), Contribution(20 / 3, 1, 8)]
)

LENGTH, EXPANSION = 50_000_623.0, 11.5e-6
PARTS = {
    "standard": Contribution(25.0, 1.0, 18),
    "comparison": Contribution(9.7, 1.0, 25.6),
    "difference of expansion": Contribution(0.58e-6, 0.1 * LENGTH, 50),
    "difference of temperature": Contribution(0.029, EXPANSION * LENGTH, 2),
}
END_GAUGE = combine_uncertainty(PARTS.values())


def part(name: str) -> float:
    return PARTS[name].sensitivity * PARTS[name].uncertainty


CHECKS = [
    Check("H.1 comparison, nm", lambda: COMPARISON.uncertainty, 9.7, 0.05, SEEN),
    Check("H.1 comparison, degrees of freedom", lambda: COMPARISON.degrees_of_freedom, 25.6, 0.05, SEEN),
    Check("H.1 part of expansion, nm", lambda: part("difference of expansion"), 2.9, 0.05, SEEN),
    Check("H.1 part of temperature, nm", lambda: part("difference of temperature"), 16.6, 0.1, SEEN),
    Check("H.1 combined, nm", lambda: END_GAUGE.uncertainty, 32, 0.5, SEEN),
    Check("H.1.6 degrees of freedom", lambda: END_GAUGE.degrees_of_freedom, 16.7, 0.05, SEEN),
    Check("H.1.6 degrees of freedom cut down", lambda: math.floor(END_GAUGE.degrees_of_freedom), 16, 0, SEEN),
    Check(
        "H.1.6 factor for 99 %", lambda: student_factor(0.99, END_GAUGE.degrees_of_freedom), 2.92, 0.005, SEEN
    ),
    Check("H.1.6 expanded, nm", lambda: END_GAUGE.expanded(0.99), 93, 0.5, SEEN),
    *(
        Check(
            f"G.2 factor for {chance} and {freedom}",
            lambda chance=chance, freedom=freedom: student_factor(chance, freedom),
            printed,
            0.005,
            status,
        )
        for chance, freedom, printed, status in [
            (0.95, 1, 12.71, SEEN),
            (0.6827, 1, 1.84, SEEN),
            (0.9973, 5, 5.51, SEEN),
            (0.90, 20, 1.72, SEEN),
            (0.95, 10, 2.23, MEMORY),
        ]
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_an_uncertainty_rounded_too_early_shows_in_the_degrees_of_freedom():
    doubt = END_GAUGE.uncertainty**4 / END_GAUGE.degrees_of_freedom
    assert math.floor(END_GAUGE.uncertainty**4 / doubt) == 16
    assert math.floor(round(END_GAUGE.uncertainty) ** 4 / doubt) == 17
