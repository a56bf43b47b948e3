"""The JSON beside a build sheet: its verdicts are those of the sheet."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from layshaft.book.sheet import SheetFaults
from layshaft.shop.check import check_file
from layshaft.shop.rebuild import rebuild_job

OTHER_SIZES = """\
  - {fit: OT-020, size: 3.90 mm, by: maddick}
  - {fit: OT-034, size: 8.65 mm, by: maddick}
  - {fit: OT-044, size: 5.50 mm, by: maddick}
"""
JOB = Path(__file__).resolve().parents[2] / "books" / "demo" / "job.yaml"


def test_what_the_fit_replaces_is_told_so_in_the_data(tmp_path: Path) -> None:
    """Other sizes chosen than the demo unit has: of spacer, brake reaction plate and direct pressure plate."""
    (tmp_path / "job.yaml").write_text(
        JOB.read_text("utf-8").replace("choices:\n", f"choices:\n{OTHER_SIZES}"), "utf-8"
    )
    written = rebuild_job(tmp_path / "job.yaml", tmp_path, JOB.with_name("shop.yaml"))
    verdicts = json.loads(written.json.read_text("utf-8"))["verdicts"]
    replaced = {part: one["replaced_by"] for part, one in verdicts.items() if one["replaced_by"] is not None}
    assert set(replaced) == {"OT-020", "OT-034", "OT-044"}
    assert replaced["OT-020"] == "3.90 mm"


@pytest.mark.parametrize(
    ("typed", "wrong", "told"),
    [
        ("percent of labour: 4", "percent of labour: 600", "fault: percentage"),
        ("labour rate: 9", "labour rate: -9", "fault: below nothing"),
    ],
)
def test_a_shop_file_with_a_fault_prices_nothing(tmp_path: Path, typed: str, wrong: str, told: str) -> None:
    text = JOB.with_name("shop.yaml").read_text("utf-8")
    assert typed in text
    shop = tmp_path / "shop.yaml"
    shop.write_text(text.replace(typed, wrong), "utf-8")
    with pytest.raises(SheetFaults) as refused:
        rebuild_job(JOB, tmp_path / "out", shop)
    assert told in refused.value.report.text()
    assert not (tmp_path / "out").exists()
    report = check_file(JOB, (), shop)
    assert not report.is_clean
    assert [one.file for one in report.beside] == [str(shop)]
    assert report.data()["beside"][0]["clean"] is False
