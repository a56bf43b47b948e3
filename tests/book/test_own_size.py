"""Sizes of selective parts beside a job: one's own that nobody has read, and a chosen one that is nowhere."""

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


MADE = "  GB-03: {sizes: {1.05 mm: 1}}\n"


@pytest.mark.parametrize(
    ("size", "drawer", "read", "is_had"),
    [
        ("1.10 mm", "", "", True),
        ("0.0433 in", "", "", False),
        ("1.05 mm", "", "", False),
        ("1.05 mm", MADE, "", True),
        ("1.05 mm", "", READ.replace("1.00 mm", "1.05 mm"), True),
        ("1.051 mm", "", READ.replace("1.00 mm", "1.0512 mm, 1.0506 mm"), True),
        ("1.05 mm", "", READ.replace("1.00 mm", "1.06 mm"), False),
        ("1.05 mm", "", READ.replace("1.00 mm", "1.05 mm").replace("1}]", "1, new: true}]"), False),
    ],
)
def test_a_chosen_size_is_listed_or_lies_there(size, drawer, read, is_had):
    text = f"{JOB}{read}choices: [{{fit: GB-03, size: {size}, by: customer}}]\n"
    found = check_job(load_job(text, "job.yaml"), unit(), shop(drawer)).found
    assert ("size nowhere" not in [one.id for one in found]) == is_had
    if not is_had:
        (said,) = (one for one in found if one.id == "size nowhere")
        assert said.kind == "fault"
        assert said.found == size
