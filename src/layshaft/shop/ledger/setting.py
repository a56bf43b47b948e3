"""Changing a few keys of the settings' text where they stand, all else left as it was written."""

from __future__ import annotations

import re
from collections.abc import Mapping

_REVISION = re.compile(r"^revision:[ \t]*([0-9]{1,9})[ \t]*$", re.MULTILINE)


def with_keys(text: str, changed: Mapping[str, str]) -> str:
    """The text with top keys set anew, each on its own line; what is set to nothing is taken out."""
    for key, value in changed.items():
        text = _with_key(text, key, value)
    return text


def _with_key(text: str, key: str, value: str) -> str:
    line = f"{key}: {value}\n" if value else ""
    there = re.compile(rf"^{re.escape(key)}:.*\n?(?:[ \t]+\S.*\n?)*", re.MULTILINE)
    if there.search(text):
        return there.sub(lambda _: line, text, count=1)
    head = re.search(r"^revision:.*\n", text, re.MULTILINE)
    at = head.end() if head else len(text)
    return text[:at] + line + text[at:]


def counted_up(text: str) -> str:
    """The text as its next revision: a job that quotes one says by which settings it was worked out."""
    found = _REVISION.search(text)
    return text if found is None else f"{text[: found.start(1)]}{int(found[1]) + 1}{text[found.end(1) :]}"


def is_same_revision(text: str, before: str) -> bool:
    """Whether two texts say that they are one revision."""
    one, other = _REVISION.search(text), _REVISION.search(before)
    return one is not None and other is not None and one[1] == other[1]
