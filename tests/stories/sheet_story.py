"""Stories of shop files and job files: a change to the manual's shop or job, and the whole report that follows."""

import re
from pathlib import Path

from layshaft.book import load_book
from layshaft.book.sheet import SheetFaults, load_job, load_shop
from layshaft.book.sheet_check import check_shop_text
from layshaft.shop.replay import check_job_replayed
from tests.house.tree import ROOT
from tests.stories.story import example

SHEET_MANUAL = ROOT / "docs" / "shop-and-job-files.md"
PAGES = {kind: Path(__file__).parent / "sheets" / f"{kind}.md" for kind in ("shop", "job")}


def examples() -> dict[str, str]:
    """The whole small shop and the whole small job of the manual."""
    blocks = re.findall(r"^```yaml\n(# INVENTED.*?)^```$", SHEET_MANUAL.read_text(encoding="utf-8"), re.M | re.S)
    return dict(zip(PAGES, blocks, strict=True))


def report_of(kind: str, text: str) -> str:
    """The whole report on a shop or a job beside the manual's book, and for a job beside the manual's shop."""
    book = load_book(example(), "book.yaml")
    if kind == "shop":
        return check_shop_text(text, "shop.yaml", [book]).text()
    try:
        sheet = load_job(text, "job.yaml")
    except SheetFaults as faults:
        return faults.report.text()
    return check_job_replayed(sheet, book, load_shop(examples()["shop"], "shop.yaml").content).text()
