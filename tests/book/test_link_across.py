"""Links between faces lie along one direction; what lies across is taken in as a result of its own, said on purpose."""

from __future__ import annotations

import pytest

from layshaft.book import BookFaults, load_book
from layshaft.book.size import Sizes
from tests.book.small import BOOK_TEXT

AXES = "axes: {main: {start: front, end: rear}}\n"
THREE = """\
axes:
  main: {start: front, end: rear}
  lay: {start: front, end: rear}
  strut: {start: inward, end: outward}
"""
HUB = """\
  S-10:
    name: Hub
    class: hub
    mass: 1 kg
    axis: AXIS
    lies in: S-1
    faces: {front: 0 mm, rear: 3.00 ± 0.02 mm}
"""
FLOAT = "  float: {about: Left beside the hub, chain: [plus S-1 front to floor, less S-3 front to rear, LINK]}\n"
WIDTH = "  hub width: {about: Along the shaft, chain: [plus S-10 front to rear]}\n"


def text(axis: str, link: str, more: str = "") -> str:
    made = BOOK_TEXT.replace(AXES, THREE).replace("parts:\n", "parts:\n" + HUB.replace("AXIS", axis))
    assert made.count(THREE) == 1
    return made.replace("results:\n", f"results:\n{FLOAT.replace('LINK', link)}{more}")


def test_a_link_across_the_chain_is_a_fault_with_a_way_out() -> None:
    with pytest.raises(BookFaults) as caught:
        load_book(text("strut", "less S-10 front to rear"), "slip.yaml")
    (fault,) = caught.value.report.faults
    assert (fault.id, fault.found, fault.needed) == ("link across", "S-10 on strut", "links along main")
    assert "a result of that distance alone" in fault.try_


@pytest.mark.parametrize("axis", ["main", "lay"])
def test_axes_side_by_side_make_one_chain(axis: str) -> None:
    assert load_book(text(axis, "less S-10 front to rear"), "slip.yaml").unit("big").results["float"].chain


def test_a_hub_with_faces_both_ways_comes_in_as_a_result_and_counts_in_full() -> None:
    across = load_book(text("strut", "less result hub width", WIDTH), "slip.yaml").unit("big")
    along = load_book(text("main", "less S-10 front to rear"), "slip.yaml").unit("big")
    one, other = Sizes(across).result("float"), Sizes(along).result("float")
    assert one is not None and other is not None
    assert (one.low, one.nominal, one.high) == (other.low, other.nominal, other.high)
