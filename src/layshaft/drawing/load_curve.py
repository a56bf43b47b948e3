"""A load against the way that it is let out: how hard it can push everywhere, and every state of its release.

A state is told by a number, a shape and a word; nothing is told by colour. What the picture shows stands in it as
words, too, for whoever has it read out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from html import escape
from typing import Literal

from layshaft.drawing import svg
from layshaft.drawing.state_shape import shape
from layshaft.plan.press import PressPlan
from layshaft.plan.press_stage import Stage
from layshaft.plan.spring_fact import Band
from layshaft.quantity import ANGLE, FORCE, LENGTH, TORQUE, Dimension, Show

SAMPLES = 48
"""Points of a curve; it is straight but where one spring of several comes free."""
EDGE = 14.0
"""The margin."""
NARROW = 600.0
"""Below this width a state's load stands on a line of its own."""


MarkKind = Literal["closed", "held", "off", "let off", "free", "in"]
"""The states of a release, and `in`: pressed, with a retainer in again."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One state: how far the load is let out beyond the whole unit [m, or rad when wound], how hard it pushes."""

    number: int
    kind: MarkKind
    out: float
    load: Band
    words: str
    is_now: bool = False


@dataclass(frozen=True, slots=True)
class LoadCurve:
    """What is drawn: the load at each way let out, the states, and how far in nobody may press."""

    about: str
    points: tuple[tuple[float, Band], ...]
    marks: tuple[Mark, ...]
    most_in: float | None
    """How far beyond the whole unit it may be pressed at most [m]."""
    solid_in: float | None
    """How far in its coils touch at the soonest [m]."""
    way: Dimension
    kind: Dimension

    @property
    def ends(self) -> tuple[float, float]:
        """From where to where it is drawn."""
        innermost = -max(self.solid_in or 0.0, self.most_in or 0.0)
        return min(innermost, *(mark.out for mark in self.marks)), self.points[-1][0]


def load_curve(plan: PressPlan, now: int | None = None, *, is_home: bool = False) -> LoadCurve:
    """The curve of a press plan; `now` is which of its states the unit is in, counted from 0, where that is known.

    `is_home` tells the states as they come when the load is pressed home, from free to closed.
    """
    is_wound = not plan.taken.is_pressed
    over = plan.over.nominal
    longest = plan.travel.high if is_wound else _longest(plan)
    solid = None if plan.left_before_solid is None else plan.left_before_solid.low + over
    most = None if is_wound else plan.most_over
    start = -max(most or 0.0, over)
    steps = [start + (longest - start) * at / SAMPLES for at in range(SAMPLES + 1)]
    told = _home(plan.stages) if is_home else _down(plan.stages)
    marks = [
        Mark(at + 1, kind, *_place(plan, stage, longest), words, at == now)
        for at, (stage, kind, words) in enumerate(told)
    ]
    return LoadCurve(
        plan.load,
        tuple((out, _load(plan, out)) for out in steps),
        tuple(marks),
        most,
        solid,
        ANGLE if is_wound else LENGTH,
        TORQUE if is_wound else FORCE,
    )


def _down(stages: Iterable[Stage]) -> Iterator[tuple[Stage, MarkKind, str]]:
    """The states as a load is let go."""
    for stage in stages:
        words = f"{stage.part} off" if stage.part else stage.kind
        yield stage, stage.kind, "let off, still loaded" if stage.kind == "let off" else words


def _home(stages: Sequence[Stage]) -> Iterator[tuple[Stage, MarkKind, str]]:
    """The states as a load is pressed home: what came off last goes in first."""
    before: str | None = None
    for stage in reversed(stages):
        if stage.kind == "free":
            yield stage, "free", "free"
        elif stage.kind == "let off":
            yield stage, "let off", "loaded, on what holds it already"
        elif stage.kind == "closed":
            yield stage, "closed", "let home"
        elif before is not None:
            yield stage, "in", f"{before} in"
        else:
            yield stage, "held", "pressed"
        before = stage.part


def _longest(plan: PressPlan) -> float:
    """How far out the last spring is free at its longest [m]."""
    return max(max(fact.free.high for fact in one.facts) - one.installed.low for one in plan.taken.shares)


def _load(plan: PressPlan, out: float) -> Band:
    """How hard it pushes, let out so far: a force, or the torque of a wound spring (M = c times the angle)."""
    if plan.taken.is_pressed:
        return plan.taken.pressed(Band(-out, -out, -out)).force
    angle = max(0.0, plan.installed.length.nominal - out)
    rates = [fact.rate for fact in plan.taken.facts]
    return Band(*(angle * sum(ends) for ends in zip(*((r.low, r.nominal, r.high) for r in rates), strict=True)))


def _place(plan: PressPlan, stage: Stage, longest: float) -> tuple[float, Band]:
    """How far out a state is, and its load."""
    if stage.kind == "free":
        return longest, Band(0.0, 0.0, 0.0)
    if not plan.taken.is_pressed:
        out = plan.installed.length.nominal - stage.held.length.nominal
        return out, _load(plan, out)
    return min(longest, stage.held.length.nominal - plan.installed.length.nominal), stage.held.force


def _name(mark: Mark) -> str:
    return f"{mark.number} {mark.words}{', now' if mark.is_now else ''}"


def _pushes(mark: Mark, curve: LoadCurve, show: Show) -> str:
    return "" if mark.kind == "free" else f"up to {show.show(mark.load.high, curve.kind, 'up')}"


def described(curve: LoadCurve, show: Show) -> str:
    """The whole picture in words: `2 held, up to 5.46 kN, 8.00 mm further in`."""
    told = [
        ", ".join(filter(None, (_name(mark), _pushes(mark, curve, show), _where(mark, curve, show))))
        for mark in curve.marks
    ]
    return ". ".join([*told, *_bounds(curve, show)]) + "."


def _where(mark: Mark, curve: LoadCurve, show: Show) -> str:
    if abs(mark.out) < 5e-5:
        return "as fitted"
    side = "in" if mark.out < 0 else "out"
    return f"{show.show(abs(mark.out), curve.way, 'up' if mark.kind == 'free' else 'nearest')} further {side}"


def _bounds(curve: LoadCurve, show: Show) -> Iterator[str]:
    if curve.most_in:
        yield f"Never more than {show.show(curve.most_in, curve.way, 'down')} further in"
    if curve.solid_in is not None:
        yield f"Coils can touch {show.show(curve.solid_in, curve.way, 'down')} further in"


@dataclass(frozen=True, slots=True)
class _Sheet:
    """Where things lie on a picture of one width."""

    curve: LoadCurve
    show: Show
    width: float
    size: float

    @property
    def row(self) -> float:
        """The height that one state takes."""
        return self.size * (2 if self.width >= NARROW else 2.9)

    @property
    def base(self) -> float:
        """The height of the axis, from above."""
        return self.top + max(150.0, min(self.width * 0.3, 260.0))

    @property
    def top(self) -> float:
        """Where the greatest load lies; the states stand above."""
        return EDGE + self.row * len(self._high) + self.size * 0.4

    @property
    def _high(self) -> list[Mark]:
        return [mark for mark in self.curve.marks if mark.kind != "free"]

    @property
    def _from_below(self) -> list[Mark]:
        """From what is out furthest, so that no line to a state crosses another."""
        is_home = bool(self.curve.marks) and self.curve.marks[0].kind == "free"
        return self._high[::-1] if is_home else self._high

    @property
    def height(self) -> float:
        return self.base + self.size * (1.3 * (len(self._told_under) + self._foot_from) + 1)

    @property
    def _foot_from(self) -> int:
        """The row under the axis from which on it is told; on a narrow picture the first is that of the free state."""
        return 0 if self.width >= NARROW else 1

    def x(self, out: float) -> float:
        low, high = self.curve.ends
        return EDGE + (out - low) / (high - low) * (self.width - 2 * EDGE)

    def y(self, load: float) -> float:
        most = max(band.high for _, band in self.curve.points) or 1.0
        return self.base - load / most * (self.base - self.top)

    def drawn(self) -> Iterator[str]:
        yield from self._bars()
        yield from self._band()
        yield svg.line(EDGE, self.base, self.width - EDGE, self.base)
        yield from self._states()
        yield from self._foot()

    def _bars(self) -> Iterator[str]:
        """Where nobody presses: hatched from the line that is never passed."""
        if self.curve.most_in is None or self.curve.solid_in is None:
            return
        left, line = self.x(-self.curve.solid_in), self.x(-self.curve.most_in)
        step, at = 7.0, left
        while at <= line:
            yield svg.line(at, self.top, at, self.base, stroke_width=1.5, stroke_opacity=0.55)
            at += step
        yield svg.line(line, self.top - 6, line, self.base, stroke_width=4)

    def _band(self) -> Iterator[str]:
        """The load as drawn, and between the least and the greatest."""
        upper = [(self.x(out), self.y(band.high)) for out, band in self.curve.points]
        lower = [(self.x(out), self.y(band.low)) for out, band in reversed(self.curve.points)]
        middle = [(self.x(out), self.y(band.nominal)) for out, band in self.curve.points]
        ends = {"d": svg.points([*upper, *lower]) + "Z", "fill": "currentColor", "fill-opacity": "0.13"}
        yield svg.element("path", ends)
        yield svg.path(svg.points(upper), stroke_width=2, stroke_dasharray="7 5")
        yield svg.path(svg.points(middle), stroke_width=4)

    def _states(self) -> Iterator[str]:
        x = max(self.x(one.out) for one in self._high) + self.size * 1.4
        for at, mark in enumerate(self._from_below):
            y = EDGE + self.row * (len(self._high) - at - 0.5)
            foot = self.x(mark.out), self.y(mark.load.nominal)
            yield svg.path(svg.points([foot, (foot[0], y), (x, y)]), stroke_width=1.5)
            yield from shape(mark.kind, x, y, self.size * 0.55)
            yield from shape("point", *foot, 5.0)
            yield from self._named(mark, x + self.size * 1.1, y)
        for mark in self.curve.marks:
            if mark.kind == "free":
                yield from shape(mark.kind, self.x(mark.out), self.base, self.size * 0.55)
                below = self.base + self.size * 1.6
                yield svg.text(_name(mark), self.width - EDGE, below, self.size, "end", _weight(mark))

    def _named(self, mark: Mark, x: float, y: float) -> Iterator[str]:
        """What a state is called and how hard it can push then, on one line or on two."""
        name, load = _name(mark), _pushes(mark, self.curve, self.show)
        if self.width >= NARROW:
            yield svg.text(f"{name}, {load}", x, y + self.size * 0.36, self.size, weight=_weight(mark))
            return
        yield svg.text(name, x, y, self.size, weight=_weight(mark))
        yield svg.text(load, x, y + self.size * 1.1, self.size)

    def _foot(self) -> Iterator[str]:
        for at, words in enumerate(self._told_under):
            row = at + self._foot_from
            yield svg.text(words, EDGE, self.base + self.size * (1.3 * row + 1.4), self.size * 0.9)

    @property
    def _told_under(self) -> list[str]:
        """How far in and out the ram goes, and what is never passed."""
        told = [mark for mark in self.curve.marks if mark.kind in ("held", "free", "let off")]
        ways = [f"{mark.number} {mark.words}: {_where(mark, self.curve, self.show)}" for mark in told]
        return [*ways, *_bounds(self.curve, self.show)]


def _weight(mark: Mark) -> str:
    return "bold" if mark.is_now else "normal"


def draw_load_curve(curve: LoadCurve, show: Show, *, width: float = 960.0, size: float = 20.0, id_: str = "") -> str:
    """The picture, `width` and letter height in pixels; `id_` keeps two on one page apart."""
    sheet = _Sheet(curve, show, width, size)
    name = f"Load against travel: {curve.about}"
    title, words = f"curve{id_}", f"curve{id_}-words"
    return svg.element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "viewBox": f"0 0 {width:.0f} {sheet.height:.0f}",
            "role": "img",
            "aria-labelledby": f"{title} {words}",
        },
        svg.element("title", {"id": title}, escape(name)),
        svg.element("desc", {"id": words}, escape(described(curve, show))),
        *sheet.drawn(),
    )
