"""The catalogue of every message about a file: one word id, one sentence, what is needed, what to try."""

from __future__ import annotations

import re
from collections.abc import Mapping

from layshaft.book.fault import Fault, Path
from layshaft.book.message.bound import BOUNDING
from layshaft.book.message.kind import Message, Messages
from layshaft.book.message.press import PRESSING
from layshaft.book.message.sheet import SELLING, WORKING
from layshaft.book.message.unit import ADDING_UP, AROUND, HOLDING, LOADING, NAMING, STOPPING, TURNING
from layshaft.book.message.writing import CHOOSING, DEFINING, WRITING

__all__ = ["BOOK_MESSAGES", "CATALOGUE", "SECTIONS", "Message", "fault"]

BOOK_SECTIONS: dict[str, Messages] = {
    "How the file is written": WRITING,
    "Options and variants": CHOOSING,
    "Keys, words and figures": DEFINING,
    "Figures that cannot be": BOUNDING,
    "Names": NAMING,
    "What holds what": HOLDING,
    "Stops": STOPPING,
    "Springs and loads": {**LOADING, **PRESSING},
    "Packs, results, limits, single parts": ADDING_UP,
    "The gear train": TURNING,
    "Around the parts": AROUND,
}
SECTIONS: dict[str, Messages] = {**BOOK_SECTIONS, "Shop files": SELLING, "Job files": WORKING}
BOOK_MESSAGES: Messages = {id: message for some in BOOK_SECTIONS.values() for id, message in some.items()}
CATALOGUE: Messages = {id: message for some in SECTIONS.values() for id, message in some.items()}

SLOT = re.compile(r"\{([a-z]+)\}")


def _filled(text: str, told: Mapping[str, str]) -> str:
    """A text with what was told put in the places in braces; other braces stand for themselves."""
    return SLOT.sub(lambda match: told.get(match[1], match[0]), text)


def fault(
    id: str,
    *,
    path: Path = (),
    found: str = "",
    needed: str = "",
    try_: str = "",
    variants: tuple[str, ...] = (),
    **told: str,
) -> Fault:
    """Make a fault from the catalogue; what is given here goes before what the catalogue says."""
    message = CATALOGUE[id]
    told = {"found": found, "needed": needed or message.needed, **told}
    return Fault(
        id=id,
        sentence=_filled(message.sentence, told),
        path=path,
        found=found,
        needed=needed or _filled(message.needed, told),
        try_=try_ or _filled(message.try_, told),
        kind=message.kind,
        variants=variants,
    )
