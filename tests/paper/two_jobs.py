"""Two jobs for the tests of what is put on paper: the shipped one, metric on A4, and a preload in an inch shop."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from layshaft.book import load_book
from layshaft.book.sheet import load_job, load_shop
from layshaft.book.sheet_check import narrow_shop
from layshaft.paper.sheet import build_sheet
from layshaft.plan.rebuild import Rebuild, rebuild

BOOKS = Path(__file__).resolve().parents[2] / "books"

OTHER_SIZES = """\
  - {fit: OT-020, size: 3.90 mm, by: maddick}
  - {fit: OT-034, size: 8.65 mm, by: maddick}
  - {fit: OT-044, size: 5.50 mm, by: maddick}
"""

INCH_SHOP = """\
layshaft shop: 1
id: bench
name: Bench for tests
invented: true
revision: 1
dated: 2026-10-01
currency: CUR
labour rate: 90.00 CUR
units: inch
paper: letter
warranty: {months: 1, words: One month on the work.}
gauges:
  shoulder gauge: {class: height gauge, u95: 0.0008 in}
  front stand gauge: {class: height gauge, u95: 0.0004 in}
  rear stand gauge: {class: height gauge, u95: 0.0004 in}
  case gauge: {class: depth micrometer, u95: 0.0008 in}
  recess gauge: {class: depth micrometer, u95: 0.0004 in}
drawer:
  LL-034: {sizes: {1.39 mm: 1, 1.42 mm: 1, 1.45 mm: 1}}
"""
INCH_JOB = """\
layshaft job: 1
id: T-1
invented: true
book: {id: layline, revision: 1}
shop: {id: bench, revision: 1}
variant: iron
opened: 2026-11-01
today: 2026-11-02
temperature: 68 °F
intake:
  complaint: Whine on drive and overrun
  evidence: ['Oil low by 0.5 kg']
  missing: [Speedometer cable]
"""
READINGS = """\
readings:
  - {part: LL-030, reading: shoulder length, figures: [11.27606 in, 11.27606 in, 11.27606 in], gauge: shoulder gauge}
  - {part: LL-032, reading: stand height, figures: [0.76134 in, 0.76134 in, 0.76134 in], gauge: front stand gauge}
  - {part: LL-033, reading: stand height, figures: [0.76224 in, 0.76224 in, 0.76224 in], gauge: rear stand gauge}
  - {part: LL-010, reading: rear face to front cup seat, figures: [324.984 mm, 324.984 mm, 324.984 mm],
     gauge: case gauge}
  - {part: LL-011, reading: cup recess depth, figures: [1.508 mm, 1.508 mm, 1.508 mm, 1.508 mm], gauge: recess gauge}
"""


def worked_through(book: str, job: str, shop: str) -> Rebuild:
    """A job from its texts."""
    opened = load_book((BOOKS / book / "book.yaml").read_bytes(), book)
    wanted = load_job(job, "job.yaml").content
    bench = narrow_shop(load_shop(shop, "shop.yaml").content, opened, wanted.variant)
    return rebuild(opened.unit(wanted.variant), wanted, bench)


@cache
def metric() -> Rebuild:
    """The shipped job."""
    texts = [(BOOKS / "demo" / f"{kind}.yaml").read_text("utf-8") for kind in ("job", "shop")]
    return worked_through("overtop", *texts)


@cache
def resized() -> Rebuild:
    """The shipped job with other sizes chosen for its three selective parts, all of them in the drawer."""
    job, shop = [(BOOKS / "demo" / f"{kind}.yaml").read_text("utf-8") for kind in ("job", "shop")]
    return worked_through("overtop", job.replace("choices:\n", f"choices:\n{OTHER_SIZES}"), shop)


@cache
def inch() -> Rebuild:
    """A countershaft set by its shim, in a shop that works in inches."""
    return worked_through("layline", INCH_JOB + READINGS, INCH_SHOP)


@cache
def untouched() -> Rebuild:
    """A unit that just came in: nothing looked at, nothing measured."""
    return worked_through("layline", INCH_JOB, INCH_SHOP)


def sheet_of(rebuilt: Rebuild) -> dict[str, Any]:
    """A sheet of one's own, to be changed at will."""
    return build_sheet(rebuilt)
