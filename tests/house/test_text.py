"""What may stand in no committed text: loose ends, silenced checks, and the places of one machine."""

import re

import pytest

from tests.house.tree import list_texts

# Brackets inside the words keep this file from finding itself.
UNWANTED = {
    "a loose end": r"\b(?:T[O]DO|F[I]XME|X[X]X|H[A]CK)\b",
    "a silenced check": r"#\s*(?:n[o]qa|type:\s*i[g]nore|pragma:\s*no\s*c[o]ver)",
    "a merge left half done": r"^(?:<{7}|>{7})\s",
    "a registry's host": r"\b(?:pypi|pythonhosted|npmjs|debian|ubuntu|crates|anaconda|conda)\.[a-z]{2,3}\b",
    "a path of one machine": r"(?<![\w.:/-])/(?:w[o]rk\b|r[o]ot\b|h[o]me/\w|opt/w[h]eels|tmp/\w)",
    "a path outside the tree": r"\.\./sh[a]red\b",
    "a number in somebody's tracker": r"\b(?:issue|ticket) #?\d+\b",
}


@pytest.mark.parametrize("what", UNWANTED)
def test_no_text_holds(what):
    pattern = re.compile(UNWANTED[what], re.MULTILINE)
    found = [f"{name}:{text.count(chr(10), 0, match.start()) + 1}: {match.group().strip()}"
             for name, text in list_texts() for match in pattern.finditer(text)]
    assert not found, f"{what} stands in {', '.join(found)}"


@pytest.mark.parametrize("what, sample", [
    ("a loose end", "# TO" + "DO: later"),
    ("a silenced check", "x = 1  # no" + "qa: E501"),
    ("a merge left half done", "<" * 7 + " ours"),
    ("a registry's host", "https://files.python" + "hosted.org/x"),
    ("a path of one machine", "see /wo" + "rk/main"),
    ("a path of one machine", "'/ho" + "me/kim/x'"),
    ("a path outside the tree", "../sha" + "red/demo"),
    ("a number in somebody's tracker", "as iss" + "ue 2 says"),
])
def test_unwanted_text_would_be_found(what, sample):
    assert re.search(UNWANTED[what], sample, re.MULTILINE)


def test_texts_end_with_a_newline_and_have_no_carriage_returns():
    found = [name for name, text in list_texts()
             if name.endswith((".py", ".md", ".toml", ".txt", ".yaml")) and text
             and (not text.endswith("\n") or "\r" in text) and not name.startswith("tests/data/")]
    assert not found
