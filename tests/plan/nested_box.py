"""The press box with a second spring inside the first, on seats of its own under the same cap; invented, as all are."""

from __future__ import annotations

from layshaft.book.definition import Unit
from tests.plan.press_box import RELEASE, unit

INNER = (
    "  PB-07: {name: Inner spring, class: spring, mass: 0.3 kg, spring: {kind: helical, free length: 110 ± 1 mm, "
    "rate: 10 N/mm, solid length: 40 mm}, ways: [{toward: front, behind: {PB-03: cap}, time: 1 min}]}\n"
)
INNER_RELEASE = RELEASE.replace("most over: 14 mm", "most over: 9 mm")
LOAD = (
    "  inner spring:\n    springs: [PB-07]\n    seats: [PB-03 step, PB-05 front]\n"
    f"    confirmed by: [A. Rower, B. Lind]\n    releases: [{INNER_RELEASE}]\n"
)
BOTH = (
    ("  PB-03:\n", INNER + "  PB-03:\n"),
    ("faces: {front: 0 mm, seat: 0 mm}", "faces: {front: 0 mm, seat: 0 mm, step: 12 mm}"),
    ("    releases:\n      - RELEASE\n", "    releases:\n      - RELEASE\n" + LOAD),
)


def nested(*changes: tuple[str, str], release: str = RELEASE) -> Unit:
    """The unit with both springs, with changes to its text."""
    return unit(*BOTH, *changes, release=release)
