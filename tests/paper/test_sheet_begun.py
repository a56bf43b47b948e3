"""A unit that is half apart: what is loaded now, on what it hangs, and how it comes apart from there."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from layshaft.paper.pdf import sheet_pdf
from layshaft.paper.rebuild_text import rebuild_text
from layshaft.paper.sheet import build_teardown
from layshaft.plan.rebuild import Rebuild
from tests.paper.two_jobs import BOOKS, metric, sheet_of, untouched, worked_through

JOB = """\
layshaft job: 1
id: T-2
invented: true
book: {id: overtop, revision: 1}
shop: {id: kettle-lane, revision: 3}
variant: OT5
opened: 2026-11-23
today: 2026-11-25
intake:
  complaint: Came in a box, half apart
  noticed: [{part: OT-043, is: missing, words: Three pieces in the pan, by: ada}]
done:
  - {off: OT-096, by: ada}
  - {off: OT-091, by: ada}
  - {held: direct spring, release: 3, by: ada}
  - {off: OT-011, by: ada}
  - {let off: direct spring, by: ada}
  - {off: OT-010, by: ada}
  - {off: OT-012, by: ada}
  - {off: OT-030, by: ada}
"""


@pytest.fixture(scope="module")
def begun() -> Rebuild:
    """The adapter is off, and of the two rings that held the spring only the stop ring is whole."""
    return worked_through("overtop", JOB, (BOOKS / "demo" / "shop.yaml").read_text("utf-8"))


def test_what_is_loaded_now_is_told_at_its_length_now(begun: Rebuild) -> None:
    """By the drawing 2.5 mm and 0.2 mm more than 76.0 mm: (132.3 - 78.7) mm at 65.69 N/mm are 3521 N and 94.4 J."""
    told = sheet_of(begun)["loaded"]
    assert told[0].startswith("LOADED: direct spring, ")
    assert told[1].startswith("It hangs on OT-042 sun stop ring now: 78.70 mm long, 3.53 kN as drawn and up to ")
    assert "94.4 J as drawn" in told[1]


def test_a_press_plan_starts_from_how_the_load_hangs(begun: Rebuild) -> None:
    row = next(one for one in sheet_of(begun)["loads"] if one["name"].startswith("Direct spring, taking down"))
    lines = [line for _, line in row["figures"]]
    assert lines[1].startswith("When it is taken up, on OT-042 sun stop ring: 78.70 mm long")
    assert lines[2].startswith("Installed, in the whole unit: 76.00 mm long")


def test_the_steps_down_stand_on_terminal_and_paper(begun: Rebuild) -> None:
    data = sheet_of(begun)
    text = " ".join(rebuild_text(data).split())
    pages = [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(sheet_pdf(data))).pages]
    assert "OT-042 sun stop ring now: 78.70 mm long" in pages[0].replace("\u00a0", " ")
    paper = " ".join(pages)
    for place in (text, paper):
        place = place.replace("\u00a0", " ")
        assert "What is loaded now" in place
        assert "How it comes apart from here" in place
        assert "LOAD: Take up direct spring in the press" in place.replace("LOAD Take", "LOAD: Take")
        assert "OT-042 Sun stop ring, toward front" in place


def test_of_a_whole_unit_nothing_of_that_is_told_unless_asked_for() -> None:
    data = sheet_of(untouched())
    assert data["loaded"] == data["teardown"] == []
    assert "How it comes apart" not in rebuild_text(data)
    asked = build_teardown(untouched())
    assert len(asked["teardown"]) == len(untouched().teardown.steps) > 10
    assert asked["loaded"]


def test_a_unit_all_apart_has_no_way_down_though_something_is_to_be_prepared_for_measuring() -> None:
    demo = metric()
    assert {step.kind for step in demo.teardown.steps} == {"prepare"}
    assert sheet_of(demo)["teardown"] == []
