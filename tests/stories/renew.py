"""Writes what the manual and the stories take from the code, after a change that was meant: then read the difference.

Run it from the project's folder with the project's environment: `python -m tests.stories.renew`.
"""

import re
from collections.abc import Callable
from functools import partial
from pathlib import Path

from layshaft.book import check_book
from layshaft.book.definition import Job, Shop
from layshaft.book.grammar import KeyRow, definitions, heading, key_rows
from layshaft.book.message.page import message_page
from layshaft.book.model import MODEL_HEAD, model_table
from tests.house.tree import ROOT
from tests.stories.sheet_story import PAGES as SHEET_PAGES
from tests.stories.sheet_story import SHEET_MANUAL, examples, report_of
from tests.stories.story import MANUAL, example, stories_in

MESSAGES = ROOT / "docs" / "messages.md"
_HEAD = "| key | holds | what it says |\n| --- | --- | --- |\n"


def table_of(page: str, title: str) -> str:
    """The rows of the table of keys under a heading of the manual; nothing where there is none."""
    pattern = rf"^### {re.escape(title)}\n\n(?:[^|#].*\n+)*{re.escape(_HEAD)}((?:\|.*\n)*)"
    found = re.search(pattern, page, re.MULTILINE | re.IGNORECASE)
    return found[1] if found else ""


def first_cells(row: KeyRow) -> str:
    """How the first two cells of a key's row have to read."""
    key = f"**`{row.key}`**" if row.is_needed else f"`{row.key}`"
    return f"| {key} | {row.holds} |"


def rows_of(name: str) -> list[KeyRow]:
    """The keys of a definition that a book can write."""
    return [row for row in key_rows(definitions()[name]) if name != "Unit" or row.key not in ("variant", "cues")]


def _renew_tables(page: str) -> str:
    for name, kind in definitions().items():
        old = table_of(page, heading(kind))
        said = {line.split("`")[1]: line.split(" | ", 2)[2] for line in old.splitlines()}
        new = "".join(f"{first_cells(row)} {said.get(row.key, '|')}\n" for row in rows_of(name))
        page = page.replace(_HEAD + old, _HEAD + new) if old else page
    return re.sub(rf"{re.escape(MODEL_HEAD)}(?:\|.*\n)*", lambda _: model_table(), page)


def _renew_sheet_tables(page: str) -> str:
    for kind in definitions(Shop, Job).values():
        old = table_of(page, heading(kind))
        said = {line.split("`")[1]: line.split(" | ", 2)[2] for line in old.splitlines()}
        new = "".join(f"{first_cells(row)} {said.get(row.key, '|')}\n" for row in key_rows(kind))
        page = page.replace(_HEAD + old, _HEAD + new) if old else page
    return page


def _renew_stories(page: Path, whole: str, report_on: Callable[[str], str]) -> None:
    text = page.read_text(encoding="utf-8")
    for story in stories_in(page):
        report = report_on(story.told(whole))
        before = f"## {story.title}\n\n```diff\n{story.change}\n```\n\n```text\n"
        text = text.replace(f"{before}{story.report}\n```", f"{before}{report}\n```")
    page.write_text(text, encoding="utf-8")


def renew() -> None:
    """Write the page of messages, the tables of keys, and the report of every story."""
    MESSAGES.write_text(message_page(), encoding="utf-8")
    MANUAL.write_text(_renew_tables(MANUAL.read_text(encoding="utf-8")), encoding="utf-8")
    SHEET_MANUAL.write_text(_renew_sheet_tables(SHEET_MANUAL.read_text(encoding="utf-8")), encoding="utf-8")
    for page in Path(__file__).parent.glob("*.md"):
        _renew_stories(page, example(), lambda text: check_book(text, "book.yaml").text())
    for kind, page in SHEET_PAGES.items():
        _renew_stories(page, examples()[kind], partial(report_of, kind))


if __name__ == "__main__":
    renew()
