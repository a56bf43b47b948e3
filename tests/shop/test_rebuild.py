"""The JSON beside a build sheet: its verdicts are those of the sheet."""

from __future__ import annotations

import json
from pathlib import Path

from layshaft.shop.rebuild import rebuild_job

JOB = Path(__file__).resolve().parents[2] / "books" / "demo" / "job.yaml"


def test_what_the_fit_replaces_is_told_so_in_the_data(tmp_path: Path) -> None:
    """The demo job's own lines under the sizes chosen: spacer, brake reaction plate and direct pressure plate."""
    written = rebuild_job(JOB, tmp_path)
    verdicts = json.loads(written.json.read_text("utf-8"))["verdicts"]
    replaced = {part: one["replaced_by"] for part, one in verdicts.items() if one["replaced_by"] is not None}
    assert set(replaced) == {"OT-020", "OT-034", "OT-044"}
    assert replaced["OT-020"] == "3.90 mm"
