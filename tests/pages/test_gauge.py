"""A gauge that types its figure and Enter: it goes on to the next place, and presses and writes nothing."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.pages.conftest import TELEPHONE
from tests.pages.served import NUMBER

Screen = Callable[..., Page]


@pytest.fixture
def part(screen: Screen) -> Page:
    """The plate that is read for flatness at four places, with its form open."""
    page = screen("maddick")
    page.goto(f"/jobs/{NUMBER}/parts/OT-034")
    page.locator("section", has_text="Read: flatness").locator("summary").click()
    return page


def posts(page: Page) -> list[str]:
    """Every form that is sent from now on."""
    sent: list[str] = []
    page.on("request", lambda request: request.method == "POST" and sent.append(request.url))
    return sent


def from_gauge(page: Page, figure: str) -> None:
    page.keyboard.type(figure)
    page.keyboard.press("Enter")


def test_it_goes_from_place_to_place_and_stops_before_the_button(part: Page) -> None:
    sent = posts(part)
    places = part.locator("section", has_text="Read: flatness").locator("[data-gauge]")
    armed = part.locator(".armed")
    places.first.click()
    for at, figure in enumerate(("0.06", "0.05", "0.07", ".08"), 1):
        expect(armed).to_have_text(f"Flatness, place {at} of 4, in mm")
        from_gauge(part, figure)
    assert [place.input_value() for place in places.all()] == ["0.06", "0.05", "0.07", ".08"]
    expect(part.locator("button:text('Take flatness down')")).to_be_focused()
    expect(armed).to_contain_text("Nothing is armed")
    for _ in range(3):
        from_gauge(part, "0.09")
    assert sent == []
    assert [place.input_value() for place in places.all()] == ["0.06", "0.05", "0.07", ".08"]
    part.keyboard.press("Space")
    expect(part.locator(".verdict.big")).to_contain_text("flatness .08 mm at place 4, within the 0.15 mm allowed")
    assert len(sent) == 1


def test_the_pad_writes_to_what_is_armed_and_to_nothing_else(part: Page) -> None:
    places = part.locator("section", has_text="Read: flatness").locator("[data-gauge]")
    pad = part.get_by_label("Number pad")
    pad.get_by_role("button", name="7", exact=True).click()
    assert all(place.input_value() == "" for place in places.all())
    places.first.click()
    for sign in ("1", "Space", "1", "Over", "2", "Take the last sign away", "4", "Next place", ".", "0"):
        pad.get_by_role("button", name=sign, exact=True).click()
    assert [place.input_value() for place in places.all()] == ["1 1/4", ".0", "", ""]


@pytest.mark.parametrize("has_script", [True, False])
def test_a_stray_enter_on_the_bench_does_nothing(
    screen: Screen, taken_in: Callable[[str], str], has_script: bool
) -> None:
    page = screen("quill", java_script_enabled=has_script)
    page.goto(f"{taken_in('Layline five-speed countershaft gearbox iron')}bench")
    sent, move = posts(page), page.inner_text("article h1")
    if has_script:
        from_gauge(page, "8.45")
        page.locator("button:text('Done')").focus()
        from_gauge(page, "8.45")
    for field in page.locator("article input:visible").all():
        field.focus()
        from_gauge(page, "3")
    for fold in page.locator("summary").all():
        fold.click()
    for field in page.locator("main input:visible:not([type=checkbox])").all():
        field.focus()
        page.keyboard.press("Enter")
    assert sent == []
    assert page.inner_text("article h1") == move


def test_a_telephone_shows_the_place_above_the_pad_and_a_tap_is_not_lost(
    screen: Screen, taken_in: Callable[[str], str]
) -> None:
    page = screen("quill")
    page.set_viewport_size(TELEPHONE)
    page.goto(f"{taken_in('Layline five-speed countershaft gearbox iron')}bench")
    place, pad = page.get_by_label("How many came off"), page.get_by_label("Number pad")
    place.first.click()
    pad.get_by_role("button", name="Take the last sign away").click()
    pad.get_by_role("button", name="1", exact=True).click()
    over, under = place.first.bounding_box(), pad.bounding_box()
    assert over and under
    assert over["y"] + over["height"] <= under["y"]
    page.locator("button.done").click()
    expect(page.get_by_label("How many came off, of 1?")).to_be_visible()
