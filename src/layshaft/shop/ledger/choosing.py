"""Which entries hold the choices of a job: the last word on each part, as long as it counts."""

from __future__ import annotations

from collections.abc import Sequence

from layshaft.shop.ledger.fold import Line, standing


def choices_by(lines: Sequence[Line], *kinds: str) -> dict[str, Line]:
    """For each part the last choice of some kinds (`fit`, `renew`, `keep`) that counts."""
    stands = standing(lines)
    found: dict[str, Line] = {}
    for line in lines:
        if line.kind != "choice" or stands[line.number] != "counts":
            continue
        part = next((str(line.body[kind]) for kind in kinds if kind in line.body), None)
        if part is not None:
            found[part] = line
    return found
