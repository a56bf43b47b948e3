"""What counts of putting together, from entries alone: what came apart again is put aside, and holds nothing."""

from __future__ import annotations

from layshaft.shop.ledger.fold import Heading, Line, standing, tree
from layshaft.shop.ledger.putting import held_by

HEADING = Heading("T-1", ("overtop", 1), ("shop", 1), "OT6", "2026-11-02", "2026-11-20")


def line(number: int, kind: str, **body: object) -> Line:
    return Line(number, kind, body, "maddick", "2026-11-20 10:00")


PRESSED = line(1, "fitted", step="compress", load="direct spring", parts=[], what="Compress it")
RING = line(2, "fitted", step="fit", parts=["OT-043"], what="The ring")
HOME = line(3, "fitted", step="let home", load="direct spring", parts=[], what="Let it home")
PROOF = line(4, "proved", proof="ring seats", outcome="held")


def test_a_load_is_held_from_the_press_to_its_retainers() -> None:
    assert held_by([PRESSED, RING]) == "direct spring"
    assert held_by([PRESSED, RING, HOME]) == ""


def test_what_came_apart_again_counts_no_more_and_its_proof_is_no_proof() -> None:
    lines = [PRESSED, RING, HOME, PROOF, line(5, "taken out", entries=[2, 3, 4], words="a ring stood proud")]
    stands = standing(lines)
    assert [stands[number] for number in (1, 2, 3, 4, 5)] == ["counts", *["put aside"] * 3, "counts"]
    assert "proved" not in tree(HEADING, [one for one in lines if stands[one.number] == "counts"])


def test_moves_of_putting_together_stand_in_no_job_file() -> None:
    found = tree(HEADING, [PRESSED, RING, HOME, line(4, "prepared", step="prepare", what="Soak")])
    assert found.keys() == {"layshaft job", "id", "book", "shop", "variant", "opened", "today"}
