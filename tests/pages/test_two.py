"""Two people at once on one job: both entries stay, the clash is shown, and a person settles it."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import Page, expect

from tests.pages.served import NUMBER

Screen = Callable[..., Page]


def read_flatness(page: Page, figure: str) -> None:
    section = page.locator("section", has_text="Read: flatness")
    section.locator("summary").click()
    for place in section.locator("[data-gauge]").all():
        place.fill(figure)
    section.locator("button.take").click()
    page.wait_for_load_state()


def test_a_clash_is_shown_and_settled(screen: Screen) -> None:
    first, second = screen("quill"), screen("maddick")
    for page in (first, second):
        page.goto(f"/jobs/{NUMBER}/parts/OT-031")
    read_flatness(first, "0.03")
    read_flatness(second, "0.19")
    for page in (first, second):
        page.goto(f"/jobs/{NUMBER}/")
        expect(page.get_by_text("quill wrote about the same")).to_be_visible()
    expect(first.get_by_role("button", name="It counts")).to_have_count(0)
    waiting = second.locator("section", has_text="quill wrote about the same")
    waiting.get_by_label("Why").fill("read again together")
    waiting.get_by_role("button", name="It counts").click()
    expect(second.get_by_text("quill wrote about the same")).to_have_count(0)
    first.goto(f"/jobs/{NUMBER}/parts/OT-031")
    expect(first.locator(".found", has_text="0.19")).to_be_visible()


def test_a_move_that_somebody_else_made_is_not_made_twice(screen: Screen, taken_in: Callable[[str], str]) -> None:
    first, second = screen("quill"), screen("maddick")
    job = taken_in("Layline five-speed countershaft gearbox iron")
    for page in (first, second):
        page.goto(f"{job}bench")
    move = first.inner_text("article h1")
    first.click("text=Done")
    expect(first.locator("article h1")).not_to_have_text(move)
    second.click("text=Done")
    expect(second.get_by_role("alert")).to_contain_text("moved on since this page was opened")
    expect(second.locator("article h1")).to_have_text(first.inner_text("article h1"))
