"""Every page, in both themes and on both screens: nothing that axe calls serious, nothing wider than the screen."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from layshaft.web.urls import urlpatterns
from tests.pages.conftest import TABLET, TELEPHONE
from tests.web.test_route import ROUTES

Screen = Callable[..., Page]
SMALL = """() => [...document.querySelectorAll('main button, main select, main a, main summary, .rail a, .rail button')]
  .filter(one => one.checkVisibility() && Math.ceil(one.getBoundingClientRect().height) < 48)
  .map(one => one.outerHTML.slice(0, 80))"""


def pages() -> list[str]:
    """The addresses of all routes that show a page to an owner."""
    from django.urls import reverse

    return [reverse(name, args=ROUTES[name][1]) for name in (route.name for route in urlpatterns) if name != "leave"]


@pytest.fixture(scope="session")
def axe() -> Axe:
    return Axe()


def serious(axe: Axe, page: Page, theme: Any) -> list[str]:
    """What axe holds against a page; in the dark only its colours are others."""
    page.emulate_media(color_scheme=theme)
    options = {"runOnly": ["color-contrast"]} if theme == "dark" else None
    return [
        f"{fault['id']}: {fault['nodes'][0]['html'][:120]}"
        for fault in axe.run(page, options=options).response["violations"]
        if fault["impact"] in ("serious", "critical")
    ]


def test_every_page(screen: Screen, axe: Axe) -> None:
    page = screen("ferrow")
    faults = {}
    for address in pages():
        answer = page.request.get(address)
        if not (answer.ok and answer.headers["content-type"].startswith("text/html")):
            continue
        policy = answer.headers["content-security-policy"]
        assert "default-src 'self'" in policy and "unsafe" not in policy
        page.set_viewport_size(TABLET)
        page.goto(address)
        found = [f"{theme}: {fault}" for theme in ("light", "dark") for fault in serious(axe, page, theme)]
        found += page.evaluate(SMALL)
        page.set_viewport_size(TELEPHONE)
        if page.evaluate("document.documentElement.scrollWidth") > TELEPHONE["width"]:
            found.append("wider than a telephone")
        faults[address] = found
    assert len(faults) > 6
    assert {address: found for address, found in faults.items() if found} == {}
