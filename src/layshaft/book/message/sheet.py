"""Messages about shop and job files."""

from __future__ import annotations

from layshaft.book.message.happening import HAPPENING
from layshaft.book.message.kind import Message, Messages

SELLING: Messages = {
    "currency": Message("This shop reckons in {due}, and no other currency is changed into it.", "an amount in {due}"),
    "no currency": Message("`{found}` is no currency.", "three capital letters, as in `CUR`"),
    "below nothing": Message("This cannot be below nothing."),
    "nothing": Message("This has to be more than nothing."),
    "percentage": Message("This is no percentage of a whole.", "a number from 0 to 100"),
    "gauge told twice": Message(
        "Two figures say how wrong `{name}` can be.", "`u95` or `u95 percent`", "take one away"
    ),
    "gauge untold": Message(
        "Nothing says how wrong `{name}` can be, so no reading of it can be weighed.",
        "`u95` with its unit, or `u95 percent`",
        kind="note",
    ),
    "due before calibrated": Message("`{name}` is due before it was last held to a standard.", "a later day in `due`"),
    "over its range": Message("This is more than the whole range of the gauge, {range}."),
    "listed from twice": Message(
        "Two price lists of {source} begin on {found}.", "one list a source and day", "put the two together"
    ),
    "cost over list": Message("{part} costs the shop more than it asks for it.", kind="note"),
    "line name": Message("`{found}` names no line of a drawer or a price list.", "`PART`, or `PART where CONDITION`"),
    "in no book": Message("No book at hand has a part or a kit `{found}`.", "a part or a kit of a book", kind="note"),
    "counted and sized": Message(
        "A part of several sizes is counted by size.", "`sizes` alone", "say of which size the {found} are"
    ),
    "nothing counted": Message("Nothing says what the drawer holds of {part}.", "`count`, `sizes` or `measured`"),
    "lines overlap": Message(
        "More than one line of {part} holds in {variant}: {found}.",
        "one line at most for each variant",
        "take the choice out of one of them",
    ),
    "not sold": Message("{part} is not sold by itself: it comes in {found}.", kind="note"),
    "sold by another id": Message(
        "{part} is a place: what goes there is sold as {found}.", "a line for {found}", kind="note"
    ),
    "size not sold": Message("{part} does not come in {found}.", kind="note"),
    "unsized": Message(
        "{part} comes in several sizes; which these are is not said.", "`sizes: {SIZE: COUNT}`", kind="note"
    ),
}

WORKING: Messages = {
    "another file": Message(
        "The job was done with the {what} `{found}`; the one given is `{given}`.", "the {what} `{found}`"
    ),
    "another revision": Message(
        "The job was done with revision {found} of the {what} `{name}`; the one given is revision {given}.",
        "one revision for the whole job",
        "look through the job again with revision {given}, then write `revision: {given}`",
    ),
    "another variant": Message("The job is of the variant {found}; the unit given is {given}."),
    "unknown variant": Message("No variant of this book is called `{found}`."),
    "not in shop": Message("No {what} of this shop is called `{found}`."),
    "wanted stays": Message("{found} does not come out by itself: {why}.", "a part that comes out, or no `wants`"),
    "load not asked": Message(
        "`{name}` was read under {found}, and the book asks for no load: it counts as read without one.",
        try_="read it again without the load, or take `load` away if there was none",
        kind="note",
    ),
    "unknown reading": Message("{part} has no reading `{found}`."),
    "unknown look": Message("{part} has no look `{found}`."),
    "unknown grade": Message("The look `{look}` at {part} knows no grade `{found}`."),
    "reading of what": Message(
        "Nothing says for certain what was read.",
        "`part` and `reading`, or `result` alone",
        "take away what is not meant",
    ),
    "not read directly": Message(
        "The book does not say how `{found}` would be read directly.",
        "a result with `read`",
        "read the parts it comes from",
    ),
    "not one figure": Message(
        "A gauge shows one figure at a time.", "the figure as it was shown", "write each figure as an item of its own"
    ),
    "more pieces": Message("There are not so many of {part}: the book has {count}."),
    "more places": Message("`{reading}` is read at {count} places of a piece."),
    "no gauge": Message(
        "Nothing says which gauge showed this, so how far to trust it is not known.",
        "`gauge`, one of the shop's",
        kind="note",
    ),
    "gauge class": Message("The book asks for another class of gauge here.", kind="note"),
    "gauge shows otherwise": Message("`{gauge}` does not show {due}."),
    "finer than gauge": Message("The figure is finer than `{gauge}` shows.", kind="note"),
    "gauge overdue": Message(
        "`{gauge}` was due to be held to a standard on {due}, before this was read on {found}.",
        try_="hold it to its standard; if it is off, read again",
        kind="note",
    ),
    "far from reference": Message(
        "This was read at {found}, {apart} from the reference of {reference}: steel and alloy have grown or shrunk.",
        "within {band} of {reference}",
        "let part and gauge come to one temperature and read again",
        kind="note",
    ),
    "far from drawn": Message(
        "The figure is far from what the book expects, as a slip of the decimal mark or of the unit would be.",
        try_="look again; if it is so, write `confirmed: true`",
        kind="note",
    ),
    "own size unread": Message(
        "{found} comes in several sizes, and this one's was not read: it cannot stay, and another is charged.",
        try_="read its `{reading}`, or write that it is to be renewed",
        kind="note",
    ),
    "cannot be": Message(
        "The figure lies below what this can come to; it decides nothing.", try_="read it again", kind="note"
    ),
    "comeback of itself": Message("A job is no comeback of itself.", "the job before this one, or no `comeback of`"),
    "after today": Message("This lies after the job's own `today`.", "at most {today}"),
    "before opened": Message("This lies before the job was opened.", "at least {opened}", kind="note"),
    "out of order": Message(
        "This was taken before another entry about the same that stands before it: the one of {later} counts.",
        try_="if the later line is the later one, mend its `at`",
        kind="note",
    ),
    "one thing": Message("An entry here says one thing.", try_="write an entry for each"),
    "goes with another": Message("`{found}` does not belong to an entry with `{beside}`."),
    "no such way": Message("{name} has no {what} number {found}."),
    "off altogether": Message("All {count} of {part} are off, not some of them.", "`off: {part}`"),
    "countersigned by the same": Message("{found} signed this too.", "someone else of the shop"),
    "not selective": Message("{part} comes in one size only."),
    "size nowhere": Message(
        "{part} does not come in {found}: none is in the drawer, and the unit has none that reads so.",
        try_="look at the unit that the size was typed with; a piece made to it goes into the drawer first",
    ),
    "no outcome": Message("The proof says neither what was read nor whether it held.", "`figure` or `outcome`"),
    **HAPPENING,
}
