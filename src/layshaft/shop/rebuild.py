"""Taking a job file through to its build sheet on disk: nothing is written before everything is worked out."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from layshaft.book.sheet import SheetFaults
from layshaft.book.sheet_check import check_job_beside, narrow_shop
from layshaft.paper.data import plain
from layshaft.paper.pdf import sheet_pdf
from layshaft.paper.rebuild_text import rebuild_text
from layshaft.paper.sheet import build_sheet
from layshaft.plan.fitted_verdict import fitted_verdicts
from layshaft.plan.judgement import Judgement
from layshaft.plan.rebuild import Rebuild, rebuild
from layshaft.plan.telling import telling_of
from layshaft.shop.check import with_shop
from layshaft.shop.record import name_for, write_together
from layshaft.shop.shelf import Desk, ShelfFault, open_desk


@dataclass(frozen=True)
class Written:
    """What a worked-through job left on disk, and what it says."""

    pdf: Path
    json: Path
    text: str
    data: dict[str, Any]


def rebuild_job(job: Path, out: Path | None, shop: Path | None = None, books: tuple[Path, ...] = ()) -> Written:
    """Work a job file through and write its build sheet as PDF and JSON."""
    desk, rebuilt = work_through(job, shop, books)
    wanted = desk.job.content
    sheet = build_sheet(rebuilt)
    data = {"sheet": sheet, "quoted": _quoted(rebuilt, desk.book.sha256, desk.shop.sha256, desk.job.sha256)}
    data |= {"teardown": plain(rebuilt.teardown), "assembly": plain(rebuilt.assembly), "fit": plain(rebuilt.fit)}
    data |= {"verdicts": plain(_verdicts(rebuilt)), "results": plain(rebuilt.results)}
    folder = out if out is not None else desk.folder
    name = sheet_name(wanted.id)
    pdf, as_json = folder / f"{name}.pdf", folder / f"{name}.json"
    _refuse_another_job(as_json, wanted.id)
    told = json.dumps(data, ensure_ascii=False, indent=1).encode()
    write_together(folder, {as_json.name: told, pdf.name: sheet_pdf(sheet)})
    text = rebuild_text(sheet) + f"\nBuild sheet: {pdf}\n        and {as_json}"
    return Written(pdf, as_json, text, data)


def work_through(job: Path, shop: Path | None = None, books: tuple[Path, ...] = ()) -> tuple[Desk, Rebuild]:
    """A job file with what it quotes, and what it comes to; its faults are raised, all of them."""
    desk = open_desk(job, shop, books)
    wanted = desk.job.content
    report = with_shop(check_job_beside(desk.job, desk.book, desk.shop.content), desk)
    if not report.is_clean:
        raise SheetFaults(report)
    bench = narrow_shop(desk.shop.content, desk.book, wanted.variant)
    return desk, rebuild(desk.book.unit(wanted.variant), wanted, bench)


def sheet_name(job: str) -> str:
    """What a job's build sheet is called, without its ending: each job has its own, so none replaces another's."""
    return f"build-sheet-{name_for(job)}"


def _refuse_another_job(path: Path, job: str) -> None:
    """Some systems take `A-7` and `a-7` for one name: look whose sheet it is before it is replaced."""
    try:
        found = json.loads(path.read_bytes())["quoted"]["job"]["id"] if path.is_file() else job
    except (OSError, ValueError, LookupError, TypeError):
        return
    if found != job:
        raise ShelfFault(f"{path} is the sheet of another job, `{found}`; name another folder with --out.")


def _verdicts(rebuilt: Rebuild) -> dict[str, Judgement]:
    return fitted_verdicts(rebuilt.judgements, rebuilt.fit, telling_of(rebuilt.shop))


def _quoted(rebuilt: Rebuild, book: str, shop: str, job: str) -> dict[str, Any]:
    """Which files, which revisions and which bytes the sheet was made from."""
    return {
        "book": {"id": rebuilt.unit.id, "revision": rebuilt.unit.revision, "sha256": book},
        "shop": {"id": rebuilt.shop.id, "revision": rebuilt.shop.revision, "sha256": shop},
        "job": {"id": rebuilt.job.id, "sha256": job},
    }
