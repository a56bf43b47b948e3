"""Stories: a change to the manual's book, and the whole report that follows from it."""

import re
from dataclasses import dataclass
from pathlib import Path

from tests.house.tree import ROOT

MANUAL = ROOT / "docs" / "book-format.md"
_STORY = re.compile(
    r"^## (?P<title>.+?)\n\n```diff\n(?P<change>.*?)\n```\n\n```text\n(?P<report>.*?)\n```$", re.MULTILINE | re.DOTALL
)
_EXAMPLE = re.compile(r"^```yaml\n(# A slip hub.*?)^```$", re.M | re.S)


@dataclass(frozen=True)
class Story:
    """One change and its report."""

    title: str
    change: str
    report: str

    def told(self, book: str) -> str:
        """The book with the change made."""
        for hunk in self.change.split("\n@@\n"):
            lines = hunk.split("\n")
            old = "".join(f"{line[1:]}\n" for line in lines if line.startswith("-"))
            new = "".join(f"{line[1:]}\n" for line in lines if line.startswith("+"))
            assert book.count(old) == 1, f"{old!r} stands {book.count(old)} times in the book"
            book = book.replace(old, new)
        return book


def example() -> str:
    """The whole small book of the manual."""
    found = _EXAMPLE.search(MANUAL.read_text(encoding="utf-8"))
    assert found
    return found[1]


def stories_in(page: Path) -> list[Story]:
    """The stories of one page."""
    text = page.read_text(encoding="utf-8")
    return [Story(*found.group("title", "change", "report")) for found in _STORY.finditer(text)]
