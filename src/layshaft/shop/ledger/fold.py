"""A job's entries folded into the text of a job file: what counts now, in the one grammar that everything reads.

Nothing is taken out of the record. An entry that waits for a yes, or that a later one put aside, is left out of the
text only; `standing` says of each entry how it stands.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

Standing = Literal["counts", "waits", "put aside"]
LISTS = {"look": "looks", "reading": "readings", "done": "done", "choice": "choices", "proved": "proved"}
"""The kinds of entry that are lines of a job file, and the list that each stands in."""
INTAKE = {"complaint": "complaint", "evidence": "evidence", "missing": "missing", "noticed": "noticed"}
"""The kinds that tell what came in."""


@dataclass(frozen=True, slots=True)
class Line:
    """One entry as folding sees it."""

    number: int
    kind: str
    body: Mapping[str, Any]
    by: str
    at: str
    waits: str = ""


@dataclass(frozen=True, slots=True)
class Heading:
    """What stands at the head of a job file."""

    number: str
    book: tuple[str, int]
    shop: tuple[str, int]
    variant: str
    opened: str
    today: str
    serial: str = ""
    customer: str = ""
    reach: str = ""
    is_invented: bool = False


def standing(lines: Iterable[Line]) -> dict[int, Standing]:
    """How each entry stands: settled ones as the last word on them said, what came apart again put aside."""
    found: dict[int, Standing] = {}
    for line in lines:
        found[line.number] = "waits" if line.waits else "counts"
        if line.kind == "settled":
            found[int(line.body["entry"])] = "counts" if line.body["counts"] else "put aside"
        elif line.kind == "taken out":
            found |= {int(number): "put aside" for number in line.body["entries"]}
    return found


def job_text(heading: Heading, lines: Sequence[Line]) -> str:
    """The job file that the entries which count amount to; every figure stands in it as it was typed."""
    stands = standing(lines)
    counting = [line for line in lines if stands[line.number] == "counts"]
    return "\n".join(f"{key}: {_flow(value)}" for key, value in tree(heading, counting).items()) + "\n"


def tree(heading: Heading, counting: Iterable[Line]) -> dict[str, Any]:
    """The same as the keys of a job file."""
    found: dict[str, Any] = {
        "layshaft job": 1,
        "id": heading.number,
        **({"invented": True} if heading.is_invented else {}),
        "book": {"id": heading.book[0], "revision": heading.book[1]},
        "shop": {"id": heading.shop[0], "revision": heading.shop[1]},
        "variant": heading.variant,
        "opened": heading.opened,
        "today": heading.today,
    }
    found |= {"serial": heading.serial} if heading.serial else {}
    if heading.customer:
        found["customer"] = {"name": heading.customer, **({"reach": heading.reach} if heading.reach else {})}
    intake: dict[str, Any] = {}
    for line in counting:
        if line.kind in LISTS:
            found.setdefault(LISTS[line.kind], []).append(_signed(line))
        elif line.kind in INTAKE:
            _add_intake(intake, line)
        elif line.kind == "wants":
            found["wants"] = list(line.body["parts"])
        elif line.kind == "temperature":
            found["temperature"] = line.body["temperature"]
        elif line.kind == "accepted":
            found["accepted by"] = line.body["who"]
    if intake:
        found["intake"] = intake
    return found


def _add_intake(intake: dict[str, Any], line: Line) -> None:
    key = INTAKE[line.kind]
    if line.kind == "complaint":
        intake[key] = line.body["words"]
    elif line.kind == "noticed":
        intake.setdefault(key, []).append({**line.body, "by": line.by})
    else:
        intake.setdefault(key, []).append(line.body["words"])


def _signed(line: Line) -> dict[str, Any]:
    """A line with who and when; what somebody else said, a customer for one, names that one itself."""
    signed = {**line.body, "by": line.body.get("by", line.by)}
    return signed if line.kind == "choice" else {**signed, "at": line.at}


def _flow(value: Any) -> str:
    """A value in YAML's flow style, of which JSON is a part."""
    return json.dumps(value, ensure_ascii=False)


def place_of(lines: Sequence[Line], kind: str, at: int) -> int | None:
    """The number of the entry behind the `at`th line of a list of the text."""
    stands = standing(lines)
    counting = [line for line in lines if stands[line.number] == "counts" and line.kind == kind]
    return counting[at].number if at < len(counting) else None
