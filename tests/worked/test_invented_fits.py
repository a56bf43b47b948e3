"""The project's own invented units: fits of the overdrive unit and the countershaft gearbox, in mm.

Nothing here stands in print. The figures were worked out once, apart from this program, and typed in again.
"""

from fractions import Fraction as F

import pytest

from layshaft.gauging.assortment import Assortment, CrossLimit, Pool, Result, Selective, Size
from layshaft.gauging.conformity import Guard, judge_conformity, probability_inside
from layshaft.gauging.selection import choose_jointly
from layshaft.gauging.stack import Term, stack
from layshaft.gauging.uncertainty import standard_uncertainty
from layshaft.gauging.window import Window, is_inside
from tests.worked.check import OWN, Check


def figures(text: str) -> list[F]:
    return [F(word) for word in text.split()]


def between(low: str, high: str) -> Window:
    return Window(F(low), F(high))


# Overdrive unit, widest variant: one unit fitted from measured parts.
FRICTIONS = figures("1.948 1.955 1.941 1.950 1.946 1.952 1.944 1.957 1.949 1.951 1.945")
STEELS = figures("1.748 1.742 1.751 1.739 1.712 1.746 1.705 1.744 1.749 1.698 1.741 1.752 1.737 1.747")
BRAKE_PLATES = figures("2.049 2.053 2.046 2.051 2.048 1.797 1.801 1.792 1.799")
RECESS, GAP, CLEARANCE = between("13.8", "14.2"), between("0.5", "0.9"), between("3.5", "4.1")
STROKE = Window(F("2.75"), None)

RECESS_REST = F("50.06") + F("2.11") + sum(FRICTIONS) + F("5.02") - F("87.51")
GAP_REST = RECESS_REST + F("0.4") - F("9.86")
CLEARANCE_REST = F("45.9") - sum(BRAKE_PLATES) - F("3.98") + F("0.4") - F("12.47")


def selective(name: str, sizes: str) -> Selective:
    return Selective(name, tuple(Size(size) for size in figures(sizes)))


OVERDRIVE = Assortment(
    (
        selective("pressure plate", "4.7 4.9 5.1 5.3 5.5 5.7 5.9 6.1 6.3"),
        selective("spacer", "3.3 3.45 3.6 3.75 3.9 4.05 4.2 4.35 4.5"),
        selective("reaction plate", "8.25 8.45 8.65 8.85 9.05"),
    ),
    (Pool("steels", tuple(STEELS), 10),),
    (
        Result("hub recess", RECESS_REST, {"pressure plate": F(1), "steels": F(1)}, RECESS),
        Result("hub gap", GAP_REST, {"pressure plate": F(1), "steels": F(1), "spacer": F(-1)}, GAP),
        Result("brake clearance", CLEARANCE_REST, {"reaction plate": F(-1)}, CLEARANCE),
    ),
    (CrossLimit("release stroke", {"brake clearance": F(1), "hub gap": F(-1)}, STROKE),),
)
FIT = choose_jointly(OVERDRIVE)

# Countershaft gearbox, iron case at 20 °C: shim by five readings, bands twice the standard uncertainty.
READINGS = [
    ("shoulder", 1, "286.412", 0.02),
    ("front stand", 1, "19.338", 0.01),
    ("rear stand", 1, "19.361", 0.01),
    ("case", -1, "324.984", 0.02),
    ("recess", -1, "1.508", 0.01),
]
BY_DEPTH = stack(
    Term.measured(name, sign, F(reading), standard_uncertainty(band))
    for name, sign, reading, band in READINGS
)
PRELOAD = between("0.02", "0.08")
SHIMS = [F("1.15") + F("0.03") * step for step in range(21)]

# The same by a trial shim of 1.15, known to 0.005, and one end play read by dial.
BY_TRIAL = stack(
    [
        Term.measured("trial shim", 1, F("1.15"), standard_uncertainty(0.005)),
        Term.measured("end play", 1, F("0.231"), standard_uncertainty(0.01)),
    ]
)


def preload_chance(shim: F) -> float:
    return probability_inside(BY_DEPTH.middle + shim, PRELOAD, BY_DEPTH.deviation)


def picked(name: str):
    return lambda: FIT.best.sizes[name]


def reached(name: str):
    return lambda: FIT.best.values[name]


CHECKS = [
    Check("pressure plate", picked("pressure plate"), 5.5, 0, OWN),
    Check("spacer", picked("spacer"), 3.9, 0, OWN),
    Check("reaction plate", picked("reaction plate"), 8.65, 0, OWN),
    Check("ten steels", lambda: FIT.best.sums["steels"], 17.412, 0, OWN),
    Check("hub recess", reached("hub recess"), 14.03, 0, OWN),
    Check("hub gap", reached("hub gap"), 0.67, 0, OWN),
    Check("brake clearance", reached("brake clearance"), 3.764, 0, OWN),
    Check("release stroke", reached("release stroke"), 3.094, 0, OWN),
    Check("triples in all three windows", lambda: FIT.count.sets_inside, 33, 0, OWN),
    Check("of which can fail the stroke", lambda: FIT.count.sets_failing, 5, 0, OWN),
    Check("exact shim by depth", lambda: F("0.05") - BY_DEPTH.middle, 1.431, 0, OWN),
    Check("preload known to", lambda: 2 * BY_DEPTH.deviation, 0.033, 0.0005, OWN),
    Check("chance with 1.42", lambda: preload_chance(F("1.42")), 0.867, 0.0005, OWN),
    Check("chance with 1.45", lambda: preload_chance(F("1.45")), 0.745, 0.0005, OWN),
    Check("chance with 1.39", lambda: preload_chance(F("1.39")), 0.254, 0.0005, OWN),
    Check("best shim", lambda: max(SHIMS, key=preload_chance), 1.42, 0, OWN),
    Check("exact shim by trial", lambda: BY_TRIAL.middle + F("0.05"), 1.431, 0, OWN),
    Check("preload by trial known to", lambda: 2 * BY_TRIAL.deviation, 0.011, 0.0005, OWN),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_the_fit_lists_what_else_would_do():
    assert [pick.is_inside for pick in FIT.others] == [True] * 7
    second = FIT.others[0]
    assert second.sizes == {"pressure plate": F("5.5"), "spacer": F("3.75"), "reaction plate": F("8.65")}
    assert second.smallest_distance < FIT.best.smallest_distance == F("0.425")


def test_every_spare_says_which_clearance_it_gives():
    thicker = next(spare for spare in FIT.spares if spare.size == F("5.9"))
    assert thicker.values["hub recess"] == F("14.43")
    assert thicker.failing == ("hub recess", "hub gap", "release stroke")


def test_two_clearances_inside_their_windows_fail_together():
    clearance, gap = F("3.55"), F("0.85")
    assert is_inside(clearance, CLEARANCE)
    assert is_inside(gap, GAP)
    assert clearance - gap == F("2.70")
    assert not is_inside(clearance - gap, STROKE)


def test_side_clearance_near_its_limit_is_inside_but_not_sure():
    verdict = judge_conformity(F("0.68"), Window(None, F("0.70")), standard_uncertainty(0.025))
    assert verdict.probability == pytest.approx(0.945, abs=0.0005)
    assert verdict.guard is Guard.UNSURE_INSIDE


def test_one_reading_by_trial_shim_is_nearly_sure():
    # What is read off is shim plus end play with no preload; a thicker shim by so much is that much preload.
    preload = F("1.42") - BY_TRIAL.middle
    assert preload == F("0.039")
    assert probability_inside(preload, PRELOAD, BY_TRIAL.deviation) > 0.999


@pytest.mark.parametrize(
    "chain, nominal, worst, rss",
    [
        (
            "50 .15 1; 2.1 .03 1; 5.5 .02 1; 1.95 .03 11; 1.75 .02 10; 5 .05 1; -87.55 .05 1",
            "14.0",
            "0.83",
            0.207,
        ),
        (
            "72.55 .08 1; -2.1 .03 1; -5.5 .02 1; -1.95 .03 11; -1.75 .02 10; -5 .05 1; 62 .08 1; -3 .02 1;"
            "-4 .03 1",
            "76.0",
            "0.84",
            0.178,
        ),
        ("14 .2 1; 0.4 .05 1; -9.8 .12 1; -3.9 .02 1", "0.7", "0.39", 0.239),
        (
            "46 .08 1; -8.65 .02 1; -2.05 .03 5; -1.8 .02 4; -4 .03 1; 0.4 .05 1; -12.5 .08 1",
            "3.8",
            "0.49",
            0.151,
        ),
        ("286.4 .03 1; 19.35 .1 1; 19.35 .1 1; 1.45 .005 1; -325 .05 1; -1.5 .03 1", "0.05", "0.315", 0.156),
    ],
    ids=["hub recess", "spring length", "hub gap", "brake clearance", "countershaft preload"],
)
def test_stacks_as_drawn(chain, nominal, worst, rss):
    terms = []
    for number, link in enumerate(chain.split(";")):
        size, tolerance, count = figures(link)
        sign = 1 if size > 0 else -1
        terms.append(Term.drawn(f"link {number}", sign, abs(size), tolerance, tolerance, int(count)))
    found = stack(terms)
    assert (found.nominal, found.worst) == (F(nominal), F(worst))
    assert found.rss == pytest.approx(rss, abs=0.0005)
