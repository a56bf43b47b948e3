"""What a release way has to keep: ratings, solid length, thread, limits for a hand; each lack with whose it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from layshaft.book.definition import HandLimit, Release, Unit
from layshaft.plan.held import Held, Leaving
from layshaft.plan.lack import Lack, Owner
from layshaft.plan.reaction import Bearer, Reaction
from layshaft.plan.spring_fact import Band
from layshaft.plan.telling import lowered
from layshaft.quantity import ENERGY, FORCE, LENGTH, SPEED, Show, is_more, is_over

ROUNDING = 1e-9
"""Lengths that differ by less are one length, worked out two ways [m]; no book writes so small a step."""


@dataclass(frozen=True, slots=True)
class Claim:
    """The figures of a release way that are to be held against what is allowed."""

    release: Release
    pressed: Held
    greatest: Held
    travel: Band
    left: Band | None
    reaction: Reaction | Lack | None
    leaving: Leaving
    over: Band | None = None
    most_over: float = 0.0
    keep: float = 0.0
    hand: HandLimit | None = None
    """What the shop lets a hand under a cover let go; what the book lets it stands in the release way."""


def check_claim(unit: Unit, load: str, claim: Claim, show: Show) -> Iterator[Lack]:
    """All that stands against a release way, the shop's presses apart."""
    checker = _Checker(unit, load, claim, show)
    match claim.release.kind:
        case "press" | "spring compressor":
            yield from checker.given()
            yield from checker.solid()
            yield from checker.tool()
            yield from checker.way()
        case "long screws" | "own thread":
            yield from checker.thread()
            if claim.release.kind == "long screws":
                yield from checker.tool()
        case "by hand under cover":
            yield from checker.hand()


@dataclass(frozen=True, slots=True)
class _Checker:
    unit: Unit
    load: str
    claim: Claim
    show: Show

    def given(self) -> Iterator[Lack]:
        """What has to be said before anything is pressed."""
        release = self.claim.release
        asked = {"over": release.over, "tool": release.tool}
        if release.kind == "press":
            asked = {"pushes": release.pushes, "stands on": release.stands_on, "over": release.over}
        for key, value in asked.items():
            if value is None:
                yield self._book(
                    f"no {key}",
                    f"`{key}` is not given for the {release.kind}",
                    f"`{key}: ..`",
                    f"adding it to the release way of {self.load}",
                )

    def solid(self) -> Iterator[Lack]:
        """Whether the coils stay clear of each other at the pressed length."""
        claim = self.claim
        if claim.left is None:
            yield self._book(
                "solid length",
                "the length at which the coils touch is not given",
                "the solid length, or wire and total coils",
                "measuring wire and coils, or asking the maker",
            )
            return
        if claim.left.low < claim.keep - ROUNDING:
            left, keep = self._down(claim.left.low), self._up(claim.keep)
            yield self._book(
                "pressed solid",
                f"{left} left before the coils touch at the shortest",
                f"at least {keep}",
                "a smaller `over`",
            )
        elif claim.over is not None and claim.over.high > claim.most_over + ROUNDING:
            yield self._too_far(claim.over)

    def _too_far(self, over: Band) -> Lack:
        """The lack of room to press: by the book's own word, or since something hard meets, at once or further on."""
        release, most = self.claim.release, self.claim.most_over
        said = release.most_over or release.over
        found = f"{self._up(over.high)} beyond installed"
        if said is not None and most >= said.si_high:
            needed = f"at most the {said} that the book allows"
            return self._book("pressed too far", found, needed, "a smaller `over`, or less doubt in it")
        if most <= ROUNDING:
            needed = "no more than installed: something hard meets there already"
            try_ = "another release way, or a look at the stops round the pushed part"
            return self._book("pressed too far", found, needed, try_)
        needed = f"at most {self._down(most)}, where something hard meets"
        return self._book("pressed too far", found, needed, "a smaller `over`, or the stops round the pushed part")

    def tool(self) -> Iterator[Lack]:
        """Whether the tool takes the force."""
        release = self.claim.release
        if release.tool is None or release.tool not in self.unit.tools:
            return
        rating = self.unit.tools[release.tool].rating
        force = self.show.show(self.claim.greatest.force.high, FORCE, "up")
        if rating is None or rating.dimension != FORCE:
            yield Lack(
                "no tool rating",
                release.tool,
                "the book",
                "its rating as a force is not given",
                f"a rating of at least {force}",
                "the plate or the maker of the tool",
            )
        elif is_more(self.claim.greatest.force.high, rating.low):
            yield Lack(
                "tool overloaded",
                release.tool,
                "the book",
                f"the load can come to {force}",
                f"no more than its rating of {rating}",
                "a stronger tool or another release way",
            )

    def way(self) -> Iterator[Lack]:
        """Whether the force has a way through the unit, and each ring, bearing and one-way clutch on it is rated."""
        reaction = self.claim.reaction
        if isinstance(reaction, Lack):
            yield reaction
        elif reaction is not None:
            for bearer in reaction.bearers:
                yield from self._bearer(bearer)

    def _bearer(self, bearer: Bearer) -> Iterator[Lack]:
        most = self.claim.greatest.force.high
        force = self.show.show(most, FORCE, "up")
        name = f"{bearer.part} {lowered(self.unit.parts[bearer.part].name)}"
        if bearer.rating is None:
            yield Lack(
                "no rating",
                name,
                "the book",
                "the ram's force goes through it and its rating is not given",
                f"a rating of at least {force}",
                "the maker's rating, or a support that takes the force past it",
            )
        elif is_more(most, bearer.rating):
            rating = self.show.show(bearer.rating, FORCE, "down")
            yield Lack(
                "above its rating",
                name,
                "the unit",
                f"the ram's force goes through it and can come to {force}",
                f"no more than its rating of {rating}",
                "a support that takes the force past it, or another release way",
            )

    def thread(self) -> Iterator[Lack]:
        """Whether the thread still holds when the spring is free."""
        engaged = self.claim.release.thread_engaged
        travel = self._up(self.claim.travel.high)
        if engaged is None:
            yield self._book(
                "no thread",
                "how far the thread is engaged is not given",
                f"more than {travel}",
                "measuring the thread that is engaged when the unit is closed",
            )
        elif not is_over(engaged.low, self.claim.travel.high):
            yield self._book(
                "thread too short",
                f"{engaged} engaged",
                f"more than the {travel} of travel until it is free",
                "longer screws, or a press",
            )

    def hand(self) -> Iterator[Lack]:
        """Whether a hand under a cover may let it go."""
        limits = self.claim.release.limits
        if limits is None:
            yield self._book(
                "no limits",
                "limits for a hand under cover are not given",
                "an energy and a speed",
                "the limits that the shop works to",
            )
            return
        yield from self._above(limits, "the book", "")
        if self.claim.hand is not None:
            yield from self._above(self.claim.hand, "the shop", ", the shop's own limit")

    def _above(self, limits: HandLimit, whose: Owner, told: str) -> Iterator[Lack]:
        try_ = "a press or a spring compressor"
        energy = self.claim.greatest.energy.high
        if is_more(energy, limits.energy.low):
            found = f"it can let go {self.show.show(energy, ENERGY, 'up')}"
            yield Lack("too much for a hand", self.load, whose, found, f"at most {limits.energy}{told}", try_)
        speed = self.claim.leaving.speed(energy)
        if is_more(speed, limits.speed.low):
            found = f"{self.claim.leaving.part} could leave at up to {self.show.show(speed, SPEED, 'up')}"
            yield Lack("too fast for a hand", self.load, whose, found, f"at most {limits.speed}{told}", try_)

    def _book(self, id_: str, found: str, needed: str, try_: str) -> Lack:
        return Lack(id_, self.load, "the book", found, needed, try_)

    def _up(self, length: float) -> str:
        return self.show.show(length, LENGTH, "up")

    def _down(self, length: float) -> str:
        return self.show.show(length, LENGTH, "down")
