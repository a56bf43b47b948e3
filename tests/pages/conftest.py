"""A real browser on the demo shop, and someone at it; every page is watched for what a strict policy forbids."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

from tests.pages.served import served

FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
PIN = "2580"
PATIENCE = 60_000
"""How long a page may take [ms] on a machine that does much else; what is there at once is not waited for."""
TABLET = {"width": 1180, "height": 820}
TELEPHONE = {"width": 390, "height": 844}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if "tests/pages/" in item.path.as_posix():
            item.add_marker(pytest.mark.needs_tool("chromium"))


expect.set_options(timeout=PATIENCE)


@pytest.fixture(scope="session")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where the demo shop is served."""
    with served(tmp_path_factory.mktemp("pages")) as address:
        yield address


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        yield opened
        opened.close()


@pytest.fixture
def screen(shop: str, browser: Browser) -> Iterator[Callable[..., Page]]:
    """Opens a screen of its own for someone; at the end none of them has called elsewhere or complained."""
    faults: list[str] = []
    contexts = []

    def open_screen(person: str = "", **more: object) -> Page:
        context = browser.new_context(base_url=shop, viewport=TABLET, **more)
        contexts.append(context)
        context.set_default_timeout(PATIENCE)
        context.on("request", lambda sent: sent.url.startswith((shop, "data:")) or faults.append(sent.url))
        context.on("console", lambda told: told.type in ("error", "warning") and faults.append(told.text))
        context.on("weberror", lambda error: faults.append(str(error.error)))
        page = context.new_page()
        if person:
            page.goto("/who")
            page.check(f"input[value={person}]")
            page.fill("input[name=pin]", PIN)
            page.click("text=Go on")
            page.wait_for_url(f"{shop}/")
        return page

    yield open_screen
    for context in contexts:
        context.close()
    # A refused form answers 409, which the browser logs as a resource that failed; that is no fault of a page.
    assert [fault for fault in faults if "status of 409" not in fault] == []


@pytest.fixture
def taken_in(shop: str, screen: Callable[..., Page]) -> Callable[[str], str]:
    """Takes a unit in and says where its job is."""

    def take_in(unit: str) -> str:
        page = screen("orrin")
        page.goto("/jobs/new")
        page.select_option("select[name=unit]", label=unit)
        page.fill("input[name=customer]", "M. Orrel")
        page.click("text=Take it in")
        page.wait_for_selector("text=To the bench")
        return page.url.removeprefix(shop)

    return take_in
