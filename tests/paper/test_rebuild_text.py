"""A job in a terminal: what belongs to a step stands under its number, before the next one."""

from __future__ import annotations

import re

from layshaft.paper.rebuild_text import teardown_text
from layshaft.paper.sheet import build_teardown
from tests.paper.two_jobs import untouched


def test_every_caution_stands_right_under_its_own_step() -> None:
    data = build_teardown(untouched())
    start = teardown_text(data).split("How it comes apart from here\n")[1].split("\n\n")[0]
    steps = [" ".join(one.split()) for one in re.split(r"\n(?= {2,4}[0-9]+ {2})", start)]
    assert len(steps) == len(data["teardown"]) > 10
    assert any(row["cautions"] for row in data["teardown"])
    for told, row in zip(steps, data["teardown"], strict=True):
        mark = f"{row['mark']}: " if row["mark"] else ""
        cautions = [f"! {caution}" for caution in row["cautions"]]
        expected = " ".join([f"{row['number']} {mark}{row['what']}", *cautions, *row["notes"]])
        assert told == " ".join(expected.split())
