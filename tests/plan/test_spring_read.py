"""Springs read beyond their book, in the shipped job: 132.7 +- 1.5 mm free and 4450 +- 222.5 N at 76 mm by its book."""

from __future__ import annotations

import re

import pytest

from layshaft.plan.press import Refusal
from layshaft.plan.press_use import UP
from layshaft.plan.rebuild import Rebuild
from tests.paper.two_jobs import BOOKS, metric, worked_through

LENGTH, LOAD = "figures: [131.60 mm]", "figures: [4402 N]"


def read_at(old: str, new: str) -> Rebuild:
    job, shop = [(BOOKS / "demo" / f"{kind}.yaml").read_text("utf-8") for kind in ("job", "shop")]
    assert job.count(old) == 1
    return worked_through("overtop", job.replace(old, new), shop)


def refused(rebuilt: Rebuild) -> list[str]:
    plans = [use.plan for use in rebuilt.presses if UP in use.when]
    return [lack.sentence for plan in plans if isinstance(plan, Refusal) for lack in plan.lacks]


def test_within_its_book_a_spring_is_planned_for() -> None:
    assert refused(metric()) == []


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (LENGTH, "figures: [137.00 mm]", "free length was read at 137.00 mm, and the plan counts on 134.20 mm at most"),
        (LOAD, "figures: [5100 N]", "load at 76.0 mm was read at 5100 N, and the plan counts on 4.80 kN at most"),
    ],
)
def test_a_spring_beyond_its_book_has_no_plan_to_go_in(old: str, new: str, said: str) -> None:
    rebuilt = read_at(old, new)
    assert said in " ".join(refused(rebuilt))
    assert any(sentence.startswith("direct spring, putting together: no plan") for sentence in rebuilt.now)


def test_a_spring_is_planned_for_by_its_later_reading_wherever_that_is_written() -> None:
    job = (BOOKS / "demo" / "job.yaml").read_text("utf-8")
    (line,) = [one for one in job.split("\n") if LENGTH in one]
    long = re.sub(r", at: [^,}]*", "", line).replace(LENGTH, "figures: [137.00 mm], at: 2026-11-19")
    early = re.sub(r", at: [^,}]*", "", line).replace(LENGTH, f"{LENGTH}, at: 2026-11-18")
    shop = (BOOKS / "demo" / "shop.yaml").read_text("utf-8")
    rebuilt = worked_through("overtop", job.replace(line, f"{long}\n{early}"), shop)
    assert "free length was read at 137.00 mm" in " ".join(refused(rebuilt))


def test_on_its_limit_it_is_within() -> None:
    assert refused(read_at(LENGTH, "figures: [134.20 mm]")) == []
