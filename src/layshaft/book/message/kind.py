"""One kind of message about a file someone wrote."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Message:
    """One kind of fault or note: its sentence, with the places in braces filled from what was found."""

    sentence: str
    needed: str = ""
    try_: str = ""
    kind: Literal["fault", "note"] = "fault"


Messages = dict[str, Message]
