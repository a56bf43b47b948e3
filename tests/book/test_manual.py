"""The manual keeps up with the code: messages, keys, and the book it shows."""

import re

import pytest
from ruamel.yaml import YAML

from layshaft.book import load_book
from layshaft.book.grammar import definitions, heading
from layshaft.book.message.page import message_page
from layshaft.book.model import model_table
from tests.stories.renew import MESSAGES, first_cells, rows_of, table_of
from tests.stories.story import MANUAL, example

PAGE = MANUAL.read_text(encoding="utf-8")
RENEW = "python -m tests.stories.renew writes it"


def test_page_of_messages_is_the_catalogue():
    assert MESSAGES.read_text(encoding="utf-8") == message_page(), RENEW


def test_table_of_models_is_the_closed_list():
    assert model_table() in PAGE, RENEW


@pytest.mark.parametrize("name", definitions())
def test_every_key_is_in_the_manual(name):
    lines = table_of(PAGE, heading(definitions()[name])).splitlines()
    expected = [first_cells(row) for row in rows_of(name)]
    assert [line[: len(cells)] for line, cells in zip(lines, expected, strict=True)] == expected, RENEW
    unsaid = [line for line in lines if not re.search(r"\S.*\. \|$", line)]
    assert not unsaid, "a key has no sentence that says what it is"


def test_manual_has_no_table_of_what_is_no_definition():
    titles = re.findall(r"^### (.+)$", PAGE, re.MULTILINE)
    assert [title.casefold() for title in titles] == [heading(kind) for kind in definitions().values()]


def test_whole_small_book_is_whole():
    book = load_book(example(), "slip-hub.yaml")
    assert not book.notes
    assert {name: unit.parts["SH-60"].count for name, unit in book.units.items()} == {"SH-S": 2, "SH-L": 3}


@pytest.mark.parametrize("block", re.findall(r"^```yaml\n(.*?)^```$", PAGE, re.M | re.S), ids=lambda block: block[:20])
def test_every_snippet_is_yaml(block):
    assert YAML(typ="safe", pure=True).load(block)
