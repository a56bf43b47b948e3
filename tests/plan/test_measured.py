"""Which figure stands for a part: the later one takes the earlier one's place, also where it decides nothing yet."""

from __future__ import annotations

import re

from tests.paper.two_jobs import BOOKS, worked_through

JOB, SHOP = [(BOOKS / "demo" / f"{kind}.yaml").read_text("utf-8") for kind in ("job", "shop")]
READ = re.compile(r"(  - \{part: OT-034, reading: thickness, figures: )\[[^]]*\]([^}]*\}\n)")
SLIPPED = r"\g<0>\1[84.45 mm, 84.44 mm, 84.45 mm, 84.45 mm]\2"


def test_a_slip_typed_after_a_good_figure_is_measured_again() -> None:
    text, count = READ.subn(SLIPPED, JOB)
    assert count == 1
    judged = worked_through("overtop", text, SHOP).judgements["OT-034"]
    assert judged.verdict == "measure again"
    assert "the decimal point has slipped" in judged.reason
