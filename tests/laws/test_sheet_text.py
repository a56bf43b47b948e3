"""Whatever is written into a shop or job file, the answer is a report: every fault placed, and never a bare error."""

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from layshaft.book import load_book
from layshaft.book.message import CATALOGUE
from layshaft.book.sheet import load_shop
from layshaft.book.sheet_check import check_job_text, check_shop_text
from tests.stories.sheet_story import examples
from tests.stories.story import example

BOOK = load_book(example(), "book.yaml")
TEXTS = examples()
SHOP = load_shop(TEXTS["shop"], "shop.yaml").content
WORD = re.compile(r"[^\s{}\[\],:]+")
FIGURES = [
    "0",
    "-1",
    "0 mm",
    "-3 mm",
    "1e9 mm",
    "7/0 mm",
    "4 K",
    "0 K",
    "2 N",
    "0.00 CUR",
    "-5 CUR",
    "2026-02-31",
    "''",
]
OTHERS = sorted({match.group() for text in TEXTS.values() for match in WORD.finditer(text)})
MARKS = ["{", "}", "[", "]", ": ", ", ", "\n", "  ", "&a ", "*a ", "\t", "\u200b"]


@st.composite
def changed(draw, kind):
    """A sound file with a few words, marks and lines changed."""
    text = TEXTS[kind]
    for _ in range(draw(st.integers(1, 4))):
        words = list(WORD.finditer(text))
        word = draw(st.sampled_from(words))
        new = draw(st.sampled_from([*FIGURES, *OTHERS, *MARKS, ""]))
        text = text[: word.start()] + new + text[word.end() :]
    return text


def is_told(report, text):
    for one in report.found:
        assert one.id in CATALOGUE
        assert 1 <= one.line <= text.count("\n") + 2
        assert one.sentence and not re.search(r"\{[a-z]+\}", one.sentence.replace(one.found, ""))
    assert report.text().count("\n") >= len(report.found)


@settings(max_examples=400)
@given(changed("shop"))
def test_any_change_to_a_shop_gets_a_report(text):
    is_told(check_shop_text(text, "shop.yaml", [BOOK]), text)


@settings(max_examples=400)
@given(changed("job"))
def test_any_change_to_a_job_gets_a_report(text):
    is_told(check_job_text(text, "job.yaml", BOOK, SHOP), text)


@given(st.text(max_size=60))
def test_any_text_at_all_gets_a_report(text):
    assert not check_shop_text(text, "shop.yaml").is_clean
    assert not check_job_text(text, "job.yaml", BOOK, SHOP).is_clean
