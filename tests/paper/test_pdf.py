"""The sheet as set: it says what the data say, keeps cautions with their step, and takes no text for markup."""

from __future__ import annotations

import copy
import re
import unicodedata
from collections.abc import Callable, Iterator
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from layshaft.paper.pdf import sheet_pdf
from layshaft.plan.rebuild import Rebuild
from tests.paper.two_jobs import inch, metric, sheet_of

Sheet = dict[str, Any]
JOBS = pytest.mark.parametrize("job", [metric, inch], ids=["metric on A4", "inch on letter"])
UNSET = {"cost", "how", "limit", "origin", "paper", "sentence", "title"}
"""Fields that are not set wherever they stand; the ones that are set somewhere are asked for by name below."""


def plain(text: str) -> str:
    """A text without spaces and ligatures, which setting changes at will."""
    return re.sub(r"\s", "", unicodedata.normalize("NFKC", text))


def pages(data: Sheet) -> list[str]:
    """The text of each page without what stands on every page."""
    head = f"{data['unit']['name']} · {data['unit']['variant']} · serial {data['job']['serial']}job {data['job']['id']}"
    found = []
    for page in PdfReader(BytesIO(sheet_pdf(data))).pages:
        text = plain(page.extract_text()).replace(plain(head), "")
        found.append(re.sub(re.escape(plain(data["foot"])) + r"page\d+of\d+", "", text))
    return found


def strings(value: Any, key: str = "") -> Iterator[str]:
    """Every text of the data that is set."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, list):
        for item in value:
            yield from strings(item, key)
    elif isinstance(value, dict):
        for name, item in value.items():
            if name not in UNSET:
                yield from strings(item, name)


@JOBS
def test_paper_says_what_the_data_say(job: Callable[[], Rebuild]) -> None:
    data = sheet_of(job())
    text = "".join(pages(data))
    missing = [one for one in strings(data) if plain(one) not in text and one != data["foot"]]
    for group in ("open", "chosen", "orders", "loads", "passages"):
        missing += [row["sentence"] for row in data[group] if plain(row["sentence"]) not in text]
    missing += [row["limit"] for row in data["proofs"] if plain(row["limit"]) not in text]
    assert missing == []


@JOBS
def test_size_of_the_paper(job: Callable[[], Rebuild]) -> None:
    """ISO 216: A4 is 210 x 297 mm; ANSI Y14.1: letter is 8.5 x 11 in."""
    data = sheet_of(job())
    box = PdfReader(BytesIO(sheet_pdf(data))).pages[0].mediabox
    wanted = (8.5 * 72, 11 * 72) if data["paper"] == "us-letter" else (210 / 25.4 * 72, 297 / 25.4 * 72)
    assert (float(box.width), float(box.height)) == pytest.approx(wanted, abs=0.5)


def test_what_the_shop_pays_is_not_set() -> None:
    data = sheet_of(metric())
    assert [row["cost"] for row in data["orders"]] == ["21.00 CUR", "22.40 CUR"]
    for row in data["orders"]:
        row["cost"] = "98765.43 CUR"
    assert "98765.43" not in "".join(pages(data))


@JOBS
def test_the_same_data_give_the_same_bytes(job: Callable[[], Rebuild]) -> None:
    data = sheet_of(job())
    assert sheet_pdf(data) == sheet_pdf(copy.deepcopy(data))


def cautioned(data: Sheet) -> list[str]:
    """Every step that has cautions, as its page has to read: the cautions, and right behind them the step."""
    return [
        plain(
            "".join(f"Caution. {line}" for line in step["cautions"]) + f"{step['number']}{step['mark']}{step['what']}"
        )
        for step in data["assembly"]
        if step["cautions"]
    ]


@JOBS
@pytest.mark.parametrize("shift", range(0, 12, 3))
def test_cautions_stand_on_the_page_of_their_step(job: Callable[[], Rebuild], shift: int) -> None:
    """With the text in front of them longer and longer, so that page breaks fall everywhere."""
    data = sheet_of(job())
    data["headline"] = [*data["headline"], *("one line more" for _ in range(shift))]
    set_pages = pages(data)
    wanted = cautioned(data)
    assert len(wanted) > 5
    assert [one for one in wanted if not any(one in page for page in set_pages)] == []


def test_what_is_to_be_done_first_stands_before_everything_else() -> None:
    data = sheet_of(inch())
    data["now"] = ["Stop: read this before a tool is picked up."]
    first = pages(data)[0]
    assert first.index(plain(data["now"][0])) < first.index("customer")


MARKUP = [
    "#let x = 1 #x",
    "*strong* _slant_",
    "$a_1^2$",
    "@someone and <label>",
    "[square] {curly}",
    r"back\slash \n \u{41}",
    "'single' and \"double\" quotes",
    "`raw` ~ -- --- ... // no comment /* nor this */",
    "= no heading",
]


@pytest.mark.parametrize("text", MARKUP)
def test_nothing_typed_is_taken_for_markup(text: str) -> None:
    data = sheet_of(metric())
    data["unit"]["name"] = data["shop"]["name"] = data["job"]["complaint"] = text
    data["facts"][0][1] = data["headline"][0] = data["cautions"][0] = data["fits"][0]["name"] = text
    data["open"][0]["sentence"] = data["found"][0]["rows"][0]["name"] = data["found"][0]["rows"][0]["reason"] = text
    data["assembly"][0]["what"] = data["assembly"][0]["torque"] = data["proofs"][0]["limit"] = text
    data["price"]["lines"][0][0] = data["price"]["notes"][0] = data["handover"][0] = text
    data["now"], data["title"] = [text], text
    found = "".join(pages({**data, "assembly": data["assembly"][:2]}))
    assert found.count(plain(text)) >= 16


def test_a_figure_keeps_to_its_unit() -> None:
    """Words between as many figures as fill a paragraph: no line of it ends between a figure and its unit."""
    data = sheet_of(metric())
    data["headline"] = [" ".join(f"{'m' * (at % 7)} 0.125 mm" for at in range(120))]
    page = PdfReader(BytesIO(sheet_pdf(data))).pages[0].extract_text()
    assert len(re.findall(r"0\.125\s+mm", page)) == 120
    assert not re.findall(r"0\.125\s*\n\s*mm", page)
