"""Springs read beyond their book, in the shipped job: 132.7 +- 1.5 mm free and 4450 +- 222.5 N at 76 mm by its book."""

from __future__ import annotations

import re

import pytest

from layshaft.book.sheet import load_job
from layshaft.plan.press import PressPlan, Refusal
from layshaft.plan.press_use import DOWN, UP
from layshaft.plan.rebuild import Rebuild
from layshaft.plan.spring_fact import SpringFact, spring_fact
from layshaft.plan.spring_read import as_read
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


def strong(old: str, new: str) -> tuple[SpringFact, SpringFact]:
    """The direct spring by its book, and as it was read."""
    job, shop = [(BOOKS / "demo" / f"{kind}.yaml").read_text("utf-8") for kind in ("job", "shop")]
    unit = worked_through("overtop", job, shop).unit
    found = as_read(unit, load_job(job.replace(old, new), "job.yaml").content)
    return spring_fact(unit, "OT-041"), spring_fact(found, "OT-041")


def test_a_spring_read_longer_is_taken_down_at_its_own_length() -> None:
    book, read = strong(LENGTH, "figures: [137.00 mm]")
    assert read.free.high == pytest.approx(0.137)
    assert (read.free.low, read.free.nominal) == (book.free.low, book.free.nominal)
    assert (read.rate.nominal, read.rate.high) == (book.rate.nominal, pytest.approx(book.rate.high))


def test_a_spring_read_stronger_pushes_at_least_as_hard_at_every_length() -> None:
    """5100 N at 76 mm: a spring of that load, 131.2 to 134.2 mm free, lies below the band's greatest."""
    _, read = strong(LOAD, "figures: [5100 N]")
    for free in (0.1312, 0.1327, 0.1342):
        rate = 5100 / (free - 0.076)
        for length in (0.076, 0.068, 0.062):
            assert read.rate.high * (read.free.high - length) >= rate * (free - length) * (1 - 1e-12)


def test_a_spring_in_its_book_changes_nothing() -> None:
    book, read = strong("", "")
    assert book == read


def test_what_is_loaded_and_how_it_is_let_go_is_told_at_the_length_that_was_read() -> None:
    """65 N/mm at the least and 2.8 mm longer than its book at most: 182 N more, and 2.8 mm more travel to free."""
    job = (BOOKS / "demo" / "job.yaml").read_text("utf-8")
    whole = re.sub(r"^done:\n(?:  .*\n)+", "", job, flags=re.MULTILINE)
    shop = (BOOKS / "demo" / "shop.yaml").read_text("utf-8")
    forces, travels = [], []
    for text in (whole, whole.replace(LENGTH, "figures: [137.00 mm]")):
        rebuilt = worked_through("overtop", text, shop)
        forces.append(next(one.held.force.high for one in rebuilt.loads if one.load == "direct spring"))
        plans = (one.plan for one in rebuilt.presses if one.way[0] == "direct spring" and DOWN in one.when)
        travels += [plan.travel.high for plan in plans if isinstance(plan, PressPlan)]
    assert forces[1] - forces[0] >= 65e3 * 2.8e-3
    assert len(travels) == 4
    more = [longer - drawn for drawn, longer in zip(travels[:2], travels[2:], strict=True)]
    assert more == pytest.approx([2.8e-3, 2.8e-3])
