"""A job for some parts: what the work lays bare and what settles a size comes with it, what it never opens does not."""

from __future__ import annotations

from functools import cache

import pytest

from layshaft.plan.rebuild import Rebuild
from tests.paper.two_jobs import BOOKS, worked_through

JOB = """\
layshaft job: 1
id: T-4
invented: true
book: {{id: {book}, revision: 1}}
shop: {{id: kettle-lane, revision: 3}}
variant: {variant}
opened: 2026-11-23
today: 2026-11-25
wants: [{wants}]
"""


@cache
def some(book: str, variant: str, wants: str) -> Rebuild:
    shop = (BOOKS / "demo" / "shop.yaml").read_text("utf-8")
    return worked_through(book, JOB.format(book=book, variant=variant, wants=wants), shop)


SETTLED = [("twinpath", "TP2", "TP-096, TP-092", "TP-095"), ("layline", "alloy", "LL-024", "LL-023")]


@pytest.mark.parametrize(("book", "variant", "wants", "shim"), SETTLED)
def test_a_shim_within_reach_is_measured_and_chosen_too(book: str, variant: str, wants: str, shim: str) -> None:
    found = some(book, variant, wants)
    assert shim in found.opened
    assert shim in found.teardown.taken_off
    assert found.judgements[shim].verdict == "open"
    assert any(point.part == shim for point in found.open)
    assert any(step.parts[:1] == (shim,) for step in found.assembly.steps)


def test_what_the_work_does_not_lay_bare_stays_out_of_the_job() -> None:
    """The front seal and the flange nut can be got at in the whole unit; a rear seal has nothing to do with them."""
    found = some("twinpath", "TP2", "TP-096")
    assert found.opened == {"TP-096"}
    assert found.teardown.taken_off == ("TP-096",)
    assert set(found.judgements) == {"TP-096"}
    assert {line.what for line in found.price.lines if line.kind == "part"} <= {"TP-096 Rear output seal"}


def test_a_seal_that_comes_off_in_its_cover_is_renewed_with_it() -> None:
    found = some("twinpath", "TP2", "TP-092")
    assert "TP-096" in found.opened
    assert found.judgements["TP-096"].verdict == "renew"
    assert not found.opened & {"TP-023", "TP-068"}


def test_nothing_is_inspected_or_chosen_where_nothing_is_to_be() -> None:
    told = [line.what for line in some("twinpath", "TP2", "TP-096").price.lines if line.kind == "labour"]
    assert "Inspection and measurement" not in told
    assert "Choosing washer, shim and pressure plate" not in told
    more = [line.what for line in some("twinpath", "TP2", "TP-092").price.lines if line.kind == "labour"]
    assert {"Inspection and measurement", "Choosing washer, shim and pressure plate"} < set(more)


LOOKED = """\
layshaft job: 1
id: T-5
invented: true
book: {{id: {book}, revision: 1}}
shop: {{id: kettle-lane, revision: 3}}
variant: {variant}
opened: 2026-11-23
today: 2026-11-25
looks:
{looks}
"""


def looked_at(book: str, variant: str, *looks: str) -> Rebuild:
    shop = (BOOKS / "demo" / "shop.yaml").read_text("utf-8")
    told = "".join(f"  - {{{look}}}\n" for look in looks)
    return worked_through(book, LOOKED.format(book=book, variant=variant, looks=told), shop)


PRESSED = [("layline", "iron", "LL-030", "LL-031"), ("twinpath", "TP2", "TP-046", "TP-047")]


@pytest.mark.parametrize(("book", "variant", "host", "part"), PRESSED)
def test_a_good_look_presses_nothing_apart(book: str, variant: str, host: str, part: str) -> None:
    """The book leaves the fit together; whoever looked at it as it stands and found it good asks for nothing more."""
    name, plan = next(iter(some(book, variant, part).unit.parts[part].looks.items()))
    good = next(grade for grade, verdict in plan.grades.items() if verdict == "reuse")
    found = looked_at(book, variant, f"part: {part}, look: {name}, grade: {good}")
    assert found.judgements[part].verdict == "reuse"
    assert part not in found.teardown.taken_off
    assert any({host, part} <= set(group) for group in found.teardown.stays_together)


def test_a_press_fit_is_parted_where_the_one_or_the_other_is_renewed() -> None:
    own = looked_at("layline", "iron", "part: LL-031, look: flanks, grade: spall")
    assert "LL-031" in own.teardown.taken_off
    host = ("part: LL-030, look: flanks, grade: spall", "part: LL-031, look: flanks, grade: even polish")
    found = looked_at("layline", "iron", *host)
    assert (found.judgements["LL-030"].verdict, found.judgements["LL-031"].verdict) == ("renew", "reuse")
    assert "LL-031" in found.teardown.taken_off
