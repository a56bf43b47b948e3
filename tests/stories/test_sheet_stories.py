"""Every story of a shop or job file comes out as it is told, every message has one, and the manual has every key."""

import re

import pytest

from layshaft.book.definition import Job, Shop
from layshaft.book.grammar import definitions, heading, key_rows
from layshaft.book.message.sheet import SELLING, WORKING
from tests.stories.renew import first_cells, table_of
from tests.stories.sheet_story import PAGES, SHEET_MANUAL, examples, report_of
from tests.stories.story import stories_in

STORIES = [
    pytest.param(kind, story, id=f"{kind}: {story.title}") for kind, page in PAGES.items() for story in stories_in(page)
]
MANUAL_TEXT = SHEET_MANUAL.read_text(encoding="utf-8")
NOT_IN_A_STORY = {
    # The slip hub has no part that comes in another or is sold by another id; the tests of shop files tell these.
    "shop": {"not sold", "sold by another id"},
    # Only a program can hand a job the unit of another variant than the job names; the slip hub's plate of several
    # sizes is neither off nor looked at, and the tests of job files tell what is said of one that is.
    "job": {"another variant", "own size unread"},
}
SHEET_DEFINITIONS = definitions(Shop, Job)


@pytest.mark.parametrize("kind", PAGES)
def test_whole_example_has_neither_fault_nor_note(kind):
    assert report_of(kind, examples()[kind]) == f"{kind}.yaml: no faults, no notes"


@pytest.mark.parametrize("kind, story", STORIES)
def test_story(kind, story):
    assert report_of(kind, story.told(examples()[kind])) == story.report


@pytest.mark.parametrize("kind, messages", [("shop", SELLING), ("job", WORKING)])
def test_every_message_has_a_story(kind, messages):
    told = {
        found
        for story in stories_in(PAGES[kind])
        for found in re.findall(rf"^{kind}\.yaml:\d+:\d+: (?:fault|note): (.+)$", story.report, re.MULTILINE)
    }
    assert set(messages) - told == NOT_IN_A_STORY[kind]


@pytest.mark.parametrize("kind", PAGES)
def test_every_section_is_read_as_a_story(kind):
    titles = re.findall(r"^## (.+)$", PAGES[kind].read_text(encoding="utf-8"), re.MULTILINE)
    assert titles == [story.title for story in stories_in(PAGES[kind])]


@pytest.mark.parametrize("name", SHEET_DEFINITIONS)
def test_every_key_is_in_the_manual(name):
    lines = table_of(MANUAL_TEXT, heading(SHEET_DEFINITIONS[name])).splitlines()
    expected = [first_cells(row) for row in key_rows(SHEET_DEFINITIONS[name])]
    assert [line[: len(cells)] for line, cells in zip(lines, expected, strict=True)] == expected
    assert not [line for line in lines if not re.search(r"\S.*\. \|$", line)], "a key has no sentence"


def test_manual_has_no_table_of_what_is_no_definition():
    titles = re.findall(r"^### (.+)$", MANUAL_TEXT, re.MULTILINE)
    assert [title.casefold() for title in titles] == [heading(kind) for kind in SHEET_DEFINITIONS.values()]
