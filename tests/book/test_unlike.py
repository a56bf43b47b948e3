"""A temperature that a thermometer shows and a difference of two: neither is ever taken for the other.

1 °C of difference is 1 K and 9 °F of it are 5 K, by the definition of the degrees (NIST SP 811, appendix B.8).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layshaft.book import BookFaults, load_book
from layshaft.book.sheet import SheetFaults, load_job, load_shop
from layshaft.book.sheet_check import check_job, unit_of
from layshaft.book.unlike import DIFFERENCE, READ_OFF
from layshaft.quantity import TEMPERATURE_DIFFERENCE
from tests.book.small import BOOK_TEXT, JOB_TEXT, SHOP, SHOP_TEXT


def warned(band: str, at: str) -> list[str]:
    shop = load_shop(SHOP_TEXT.replace("temperature band: 4 K", f"temperature band: {band}"), "shop.yaml")
    sheet = load_job(JOB_TEXT.replace("temperature: 21 °C", f"temperature: {at}"), "job.yaml")
    return [one.id for one in check_job(sheet, unit_of(sheet, load_book(BOOK_TEXT, "slip.yaml")), shop.content).found]


@pytest.mark.parametrize("band", ["5 K", "5 °C", "9 °F", "5 degC"])
def test_a_band_in_degrees_is_as_wide_as_it_says(band: str) -> None:
    assert warned(band, "25.0 °C") == []
    assert warned(band, "25.1 °C") == ["far from reference"]
    assert warned(band, "77.2 °F") == ["far from reference"]
    assert warned(band, "14.9 °C") == ["far from reference"]


def test_a_band_of_another_kind_is_a_fault() -> None:
    with pytest.raises(SheetFaults) as caught:
        load_shop(SHOP_TEXT.replace("temperature band: 4 K", "temperature band: 4 mm"), "shop.yaml")
    assert [(one.line, one.column, one.id) for one in caught.value.report.faults] == [(12, 19, "figure")]


def test_what_a_gauge_errs_by_is_a_difference() -> None:
    gauge = "  thermometer 1: {class: thermometer, u95: 2 °C, step: 0.9 °F}\n"
    gauges = load_shop(SHOP_TEXT.replace("gauges:\n", f"gauges:\n{gauge}"), "shop.yaml").content.gauges
    u95, step = gauges["thermometer 1"].u95, gauges["thermometer 1"].step
    assert u95 is not None and step is not None
    assert (u95.nominal, step.nominal) == (2, Fraction(1, 2))
    assert u95.dimension == step.dimension == TEMPERATURE_DIFFERENCE


PROOFS = """\
  warm: {name: Warm run, how: Run it, limit: at most 45 K, proves: Preload, does not prove: Life, time: 1 min}
  sump: {name: Sump, how: Run it, limit: at most 110 °C, proves: Cooling, does not prove: Life, time: 1 min}
"""


def proved(proof: str, figure: str) -> list[tuple[str, str, str]]:
    book = load_book(BOOK_TEXT.replace("proofs:\n", f"proofs:\n{PROOFS}"), "slip.yaml")
    sheet = load_job(f"{JOB_TEXT}proved: [{{proof: {proof}, figure: {figure}}}]\n", "job.yaml")
    report = check_job(sheet, unit_of(sheet, book), SHOP.content)
    return [(one.id, one.found, one.try_) for one in report.found]


@pytest.mark.parametrize(
    ("proof", "figure", "told"),
    [
        ("warm", "40 K", []),
        ("warm", "40 °C", [("wrong dimension", "40 °C, a temperature", DIFFERENCE)]),
        ("warm", "72 °F", [("wrong dimension", "72 °F, a temperature", DIFFERENCE)]),
        ("sump", "90 °C", []),
        ("sump", "90 K", [("wrong dimension", "90 K, a temperature difference", READ_OFF)]),
        ("sump", "3 mm", [("wrong dimension", "3 mm, a length", "")]),
    ],
)
def test_a_rise_is_typed_as_a_rise_and_a_temperature_as_one(
    proof: str, figure: str, told: list[tuple[str, str, str]]
) -> None:
    assert proved(proof, figure) == told


HEAT = "      heat: {how: thermometer, gauge: thermometer, new: at most 90 °C, reuse: at most 100 °C}\n"


def read(figure: str) -> list[str]:
    text = BOOK_TEXT.replace("      bore: {how: bore gauge", f"{HEAT}      bore: {{how: bore gauge")
    shop_text = SHOP_TEXT.replace("gauges:\n", "gauges:\n  th 1: {class: thermometer, u95: 2 °C, step: 0.5 °C}\n")
    entry = f"readings: [{{part: S-1, reading: heat, figures: [{figure}], gauge: th 1}}]\n"
    sheet = load_job(f"{JOB_TEXT}{entry}", "job.yaml")
    report = check_job(sheet, unit_of(sheet, load_book(text, "slip.yaml")), load_shop(shop_text, "shop.yaml").content)
    return [one.id for one in report.found]


@pytest.mark.parametrize(
    ("figure", "told"), [("40.5 °C", []), ("40.25 °C", ["finer than gauge"]), ("40 K", ["wrong dimension"])]
)
def test_a_thermometer_steps_from_nought_degrees(figure: str, told: list[str]) -> None:
    assert read(figure) == told


def test_a_model_that_asks_for_a_rise_takes_no_temperature() -> None:
    grown = """\
  grown:
    about: What 60 degrees do
    model: thermal growth
    of: {length: 100 mm, expansion: 12 ppm/K, rise: 60 °C}
"""
    with pytest.raises(BookFaults) as caught:
        load_book(BOOK_TEXT.replace("results:\n", f"results:\n{grown}"), "slip.yaml")
    (fault,) = caught.value.report.faults
    assert (fault.id, fault.found, fault.try_) == ("wrong dimension", "`60 °C`, a temperature", DIFFERENCE)


def test_the_limit_of_a_difference_is_one() -> None:
    warmer = "  warmer: {about: Over the room, is: 60 °C - 20 °C, limit: at most 45 °C}\n"
    with pytest.raises(BookFaults) as caught:
        load_book(BOOK_TEXT.replace("results:\n", f"results:\n{warmer}"), "slip.yaml")
    assert [(one.id, one.try_) for one in caught.value.report.faults] == [("wrong dimension", DIFFERENCE)]
