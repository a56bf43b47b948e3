"""A customer's yes: to which total, how far it goes, and when it has to be asked for again."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from layshaft.plan.price import Price
from layshaft.quantity.money import parse_money
from layshaft.shop.ledger.desk import open_desk
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.fold import Line
from layshaft.shop.ledger.models import Entry, Job
from layshaft.shop.ledger.yes import Yes, within, yes_body, yeses
from tests.shop.ledger.shop import put


def price(total: str) -> Price:
    return Price("2026-11-24", (), (), parse_money(total), (), None)


def said(total: str, up_to: str = "") -> Yes:
    return Yes(5, "R. Tessenby", "by telephone", "2026-11-24 10:00", "orrin", total, True, up_to, 4, "")


def body(**more: Any) -> dict[str, Any]:
    return {"who": "R. Tessenby", "how": "by telephone", "up_to": "", "words": "", **more}


@pytest.mark.parametrize(
    ("now", "yes", "is_within", "told"),
    [
        ("100.00 CUR", None, False, "Nobody has said yes"),
        ("100.00 CUR", said("100.00 CUR"), True, "said yes to 100.00 CUR."),
        ("90.00 CUR", said("100.00 CUR"), True, "come down by 10.00 CUR"),
        ("100.01 CUR", said("100.00 CUR"), False, "grown by 0.01 CUR since: ask again"),
        ("110.00 CUR", said("100.00 CUR", "110.00 CUR"), True, "grown by 10.00 CUR and lies within"),
        ("110.01 CUR", said("100.00 CUR", "110.00 CUR"), False, "up to 110.00 CUR. It has grown by 10.01 CUR"),
        ("100.00 CUR", said("100.00 XYZ"), False, "not on record"),
        ("100.00 CUR", said(""), False, "not on record"),
    ],
)
def test_whether_a_price_lies_within_the_last_yes(now: str, yes: Yes | None, is_within: bool, told: str) -> None:
    found, sentence = within(price(now), yes)
    assert found == is_within
    assert told in sentence


def test_a_yes_says_what_it_was_to(job: Job) -> None:
    made = yes_body(price("100.00 CUR"), job.entries, **body(up_to="120", words=" go on "))
    entry = put("accepted", made, by="orrin")
    found = list(yeses(open_desk(Job.objects.get(pk=job.pk)).lines))[-1]
    assert (found.entry, found.who, found.total, found.up_to) == (
        entry.number, "R. Tessenby", "100.00 CUR", "120.00 CUR",
    )  # fmt: skip
    assert (found.by, found.seen, found.words) == ("orrin", job.entries, "go on")
    assert found.is_firm
    assert "said yes to at least 100.00 CUR" in within(price("100.00 CUR"), replace(found, is_firm=False))[1]
    assert open_desk(Job.objects.get(pk=job.pk)).content.accepted_by == "R. Tessenby"


@pytest.mark.parametrize(
    ("more", "id_"),
    [
        ({"how": "by pigeon"}, "how"),
        ({"up_to": "99"}, "up to"),
        ({"up_to": "120 XYZ"}, "up to"),
        ({"up_to": "plenty"}, "up to"),
        ({"up_to": "9" * 400}, "up to"),
    ],
)
def test_a_yes_that_says_nothing_clear_is_refused(more: dict[str, str], id_: str) -> None:
    with pytest.raises(Refused) as refused:
        yes_body(price("100.00 CUR"), 4, **body(**more))
    assert refused.value.id == id_


def test_a_yes_without_a_name_or_to_an_older_price_is_not_written(job: Job) -> None:
    made = yes_body(price("100.00 CUR"), job.entries, **body())
    before = Entry.objects.count()
    for wrong, id_ in (({**made, "who": " "}, "who"), ({**made, "entries": job.entries - 1}, "moved on")):
        with pytest.raises(Refused) as refused:
            put("accepted", wrong, by="orrin")
        assert refused.value.id == id_
    assert Entry.objects.count() == before


def test_a_yes_that_was_put_aside_is_none() -> None:
    yes = Line(2, "accepted", {"who": "R. Tessenby", "total": "1.00 CUR"}, "orrin", "2026-11-24 10:00")
    aside = replace(yes, number=3, kind="settled", body={"entry": 2, "counts": False})
    assert [one.entry for one in yeses([yes])] == [2]
    assert not list(yeses([yes, aside]))
