"""The note on a selective part that is off or looked at, and whose own size nobody has read."""

import pytest

from layshaft.book.sheet import load_job
from layshaft.book.sheet_check import check_job
from tests.plan.gap_box import JOB, shop, unit

OFF = "done: [{off: GB-03}]\n"
READ = "readings: [{part: GB-03, reading: thickness, figures: [1.00 mm], gauge: micrometer 1}]\n"


@pytest.mark.parametrize(
    ("text", "is_noted"),
    [
        ("", False),
        (OFF, True),
        (OFF + READ, False),
        (OFF + READ.replace("gauge: micrometer 1", "gauge: micrometer 1, new: true"), True),
        (OFF + "choices: [{renew: GB-03, by: customer}]\n", False),
        (OFF + "choices: [{fit: GB-03, size: 1.10 mm, by: customer}]\n", False),
    ],
)
def test_a_size_that_was_not_read_is_noted_where_it_cannot_stay(text, is_noted):
    found = [one for one in check_job(load_job(JOB + text, "job.yaml"), unit(), shop()).found if one.kind == "note"]
    assert ("own size unread" in [one.id for one in found]) == is_noted
    if is_noted:
        (said,) = (one for one in found if one.id == "own size unread")
        assert said.sentence.startswith("GB-03 comes in several sizes")
        assert said.try_.startswith("read its `thickness`")
