"""Whatever is done to a book's text, the answer is a book or a report, and the report keeps to its form."""

import re

from hypothesis import example as case
from hypothesis import given, settings
from hypothesis import strategies as st

from layshaft.book import BookFaults, check_book, load_book
from layshaft.book.message import CATALOGUE, SLOT
from tests.stories.story import example

BOOK = example()
LINES = BOOK.splitlines(keepends=True)
WORDS = sorted(set(re.findall(r"[\w.-]+(?: [\w.-]+)?|[\[\]{}:,]", BOOK)))
SIGNS = st.sampled_from([*"[]{}:,-&*!|>'\"%@`#~=\t\n \u00a0\u200b0123456789.±\x00", "null", "...", "---", "<<"])


@st.composite
def mutations(draw):
    """A book with one to four random changes, of the kinds that a hand, an editor or a bad copy makes."""
    text = BOOK
    for _ in range(draw(st.integers(1, 4))):
        text = draw(st.sampled_from(CHANGES))(draw, text)
    return text


def _without_line(draw, text):
    lines = text.splitlines(keepends=True)
    at = draw(st.integers(0, max(0, len(lines) - 1)))
    return "".join(lines[:at] + lines[at + 1 :])


def _line_again(draw, text):
    lines = text.splitlines(keepends=True)
    if not lines:
        return text
    one, at = draw(st.sampled_from(lines)), draw(st.integers(0, len(lines)))
    return "".join([*lines[:at], one, *lines[at:]])


def _other_word(draw, text):
    places = list(re.finditer(r"[\w.-]+", text))
    if not places:
        return text
    place = draw(st.sampled_from(places))
    return text[: place.start()] + draw(st.sampled_from(WORDS)) + text[place.end() :]


def _sign(draw, text):
    at = draw(st.integers(0, len(text)))
    return text[:at] + draw(SIGNS) + text[at + draw(st.integers(0, 2)) :]


def _end_cut_off(draw, text):
    return text[: draw(st.integers(0, len(text)))]


def _deeper(draw, text):
    lines = text.splitlines(keepends=True)
    if not lines:
        return text
    at = draw(st.integers(0, len(lines) - 1))
    lines[at] = " " * draw(st.integers(1, 3)) + lines[at]
    return "".join(lines)


CHANGES = [_without_line, _line_again, _other_word, _other_word, _other_word, _sign, _sign, _end_cut_off, _deeper]


@given(mutations())
@settings(max_examples=400)
@case("")
@case("\n")
@case("layshaft book: 1")
@case("layshaft book: 1\nparts: {A: {}}\n")
@case("a: &x [*x]\nlayshaft book: 1\n")
@case("layshaft book: 1\n? {a: b}\n: c\n")
@case(BOOK.replace("size", "only"))
@case(BOOK.replace("SH-30", "SH-40"))
@case(BOOK.replace("front", "rear"))
def test_any_text_gives_a_book_or_a_report(text):
    report = check_book(text, "book.yaml")
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for one in report.found:
        assert one.id in CATALOGUE
        assert not SLOT.findall(one.sentence.replace(one.found, "")), "a place in a sentence was left open"
        assert 1 <= one.line <= len(lines) and one.column >= 1
        assert one.text().startswith(f"book.yaml:{one.line}:{one.column}: {one.kind}: {one.id}\n  ")
    assert list(report.found) == sorted(report.found, key=lambda one: (one.line, one.column))
    assert len(set(report.found)) == len(report.found)
    if report.is_clean:
        assert load_book(text, "book.yaml").notes == report.notes
    else:
        try:
            load_book(text, "book.yaml")
        except BookFaults as refusal:
            assert refusal.report == report
        else:
            raise AssertionError("a book with faults was used")


@given(st.binary(max_size=200))
def test_any_bytes_give_a_report(data):
    assert not check_book(data, "book.yaml").is_clean


@given(st.sampled_from(range(len(LINES))), st.sampled_from(["\r\n", "\r"]))
def test_line_ends_make_no_difference(at, end):
    text = "".join(LINES[:at]) + LINES[at].replace("\n", end) + "".join(LINES[at + 1 :])
    assert check_book(text, "book.yaml").is_clean
