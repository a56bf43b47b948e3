"""Messages about how a file is written: its text, its options, its keys and figures."""

from __future__ import annotations

from layshaft.book.message.kind import Message, Messages

WRITING: Messages = {
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
    "another kind of file": Message(
        "This is a {other} file, where a {kind} file is due.", try_="name the {kind} file instead of this one"
    ),
    "first key": Message("The key that says what the file is stands below others.", try_="move it to the first line"),
    "newer version": Message(
        "This file is written in version {found} of the format, newer than this program knows.",
        try_="use a newer release of the program",
    ),
    "version": Message("The version of the format is not one that this program knows."),
}

CHOOSING: Messages = {
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

DEFINING: Messages = {
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
