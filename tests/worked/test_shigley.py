"""R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design.

Example 10-1 (9th and 10th ed.): music wire 0.037 in, outside 7/16 in, squared ends not ground, 12.5 coils,
G = 11.85e6 psi, Ssy = 0.45 x 201 kpsi / 0.037^0.145, both ends on flat plates. The book rounds D to 0.400 in
and C to 10.8 on its way, so unrounded work lies 0.2 to 0.4 % off its figures; the tolerances allow for that.
"""

import pytest

from layshaft.mechanics import clutch, coil, spring, spring_stress
from tests.worked.check import CLOSED, INCH, LBF, MEMORY, PSI, SEEN, Check

WIRE, OUTSIDE, TOTAL, G = 0.037 * INCH, 7 / 16 * INCH, 12.5, 11.85e6 * PSI
MEAN = coil.mean_diameter(OUTSIDE, WIRE)
INDEX = coil.index(MEAN, WIRE)
ACTIVE = TOTAL - coil.inactive_coils("squared")
FACTOR = spring_stress.bergstraesser_factor(INDEX)
YIELD = 0.45 * 201e3 / 0.037**0.145 * PSI
AT_YIELD = spring_stress.force_at_stress(YIELD, WIRE, MEAN, FACTOR)
RATE = spring.rate(G, WIRE, MEAN, ACTIVE)
SOLID = coil.solid_length(WIRE, TOTAL, "squared")
FREE = SOLID + AT_YIELD / RATE

# Problem, hydraulic multi-disc clutch: 6.5 and 4.0 in, friction 0.24, 120 psi at the inner edge, 6 planes.
CLAMP = 1884.96 * LBF
MIDDLE = clutch.radius_uniform_wear(3.25 * INCH, 2.0 * INCH)

CHECKS = [
    Check("10-1 index", lambda: INDEX, 10.8, 0.05, MEMORY),
    Check("10-1 Bergstraesser factor", lambda: FACTOR, 1.124, 0.0005, MEMORY),
    Check("10-1 force at yield, lbf", lambda: AT_YIELD / LBF, 6.46, 0.033, MEMORY),
    Check("10-1 rate, lbf/in", lambda: RATE / (LBF / INCH), 4.13, 0.021, MEMORY),
    Check("10-1 deflection at yield, in", lambda: AT_YIELD / RATE / INCH, 1.56, 0.008, MEMORY),
    Check("10-1 solid length, in", lambda: SOLID / INCH, 0.5, 0.001, MEMORY),
    Check("10-1 free length, in", lambda: FREE / INCH, 2.06, 0.011, MEMORY),
    Check(
        "10-1 free length that buckles, in",
        lambda: spring_stress.stable_free_length(MEAN, 0.5, 30e6 * PSI, 11.5e6 * PSI) / INCH,
        2.1,
        0.011,
        MEMORY,
    ),
    Check("10-1 pitch, in", lambda: coil.pitch(FREE, WIRE, TOTAL, "squared") / INCH, 0.186, 0.001, MEMORY),
    Check(
        "16 clutch torque, lbf in",
        lambda: clutch.disc_torque(6, 0.24, CLAMP, MIDDLE) / (LBF * INCH),
        7125,
        0.5,
        MEMORY,
    ),
    Check(
        "16 pressure at the inner edge, psi",
        lambda: clutch.peak_face_pressure(CLAMP, 3.25 * INCH, 2.0 * INCH) / PSI,
        120,
        0.01,
        MEMORY,
    ),
    Check(
        "constant of absolute stability, steel 30/11.5",
        lambda: 0.5 * spring_stress.stable_free_length(1.0, 0.5, 30e6, 11.5e6),
        2.63,
        0.006,
        SEEN,
    ),
    Check(
        "EN 13906-1 k is the Bergstraesser factor at 8",
        lambda: spring_stress.bergstraesser_factor(8.0),
        (8 + 0.5) / (8 - 0.75),
        5e-12,
        CLOSED,
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_best_ratio_of_diameters_is_the_printed_one():
    """For a pressure limit at the inner edge the torque is greatest at d/D = 0.577 (seen in a published
    text).
    """
    ratios = [i / 10_000 for i in range(1_000, 9_990)]
    torques = []
    for ratio in ratios:
        clamp = 1.0 / clutch.peak_face_pressure(1.0, 1.0, ratio)
        torques.append(clutch.disc_torque(2, 0.3, clamp, clutch.radius_uniform_wear(1.0, ratio)))
    assert ratios[torques.index(max(torques))] == pytest.approx(0.577, abs=0.0005)
