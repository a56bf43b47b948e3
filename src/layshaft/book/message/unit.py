"""Messages about a unit in a book: its names, its holding, its springs, its figures, its train."""

from __future__ import annotations

from layshaft.book.message.kind import Message, Messages

NAMING: Messages = {
    "unknown name": Message("No {what} of this book is called `{found}`."),
    "absent name": Message(
        "`{found}` is in the book, but not in this variant.",
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

HOLDING: Messages = {
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
    "need branches": Message(
        "This need branches too far to be followed.",
        "fewer alternatives within alternatives",
        "give the part a way of its own for each alternative",
    ),
    "never comes out": Message(
        "{part} can never come out: {found}.",
        "holders that can come out",
        "give the holder a way out, or name what really has to be off",
    ),
}

STOPPING: Messages = {
    "stop on one part": Message("Both faces of this stop are on {found}.", "faces of two parts"),
    "stop over two axes": Message("The faces of this stop lie on two axes: {found}.", "two parts on one axis"),
    "rated count": Message("The stop is rated for more pieces than there are."),
    "stops contradict": Message(
        "The parts cannot sit so: round the stops {found}, {short} are missing.",
        "stops that can all hold at once",
        "check each `at most`, and the faces it is measured from",
    ),
}

LOADING: Messages = {
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
    "spring at odds": Message(
        "What is said of the spring {part} cannot all be so.",
        try_="look for the figure that is of another spring, in another unit or mistyped, and measure one if in doubt",
    ),
    "wound between seats": Message(
        "{found} is wound by an angle: no seats say how it is held.",
        "`wound` and `wound between`",
        "take `seats` away, or give it a load of its own",
    ),
    "pressed without seats": Message(
        "{found} is pressed by a length: no angle says how it is held.",
        "`seats: [PART face, PART face]`",
        "take `wound` and `wound between` away, or give it a load of its own",
    ),
    "key without meaning": Message(
        "`{found}` means nothing {where}: it would be read and never used.",
        "keys that mean something here",
        "take it away, or look at the kind",
    ),
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
    "seats turned round": Message(
        "Nothing holds {found}; the other way round the stops {held} keep these seats {apart} apart.",
        "the seat nearer the axis start first",
    ),
    "disc springs counted": Message(
        "{found} of {part} count as springs side by side: each pushes with the whole rate over the whole travel.",
        try_="a stack of discs one on another is one part: `count: 1`, with the rate, the free length and the solid "
        "length of the whole stack",
        kind="note",
    ),
    "never loaded": Message("The stops {held} let the spring be {found} long: it would lie loose."),
    "installed solid": Message("The stops {held} let the spring be {found} long: {part} would be pressed solid."),
    "release incomplete": Message("A release way `{found}` needs `{key}`."),
    "wound release": Message(
        "A release `{found}` goes over a length, and this load is wound by an angle.",
        "`by hand under cover`, which is held against energy and speed; nothing else can be judged",
    ),
    "over and most over": Message("The press goes further than the most it may."),
    "pressed solid": Message("Pressing so far would bring {part} too near solid."),
    "tool overloaded": Message("The springs can push harder than this tool is rated for."),
    "tool without rating": Message(
        "The tool `{found}` takes the force of this load, and its rating is not given: there will be no plan.",
        "`rating` as a force, from its plate or its maker",
        kind="note",
    ),
    "tool rated for lifting": Message(
        "The tool `{tool}` is rated for a mass that it lifts, {found}, and here it takes the force of a spring.",
        "a rating as a force, as in `12 kN`, from its plate or its maker",
    ),
    "thread too short": Message("The thread ends before the spring is free."),
    "too much for a hand": Message("This load is above the limits set for letting it go by hand."),
    "release frees nothing": Message(
        "Taking off {found} frees nothing of this load.", "parts that hold the load, within reach of the release"
    ),
    "reach not in path": Message(
        "{found} does not hold this load.", kind="note", try_="take it out of `reach` if it need not come off here"
    ),
}

ADDING_UP: Messages = {
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
    "unknown model": Message("There is no mechanics model `{found}`."),
    "unknown argument": Message("The model `{model}` takes no `{found}`."),
    "argument missing": Message("The model `{found}` is not given all that it needs.", try_="write it under `of`"),
    "given to no model": Message(
        "`of` is given, and no model takes it: {found}.", "`model` beside it", "take `of` away, or name the model"
    ),
    "wrong dimension": Message("The dimension is not the one that is due here."),
    "link is no sum": Message(
        "`{found}` is no plain sum of sizes, so it cannot be a link of a chain.",
        "a result by `chain`, or one that only adds and takes away distances",
        "keep the links between faces as a result with `chain`, and write the rest as `is` over that result's name",
    ),
    "link across": Message(
        "This link does not lie along {axis}, as the others of the chain do.",
        try_="the part's own `axis`; or, where these faces do lie so, a result of that distance alone, and here "
        "`plus result ..` or `less result ..`",
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
    "sold as another in turn": Message(
        "`sold as` names {found}, which is itself sold as {other}.",
        "an id that is bought",
        "the same id for all places",
    ),
    "sold in two ways": Message(
        "{part} is {found} and {other} is {how}, but both are `sold as` {sold}.",
        "one way to buy what is sold by one id",
        "the same `served in` for all its places, or another id",
    ),
    "sizes differ": Message(
        "The places {other} and {found} are sold as {sold}, but are not `selective` alike.",
        "the same sizes, and the same `size tolerance`, wherever one part goes",
        "another id for what is sold in other sizes",
    ),
    "by hand with a tool": Message(
        "The part is fitted `by hand`, and with a `tool`.", "one of the two", "take `by hand` away, or the tool"
    ),
    "mass": Message("The whole mass differs from the sum of the parts by more than 2 %.", kind="note"),
}

TURNING: Messages = {
    "no second toothing": Message(
        "A wheel of `{found}` runs on a second toothing that its planets do not have.", "`second teeth` on the planet"
    ),
    "ring does not close": Message(
        "The ring does not close round sun and planets.",
        try_="count again; where the teeth are shifted on purpose by at most two in all, give the `centre distance`",
    ),
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

AROUND: Messages = {
    "listed twice": Message("`{found}` is listed twice.", "each once"),
    "axis ends alike": Message("Both ends of this axis are called `{found}`.", "a name for each end"),
    "opening named as end": Message(
        "An opening and an end of an axis are both called `{found}`: a way toward it could be either.", "another name"
    ),
    "both ends up": Message("Both ends of this axis are up in `{found}`.", "one end up, or neither"),
    "set of one": Message("A set of one piece, {found}, has nothing to go with.", "at least two pieces"),
    "kit holds more": Message("The kit holds more than fits this variant.", kind="note"),
    "gauge class alone": Message(
        "No other reading of this book asks for a `{found}`; others ask for a `{near}`.",
        try_="one name for one class of gauge: a reading is held against the shop's gauges by it",
        kind="note",
    ),
    "hands over elapsed": Message(
        "The work takes longer than the time it runs: {found}.", "`hands` of at most `elapsed`"
    ),
    "before and after": Message("{found} has to be both in and out for this proof.", "each part on one side"),
    "group not together": Message("{found} would not lift with {lead}.", kind="note"),
    "group carries more": Message("{found} would lift with {lead} too.", kind="note"),
}
