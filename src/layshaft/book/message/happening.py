"""Messages about what a job says happened on the bench, entry after entry."""

from __future__ import annotations

from layshaft.book.message.kind import Message, Messages

HAPPENING: Messages = {
    "off already": Message(
        "{found} was off already by {entry} of `done`.",
        try_="take one of the two away, or name the part that was meant",
        kind="note",
    ),
    "base off": Message(
        "{found} is the base: other parts come out of it.",
        try_="name the part that came off",
        kind="note",
    ),
    "stuck to itself": Message("{found} is stuck to itself here.", "the part it came out with", kind="note"),
    "held already": Message(
        "`{held}` was held by {entry} of `done` and not let off before this.",
        "one load held at a time",
        "write `let off: {held}` where that happened",
        kind="note",
    ),
    "let off unheld": Message(
        "`{found}` is let off, but {state}.",
        "`held` before `let off`",
        "write `held: {found}` where that happened",
        kind="note",
    ),
    "let go": Message(
        "By the book this let go up to {found} of `{load}`, with nothing to hold it.",
        "`held` before it, and `let off` after it",
        "write what held it; if nothing did, look for what it struck and at what caught it",
        kind="note",
    ),
    "proof overtaken": Message(
        "This proof counts no more; since then {why}.",
        try_="prove it again once all is together; if the moment is a slip, mend `at`",
        kind="note",
    ),
    "against the book": Message(
        "By the book this is not done so. {why}",
        try_="write what was done before it; if it is as written, stop and look at what holds each load",
        kind="note",
    ),
    "proved while held": Message(
        "Zero was proved of `{found}` while it was still held, by {entry} of `done`.",
        "`let off` before `zero proved`",
        "write `let off: {found}` where that happened; if it was not, prove zero again",
        kind="note",
    ),
}
