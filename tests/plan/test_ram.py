"""A shop's presses: what the gauge shows, whether it can show it, whether stroke and daylight are enough."""

from __future__ import annotations

import pytest

from layshaft.plan.ram import RamFit, RamTask, fit_rams
from layshaft.plan.spring_fact import Band
from layshaft.quantity import Show
from tests.plan.press_box import presses

LBF, PSI, BAR = 4.4482216152605, 6894.757293168361, 1e5


def exactly(force: float) -> Band:
    return Band(force, force, force)


def fit(task: RamTask, *changes: tuple[str, str], press: str = "spring press") -> RamFit:
    return next(one for one in fit_rams(presses(*changes), task, Show()) if one.press == press)


def plain(area: str, scale: str = "90 MPa") -> tuple[tuple[str, str], ...]:
    """A press of a given ram, without return force or an error of its gauge."""
    return (
        ("ram area: 10 cm²", f"ram area: {area}"), ("return force: 0.3 kN", "return force: 0 N"),
        ("rating: 25 kN", "rating: 2500 kN"), ("range: 25 MPa, step: 0.2 MPa, u95: 0.1 MPa", f"range: {scale}"),
    )  # fmt: skip


@pytest.mark.parametrize(
    "area, force, pressure, unit, within",
    [
        # T. H. Wentzell, Machine Design, Example 10.1: 450 lb at 100 psi take a bore of 2.39 in, 4.4863 in^2.
        ("4.48633 in²", 450 * LBF, 100, PSI, 0.5),
        # The same, Example 10.2: 1600 psi on a ram of 3 in give 11 309.73 lb.
        ("7.068583 in²", 11_309.73 * LBF, 1600, PSI, 0.5),
        # Closed form p = F / (pi D^2 / 4): 20 short tons on a bore of 3.000 in; 20 tonnes-force on 70 mm.
        ("7.068583 in²", 40_000 * LBF, 5658.842, PSI, 1),
        ("38.484510 cm²", 20_000 * 9.80665, 509.6414, BAR, 0.2),
        ("7.068583 in²", 7068.583 * LBF, 1000, PSI, 0.5),
    ],
)
def test_gauge_reading_of_published_rams(area, force, pressure, unit, within):
    reading = fit(RamTask(exactly(force), force, 0.05, None), *plain(area)).reading
    assert reading is not None
    assert reading.nominal / unit == pytest.approx(pressure, abs=within)


def test_return_force_and_error_of_the_gauge_widen_what_it_shows():
    """(4000 + 300) N and (5000 + 300) N on 10 cm^2, and 0.1 MPa either way."""
    reading = fit(RamTask(Band(4000.0, 4500.0, 5000.0), 5000.0, 0.05, None)).reading
    assert reading is not None
    assert [reading.low, reading.nominal, reading.high] == pytest.approx([4.2e6, 4.8e6, 5.4e6])


@pytest.mark.parametrize("force, is_readable", [(2200.0, True), (2199.0, False), (24_700.0, True), (24_701.0, False)])
def test_gauge_shows_from_a_tenth_of_its_scale_to_its_end(force, is_readable):
    """25 MPa on 10 cm^2, 300 N of return force: 2.5 MPa is 2200 N, 25 MPa is 24 700 N (a tenth: common practice)."""
    found = fit(RamTask(exactly(force), force, 0.05, None))
    assert found.is_readable is is_readable
    assert found.least_shown == pytest.approx(2200.0)


def test_a_press_without_a_gauge_shows_nothing():
    gauge = ",\n     gauge: {range: 25 MPa, step: 0.2 MPa, u95: 0.1 MPa}"
    found = fit(RamTask(exactly(4000.0), 4000.0, 0.05, None), (gauge, ""))
    assert found.fits and not found.is_readable and found.reading is None and found.least_shown is None


def test_the_press_that_shows_the_force_comes_first_and_one_that_does_not_fit_last():
    task = RamTask(exactly(4200.0), 4600.0, 0.0708, 0.088)
    assert [one.press for one in fit_rams(presses(), task, Show())] == ["spring press", "frame press"]
    weak = fit_rams(presses(("rating: 25 kN", "rating: 4 kN")), task, Show())
    assert [(one.press, one.fits) for one in weak] == [("frame press", True), ("spring press", False)]


def test_what_a_press_lacks_is_said_in_figures():
    task = RamTask(exactly(4200.0), 4585.4, 0.0708, 0.088)
    changes = (
        ("rating: 25 kN", "rating: 4 kN"),
        ("stroke: 160 mm", "stroke: 60 mm"),
        ("light: 900 mm", "light: 150 mm"),
    )
    assert fit(task, *changes).faults == (
        "the load can come to 4.59 kN, above its rating of 4 kN",
        "its stroke of 60 mm is less than the travel of 70.80 mm to free",
        "its daylight of 150 mm is no more than the 158.80 mm of unit and travel alone",
    )


def test_room_for_the_tool_is_what_daylight_leaves():
    assert fit(RamTask(exactly(4200.0), 4600.0, 0.0708, 0.088)).room == pytest.approx(0.900 - 0.088 - 0.0708)
    assert fit(RamTask(exactly(4200.0), 4600.0, 0.0708, None)).room is None
