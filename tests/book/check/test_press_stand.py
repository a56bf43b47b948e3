"""Where a press or a compressor may bear; what a report looks like is told in the stories."""

import pytest

from layshaft.book import check_book
from tests.stories.story import example

TWO_PARTS = "        pushes: SH-30\n        stands on: SH-10\n"


def ids(pushes, stands_on, kind="press", more=()):
    book = example().replace(TWO_PARTS, f"        pushes: {pushes}\n        stands on: {stands_on}\n")
    book = book.replace("kind: press", f"kind: {kind}")
    for old, new in more:
        assert old in book
        book = book.replace(old, new)
    return [one.id for one in check_book(book, "book.yaml").found]


@pytest.mark.parametrize(
    "pushes, stands_on",
    [("SH-30", "SH-10"), ("SH-30 front", "SH-10 groove"), ("SH-50", "SH-30"), ("SH-30", "SH-50")],
)
def test_squeezed_between_two_parts(pushes, stands_on):
    assert ids(pushes, stands_on) == []


def test_every_wrong_stand_is_told():
    assert ids("SH-40", "SH-20") == ["bears on the spring", "bears on what comes off"]


def test_jaws_may_take_the_spring_itself_but_not_the_ring():
    assert ids("SH-40", "SH-10", "spring compressor") == []
    assert ids("SH-20", "SH-10", "spring compressor") == ["bears on what comes off"]


def test_what_lies_in_the_ring_goes_with_it():
    lies = ("    name: Cap\n", "    name: Cap\n    lies in: SH-20\n")
    held = (", held by: {SH-20: the ring stands in front of it}", "")
    book = check_book(example().replace(*lies).replace(*held), "book.yaml")
    assert [(one.id, one.sentence) for one in book.found if one.id.startswith("bears")] == [
        ("bears on what comes off", "`pushes` names SH-30, and SH-20 comes off while the load is held.")
    ]


def test_a_push_away_from_the_spring_gets_to_no_seat():
    """The steel plates lie between the pressure plate and the hub, and no stop of theirs is written."""
    assert ids("SH-70", "SH-10") == ["push leads nowhere"]
