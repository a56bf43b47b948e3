"""Messages about where a release way bears, and about what holds a spring meanwhile."""

from __future__ import annotations

from layshaft.book.message.kind import Message, Messages

PRESSING: Messages = {
    "bears on the spring": Message(
        "`{key}` names {found}, the spring that is to be let go.",
        "a part that lies against the spring, or stays where it is",
    ),
    "bears on what comes off": Message(
        "`{key}` names {found}, and {holder} comes off while the load is held.",
        "a part that stays until the spring is free",
        "name the part behind it, or take it out of `reach`",
    ),
    "pushes the base": Message(
        "{found} is the base and stays on the bench: nothing is let go by pushing it.",
        "the part that moves as the spring is pressed",
        "put the base under `stands on`",
    ),
    "pushes what it stands on": Message(
        "The force goes from {found} back into {found}: nothing is pressed.",
        "two parts with the spring between them",
    ),
    "push leads nowhere": Message(
        "By the stops a push on {found} gets to neither seat of the spring, {seats}.",
        "stops that lead the push to a seat; without them no press plan can be given",
        "the part that bears on a seat, or the stops between them",
        kind="note",
    ),
    "push comes not through": Message(
        "By the stops the push comes out at {far}, and from there it does not get to {found}.",
        "stops that lead the push on to what it goes back into; without them no press plan can be given",
        "the part that the far end of the spring leans on, or the stops between them",
        kind="note",
    ),
    "holder overloaded": Message(
        "{part} holds the load `{load}` by the stop `{stop}` and is not rated for it.",
        try_="look at the rating, at the spring's rate and free length, and at the stops that hold it",
    ),
    "stop overloaded": Message(
        "This stop holds the load `{load}` and is not rated for it.",
        try_="look at the rating, at the spring's rate and free length, and at the stops that hold it",
    ),
}
