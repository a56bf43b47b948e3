"""Every story comes out as it is told, and every message about a book has one."""

import re
from pathlib import Path

import pytest

from layshaft.book import check_book
from layshaft.book.message import BOOK_MESSAGES
from tests.stories.story import example, stories_in

PAGES = sorted(Path(__file__).parent.glob("*.md"))
STORIES = [pytest.param(story, id=f"{page.stem}: {story.title}") for page in PAGES for story in stories_in(page)]
NOT_IN_A_STORY = {
    "too large": "a story would have to hold two million bytes",
    "not utf-8": "a story is text",
    "empty file": "a story changes a book",
    "alias growth": "a story would be too long to read",
    "need branches": "it takes more parts than the small book has",
    "not accepted": "stands in for a refusal that nobody foresaw",
}


@pytest.mark.parametrize("story", STORIES)
def test_story(story):
    assert check_book(story.told(example()), "book.yaml").text() == story.report


def test_every_section_is_read_as_a_story():
    for page in PAGES:
        titles = re.findall(r"^## (.+)$", page.read_text(encoding="utf-8"), re.MULTILINE)
        assert titles == [story.title for story in stories_in(page)]


def test_every_message_about_a_book_has_a_story():
    told = {found for page in PAGES for story in stories_in(page)
            for found in re.findall(r"^book\.yaml:\d+:\d+: (?:fault|note): (.+)$", story.report, re.MULTILINE)}
    assert set(BOOK_MESSAGES) - told == set(NOT_IN_A_STORY)
