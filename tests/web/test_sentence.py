"""An entry in a sentence: every kind that the record knows, and nothing of what stands in it left out."""

from __future__ import annotations

from typing import Any

import pytest

from layshaft.shop.ledger.models import Entry, Job
from layshaft.web.sentence import sentence_of


@pytest.mark.parametrize(
    ("kind", "body", "said"),
    [
        ("took in", {"variant": "OT6", "customer": "R. Tessenby"}, "Taken in from R. Tessenby as OT6."),
        ("look", {"part": "A", "look": "faces", "grade": "even", "pieces": [1, 3]}, "A, faces: even, piece 1, 3."),
        (
            "reading",
            {"part": "A", "reading": "flatness", "figures": ["1 mm", "2 mm"], "gauge": "dial 1", "confirmed": True},
            "A, flatness: 1 mm, 2 mm by dial 1, read again and it is so.",
        ),
        ("done", {"off": "A", "words": "x", "countersigned": "ferrow"}, "A came off; x; countersigned by ferrow."),
        ("done", {"seen": "A", "is": "broken"}, "A found broken."),
        ("done", {"partly": "A", "pieces off": 3}, "A came off in part; pieces off 3."),
        ("done", {"held": "spring", "release": 3}, "spring taken up by its release way; release 3."),
        ("settled", {"entry": 7, "counts": False, "why": "dry"}, "Entry 7 is put aside; dry."),
        ("placed", {"from": "bench", "to": "wash"}, "It went from bench to wash."),
        ("choice", {"keep": "A", "by": "customer", "why": "told"}, "Chosen by the customer; keep A; told."),
        ("unheard of", {"key": ["a", True]}, "Unheard of; key a, yes."),
    ],
)
def test_it_is_worded(kind: str, body: dict[str, Any], said: str) -> None:
    assert sentence_of(kind, body) == said


def test_no_value_of_the_demo_s_record_is_lost(job: Job) -> None:
    for entry in Entry.objects.filter(job=job):
        said = sentence_of(entry.kind, entry.body)
        for key, value in entry.body.items():
            for one in value if isinstance(value, list) else [value]:
                assert isinstance(one, bool) or str(one) in said, (entry.kind, key)
