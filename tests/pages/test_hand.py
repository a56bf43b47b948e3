"""A unit taken in, taken down to its first load and judged, by clicking and again by keyboard alone."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import Page, expect

Screen = Callable[..., Page]
PLAN_READ = "I have read the plan of this load"


def first_load(page: Page) -> bool:
    """Whether the move that is shown takes a load up."""
    return page.get_by_label(PLAN_READ).count() > 0


def test_by_clicking(screen: Screen) -> None:
    page = screen("maddick")
    page.click("text=Take a unit in")
    page.select_option("select[name=unit]", label="Twinpath two-speed transfer case TP2")
    page.fill("input[name=customer]", "M. Orrel")
    page.fill("textarea[name=complaint]", "Jumps out of low")
    page.click("text=Take it in")
    expect(page.locator("h1")).to_contain_text("Twinpath")
    page.click("text=To the bench")
    taken_down = []
    while not first_load(page):
        taken_down.append(page.inner_text("article h1"))
        page.click("text=Done")
        expect(page.locator("article h1")).not_to_have_text(taken_down[-1])
    assert taken_down
    page.click("text=Done")
    expect(page.get_by_role("alert")).to_contain_text("Read the plan of this load first")
    page.get_by_label(PLAN_READ).check()
    load = page.inner_text("article h1")
    page.click("text=Done")
    expect(page.locator("article h1")).not_to_have_text(load)
    judge_by_look(page)


def judge_by_look(page: Page) -> None:
    """Open the first part on the tray that has only looks, press the first grade of each, and see the verdict."""
    page.click("text=Looks and readings")
    page.locator("section", has_text="still to be looked at or read").locator("a").first.click()
    expect(page.locator(".verdict.big")).to_contain_text("Open.")
    for _ in range(page.locator(".grades").count()):
        page.locator("section:not(:has(.found)) .grades button").first.click()
        page.wait_for_load_state()
    expect(page.locator(".verdict.big")).not_to_contain_text("Open.")


def press(page: Page, *keys: str) -> None:
    for key in keys:
        page.keyboard.press(key)


def tab_to(page: Page, what: str) -> None:
    """Go on by Tab until what has the focus begins with these words or has this name."""
    for _ in range(80):
        page.keyboard.press("Tab")
        text, name = page.evaluate("[document.activeElement.innerText, document.activeElement.name]")
        if text.startswith(what) or name == what:
            return
    raise AssertionError(f"No way to {what!r} by keyboard.")


def test_by_keyboard_alone(screen: Screen) -> None:
    page = screen()
    page.goto("/who")
    tab_to(page, "name")
    press(page, "Space", "ArrowDown")
    tab_to(page, "pin")
    page.keyboard.type("2580")
    tab_to(page, "Go on")
    page.keyboard.press("Enter")
    page.wait_for_selector("text=Hand over")
    tab_to(page, "Take a unit in")
    page.keyboard.press("Enter")
    page.wait_for_selector("select[name=unit]")
    tab_to(page, "unit")
    page.keyboard.type("Layline")
    tab_to(page, "customer")
    page.keyboard.type("M. Orrel")
    tab_to(page, "Take it in")
    page.keyboard.press("Space")
    page.wait_for_selector("text=To the bench")
    tab_to(page, "To the bench")
    page.keyboard.press("Enter")
    page.wait_for_selector("article h1")
    for _ in range(8):
        if first_load(page):
            break
        move = page.inner_text("article h1")
        tab_to(page, "Done")
        page.keyboard.press("Space")
        expect(page.locator("article h1")).not_to_have_text(move)
    move = page.inner_text("article h1")
    tab_to(page, "read")
    page.keyboard.press("Space")
    tab_to(page, "Done")
    page.keyboard.press("Space")
    expect(page.locator("article h1")).not_to_have_text(move)

    tab_to(page, "Looks and readings")
    page.keyboard.press("Enter")
    page.wait_for_selector("h1:text('Looks and readings')")
    tab_to(page, "LL-012")
    page.keyboard.press("Enter")
    page.wait_for_selector(".grades")
    tab_to(page, page.inner_text(".grades button >> nth=0"))
    page.keyboard.press("Space")
    expect(page.locator(".found").first).to_be_visible()
    expect(page.locator(".verdict.big strong")).to_be_visible()
