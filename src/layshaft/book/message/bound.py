"""Messages about figures that cannot be so."""

from __future__ import annotations

from layshaft.book.message.kind import Message, Messages

BOUNDING: Messages = {
    "too small": Message(
        "`{key}` cannot be so small.",
        try_="look for a minus too many, or a digit left out",
    ),
    "beyond measure": Message(
        "This figure is beyond anything that is measured in a workshop.",
        "a figure that a drawing could show",
        "count its digits, and look at its unit",
    ),
}
