"""The catalogue of every message about a file: one word id, one sentence, what is needed, what to try."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from layshaft.book.fault import Fault, Path


@dataclass(frozen=True)
class Message:
    """One kind of fault or note: its sentence, with the places in braces filled from what was found."""

    sentence: str
    needed: str = ""
    try_: str = ""
    kind: Literal["fault", "note"] = "fault"


WRITING = {
    "too large": Message(
        "The file is larger than a file of this kind may be.", try_="split it, or take out what is not data"
    ),
    "not utf-8": Message(
        "The text is not written in UTF-8, so its signs cannot be read for certain.",
        "text in UTF-8",
        "save the file again with the encoding UTF-8",
    ),
    "tab": Message("A tab stands here; how far it reaches is not certain.", "blanks", "put blanks in place of the tab"),
    "unseen sign": Message(
        "A sign stands here that cannot be seen on the page.",
        "signs that can be seen",
        "delete it and type the line again",
    ),
    "not yaml": Message(
        "The text stops being YAML here, so nothing after it was read.",
        "YAML 1.2",
        "look at this line and the one above for a missing `:`, quote, bracket or blank",
    ),
    "too deep": Message("Tables and lists lie too deep in each other here.", try_="look for an unclosed bracket above"),
    "second document": Message(
        "A second document begins here; a file holds one.", "one document a file", "put it into a file of its own"
    ),
    "empty file": Message("Nothing is written in this file.", "a table of keys and values", "begin with its first key"),
    "not a table": Message("The file does not begin as a table of keys and values.", "`key: value` lines"),
    "tag": Message("A tag or an anchor on a key is not used in these files.", "the plain value", "take the tag away"),
    "unknown alias": Message(
        "This repeats something that has not been written in full before it.", "an anchor `&name` above it"
    ),
    "alias growth": Message(
        "Repeating anchors inside each other makes this file grow beyond bounds.",
        "values written out",
        "write them out",
    ),
    "key not text": Message("A key has to be a plain text.", "a word before the `:`"),
    "duplicate key": Message(
        "`{found}` is written twice in one table, first on line {first}.", "each key once", "keep one of the two"
    ),
    "nothing written": Message(
        "Nothing is written for {found}.", "a value", "write the value, or leave it out altogether"
    ),
    "comma in braces": Message(
        "{found} stands alone between commas: a comma ends a value within braces.",
        "`key: value`",
        "put quotes round the whole text that the comma belongs to",
    ),
    "wrong kind of file": Message(
        "This file does not say that it is a file of this kind.", try_="write `{key}: 1` as its first line"
    ),
    "first key": Message("The key that says what the file is stands below others.", try_="move it to the first line"),
    "newer version": Message(
        "This file is written in version {found} of the format, newer than this program knows.",
        try_="use a newer release of the program",
    ),
    "version": Message("The version of the format is not one that this program knows."),
}

CHOOSING = {
    "options not a table": Message(
        "`options` has to say, for each option, which choices it has.", "`options: {NAME: [CHOICE, CHOICE]}`"
    ),
    "option name taken": Message("`{found}` means something else in a book and cannot name an option.", "another name"),
    "choices not a list": Message("The choices of `{name}` have to be a list of words.", "`{name}: [CHOICE, CHOICE]`"),
    "choice twice": Message("`{name}` lists the choice `{found}` twice.", "each choice once"),
    "no variants": Message(
        "There are options, but no variant says which choices go together.", "`variants: {NAME: {OPTION: CHOICE}}`"
    ),
    "variants not a table": Message(
        "`variants` has to say, for each variant, one choice of each option.", "`variants: {NAME: {OPTION: CHOICE}}`"
    ),
    "variant not a table": Message("`{name}` has to give one choice of each option.", "`{name}: {OPTION: CHOICE}`"),
    "variants alike": Message("`{found}` and `{other}` answer every option alike.", "different answers", kind="note"),
    "unknown option": Message("No option of this book is called `{found}`."),
    "answered twice": Message("`{name}` answers the option `{option}` more than once.", try_="make a variant of each"),
    "unknown choice": Message("`{found}` is not a choice of `{option}`."),
    "left open": Message("`{name}` leaves the option `{option}` open."),
    "cues not a list": Message("The cues of a variant have to be texts.", "a list of texts"),
    "option unused": Message(
        "Nothing in this book depends on the option `{found}`.",
        kind="note",
        try_="take the option out, or key by it what it changes",
    ),
    "only not a condition": Message("`only` has to be a condition.", "`only: OPTION CHOICE`"),
    "not a condition": Message("`{found}` is not a condition on the options of this book."),
    "hole": Message(
        "No key here holds for {answers}.",
        "exactly one key that holds in every variant",
        "add a key for it, or `or CHOICE` to one that stands there",
    ),
    "overlap": Message(
        "More than one key here holds for {answers}: {found}.",
        "exactly one key that holds in every variant",
        "take the choice out of one of them",
    ),
}

DEFINING = {
    "missing key": Message("The key `{key}` is missing here."),
    "unknown key": Message("Nothing here is called `{found}`."),
    "figure": Message("The figure cannot be read as it stands: {what}."),
    "origin": Message("A result comes from one place.", try_="make two results of it"),
    "unknown word": Message("`{found}` is not one of the words that are known here."),
    "form": Message("Something of another form is due here."),
    "number of items": Message("The number of items is not what is due here."),
    "length of text": Message("The text is longer or shorter than it may be."),
    "not accepted": Message("This cannot be read as it stands."),
}

NAMING = {
    "unknown name": Message("No {what} of this book is called `{found}`."),
    "absent name": Message(
        "`{found}` is not there in this variant.",
        "something that is there whenever this is",
        "`only` here too, or a key for each option",
    ),
    "names nothing": Message("No {what} of this book is called `{found}`."),
    "not a face": Message("`{found}` names no face of a part."),
    "unknown face": Message("{part} has no face `{found}`."),
    "unknown direction": Message(
        "`{found}` is no direction that {part} can go or be held in.",
        try_="the end of the part's own axis, or an opening",
    ),
}

HOLDING = {
    "lies in itself": Message("Parts lie in each other in a circle: {found}.", "a way that ends in the base"),
    "base lies in": Message("The base lies in {found}, but everything else lies in the base.", "no `lies in` here"),
    "base has ways": Message(
        "{found} is the base: it stays on the bench and is what other parts come out of.", "no `ways` here"
    ),
    "held in a circle": Message(
        "No part of this circle can come out first: {found}.",
        "one link that is not so",
        "take out the holder that does not really hold, or give a part another way out",
    ),
    "never comes out": Message(
        "{part} can never come out: {found}.",
        "holders that can come out",
        "give the holder a way out, or name what really has to be off",
    ),
}

STOPPING = {
    "stop on one part": Message("Both faces of this stop are on {found}.", "faces of two parts"),
    "stop over two axes": Message("The faces of this stop lie on two axes: {found}.", "two parts on one axis"),
    "rated count": Message("The stop is rated for more pieces than there are."),
    "stops contradict": Message(
        "The parts cannot sit so: round the stops {found}, {short} are missing.",
        "stops that can all hold at once",
        "check each `at most`, and the faces it is measured from",
    ),
}

LOADING = {
    "spring without load": Message(
        "{found} is a spring without seats: no load says what it pushes apart.",
        "a load with this spring and its seats",
        "write it under `loads`",
    ),
    "spring without data": Message(
        "The load `{load}` counts on {found}, which has no spring data.",
        "`spring: {kind: .., free length: .., ..}` on the part",
    ),
    "spring data": Message("What the spring pushes cannot be worked out: {found}."),
    "spring lengths": Message("The lengths of {part} contradict each other."),
    "load without release": Message(
        "Nothing says how the load `{found}` is let go.", "at least one entry in `releases`"
    ),
    "load without seats": Message(
        "Nothing says what the load `{found}` acts between.",
        "`seats: [PART face, PART face]`, or `wound` and `wound between`",
    ),
    "seats on two axes": Message("The seats of this load lie on two axes.", "seats on one axis"),
    "never held": Message(
        "No stops hold these seats together: {found}. The spring would never have been loaded.",
        "stops that lead from the first seat to the second",
        "follow what the spring pushes on, contact by contact, back to its other end",
    ),
    "seats reversed": Message(
        "The stops {held} leave {found} between the seats.",
        "the seat nearer the axis start first",
        "put the seats the other way round, or check those stops",
    ),
    "never loaded": Message("The stops {held} let the spring be {found} long: it would lie loose."),
    "installed solid": Message("The stops {held} let the spring be {found} long: {part} would be pressed solid."),
    "release incomplete": Message("A release by {found} needs `{key}`."),
    "over and most over": Message("The press goes further than the most it may."),
    "pressed solid": Message("Pressing so far would bring {part} too near solid."),
    "tool overloaded": Message("The springs can push harder than this tool is rated for."),
    "thread too short": Message("The thread ends before the spring is free."),
    "too much for a hand": Message("This load is above the limits set for letting it go by hand."),
    "release frees nothing": Message(
        "Taking off {found} frees nothing of this load.", "parts that hold the load, within reach of the release"
    ),
    "reach not in path": Message(
        "{found} does not hold this load.", kind="note", try_="take it out of `reach` if it need not come off here"
    ),
}

ADDING_UP = {
    "cannot alternate": Message("These plates cannot alternate: {found}."),
    "pack member twice": Message(
        "{found} stands in this pack twice; all its pieces are in it already.", "each part once"
    ),
    "pack face": Message("{found} is in this pack without a face `{face}`."),
    "not in pack": Message("{found} is not in this pack."),
    "pack height": Message("The pack is drawn {found} high, but its pieces do not add up to that."),
    "expression": Message("The expression cannot be read as it stands: {what}."),
    "result in a circle": Message(
        "Results come from each other in a circle: {found}.", "a result that comes from sizes"
    ),
    "wrong dimension": Message("The dimension is not the one that is due here."),
    "link is no sum": Message(
        "`{found}` is no plain sum of sizes, so it cannot be a link of a chain.",
        "a result by `chain`, or one that only adds and takes away",
        "write the whole as an expression with `is`",
    ),
    "drawn otherwise": Message("The figure drawn is not what it works out to."),
    "outside as drawn": Message("As drawn, this result is already outside its limit.", kind="note"),
    "half a distance": Message("A distance has two faces; here is only {found}.", "both `from` and `to`, or neither"),
    "new outside reuse": Message("A new part could be refused by these limits."),
    "size twice": Message("The size {found} is listed twice.", "each size once"),
    "sizes not in order": Message("The sizes are not in order: {found}.", "sizes from small to large"),
    "drawn size not sold": Message("The part is drawn at {found}, outside the sizes that are sold.", kind="note"),
    "outline inside out": Message("The outline has no wall here.", "an outer diameter above the inner one"),
    "outline backwards": Message("The outline runs backwards here.", "`from` nearer the axis start than `to`"),
    "odds": Message("More were used again than were seen.", "at most as many `reused` as `seen`"),
    "no mass": Message("A part weighs something.", "a mass above nothing"),
    "renew alone": Message(
        "{part} is always renewed, but is served only in {found}.",
        "a part that is sold by itself",
        "set `renew` on {found}, or take `served in` away",
    ),
    "served in itself": Message("Parts are served in each other in a circle: {found}.", "a part that is sold"),
    "mass": Message("The whole mass differs from the sum of the parts by more than 2 %.", kind="note"),
}

TURNING = {
    "no second toothing": Message(
        "A wheel of `{found}` runs on a second toothing that its planets do not have.", "`second teeth` on the planet"
    ),
    "ring does not close": Message("The ring does not close round sun and planets."),
    "planets cannot be spaced": Message("So many planets cannot be put in at equal angles."),
    "planets foul": Message("Neighbouring planets foul each other."),
    "turns not read": Message("The counted turns cannot be read.", "`7 in, 10 out`, a minus where it turns backwards"),
    "tie-up": Message(
        "This range ties up: {found} cannot hold together with the input turning.",
        "couplings that leave one way to turn",
    ),
    "nothing drives": Message("Nothing drives the output in this range.", "couplings that tie it to the input"),
    "turns otherwise": Message("The range is drawn as {found}, but turns otherwise."),
}

AROUND = {
    "listed twice": Message("`{found}` is listed twice.", "each once"),
    "axis ends alike": Message("Both ends of this axis are called `{found}`.", "a name for each end"),
    "both ends up": Message("Both ends of this axis are up in `{found}`.", "one end up, or neither"),
    "set of one": Message("A set of one piece, {found}, has nothing to go with.", "at least two pieces"),
    "kit holds more": Message("The kit holds more than fits this variant.", kind="note"),
    "hands over elapsed": Message(
        "The work takes longer than the time it runs: {found}.", "`hands` of at most `elapsed`"
    ),
    "before and after": Message("{found} has to be both in and out for this proof.", "each part on one side"),
    "group not together": Message("{found} would not lift with {lead}.", kind="note"),
    "group carries more": Message("{found} would lift with {lead} too.", kind="note"),
}

SELLING = {
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
    "size not sold": Message("{part} does not come in {found}.", kind="note"),
    "unsized": Message(
        "{part} comes in several sizes; which these are is not said.", "`sizes: {SIZE: COUNT}`", kind="note"
    ),
}

WORKING = {
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
    "after today": Message("This lies after the job's own `today`.", "at most {today}"),
    "before opened": Message("This lies before the job was opened.", "at least {opened}", kind="note"),
    "one thing": Message("An entry here says one thing.", try_="write an entry for each"),
    "goes with another": Message("`{found}` does not belong to an entry with `{with_}`."),
    "no such way": Message("{name} has no {what} number {found}."),
    "off altogether": Message("All {count} of {part} are off, not some of them.", "`off: {part}`"),
    "countersigned by the same": Message("{found} signed this too.", "someone else of the shop"),
    "not selective": Message("{part} comes in one size only."),
    "no outcome": Message("The proof says neither what was read nor whether it held.", "`figure` or `outcome`"),
}

CATALOGUE: dict[str, Message] = {
    **WRITING,
    **CHOOSING,
    **DEFINING,
    **NAMING,
    **HOLDING,
    **STOPPING,
    **LOADING,
    **ADDING_UP,
    **TURNING,
    **AROUND,
    **SELLING,
    **WORKING,
}


_SLOT = re.compile(r"\{([a-z]+)\}")


def _filled(text: str, told: Mapping[str, str]) -> str:
    """A text with what was told put in the places in braces; other braces stand for themselves."""
    return _SLOT.sub(lambda match: told.get(match[1], match[0]), text)


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
