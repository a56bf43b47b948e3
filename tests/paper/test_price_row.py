"""The price as it is put on paper: what of a kit from the drawer is used, and what goes back there."""

from __future__ import annotations

from tests.paper.two_jobs import BOOKS, sheet_of, worked_through


def notes(*drawer: tuple[str, str]) -> list[str]:
    job, shop = [(BOOKS / "demo" / f"{kind}.yaml").read_text("utf-8") for kind in ("job", "shop")]
    for old, new in drawer:
        assert shop.count(old) == 1
        shop = shop.replace(old, new)
    return list(sheet_of(worked_through("overtop", job, shop))["price"]["notes"])


def test_a_kit_that_is_opened_is_told() -> None:
    """The drawer has a seal kit, all of which goes in; without it lying there loose, the OT-014 comes out of that."""
    assert "From the drawer: 1 × OTK-1 Seal kit." in notes(("  OT-014: {count: 12}\n", ""))
    assert not [one for one in notes() if one.startswith("From the drawer")], "each part of it lies there loose"
