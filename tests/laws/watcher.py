"""A watcher of springs and falls that shares no code with what it watches.

It reads a book's text by itself, finds what is separated by walking up from part to part, and lets springs come to
rest by shortest paths where each can have its own, else by non-negative least squares (least-distance programming).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import product
from typing import Any

from ruamel.yaml import YAML

from tests.laws.settling import Paths, least_energy, settle

ENERGY = 0.05
TRAVEL = 5e-5
TOUCH = 1e-7
UNITS = {
    "mm": Fraction(1, 1000),
    "in": Fraction(254, 10000),
    "kg": Fraction(1),
    "g": Fraction(1, 1000),
    "min": Fraction(60),
    "N/mm": Fraction(1000),
    "lbf/in": Fraction("175.1268352464764"),
    "N·m/rad": Fraction(1),
    "deg": Fraction("0.017453292519943295"),
    "rad": Fraction(1),
    "N·mm/deg": Fraction("0.05729577951308232"),
}
FIGURE = re.compile(r"([-+−]?[\d./ ]*[\d.])(?:\s*±\s*([\d./]+))?\s*([A-Za-z°·/]+)")
OFF, WHOLE, UNKNOWN = "gone", "whole", "unknown"


def figure(text: Any) -> tuple[float, float, float]:
    """Least, drawn and greatest of a figure in SI units."""
    found = FIGURE.match(str(text).strip())
    assert found, text
    number, tolerance, unit = found.groups()
    value = sum(Fraction(word.replace("−", "-")) for word in number.split()) * UNITS[unit]
    around = Fraction(tolerance) * UNITS[unit] if tolerance else Fraction(0)
    return float(value - around), float(value), float(value + around)


def drawn(text: Any) -> float:
    return figure(text)[1]


@dataclass(frozen=True)
class Scene:
    """What the watcher knows of a unit's state: what is off, how it stands, what is held, what nobody knows."""

    off: frozenset[str] = frozenset()
    attitude: str = ""
    held: tuple[str, int] | None = None
    pieces: tuple[tuple[str, int], ...] = ()
    gone: frozenset[str] = frozenset()
    missing: frozenset[str] = frozenset()
    unknown: frozenset[str] = frozenset()

    def readings(self) -> Iterator[frozenset[str]]:
        """Every way in which what nobody looked at, and what is left of several pieces, may hold a spring or not."""
        return self._readings(self.unknown | {part for part, off in self.pieces if off})

    def looks(self) -> Iterator[frozenset[str]]:
        """Every way in which what nobody looked at may have turned out."""
        return self._readings(self.unknown)

    def _readings(self, doubtful: frozenset[str]) -> Iterator[frozenset[str]]:
        names = sorted(doubtful)
        for chosen in product((False, True), repeat=len(names)):
            yield self.gone | {name for name, is_gone in zip(names, chosen, strict=True) if is_gone}


@dataclass(frozen=True)
class Pressed:
    """One load as it is: its length, its energy as drawn and at most."""

    is_loaded: bool
    length: float
    energy: float
    most: float


@dataclass(frozen=True)
class Coil:
    """One spring part of a load."""

    part: str
    rate: tuple[float, float, float]
    free: tuple[float, float, float]
    solid: float


@dataclass
class Watcher:
    """Watches one variant of one book."""

    text: str
    choices: dict[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        tree = YAML(typ="safe", pure=True).load(self.text)
        self.options = tree.pop("options", {})
        tree.pop("variants", None)
        self.book = self._chosen(tree)
        self.parts: dict[str, Any] = self.book["parts"]
        self.base: str = self.book["base"]
        self.parent = {name: data.get("lies in", self.base) for name, data in self.parts.items() if name != self.base}
        self.ways = {name: data.get("ways", []) if name != self.base else [] for name, data in self.parts.items()}
        self.stops: dict[str, Any] = self.book.get("stops", {})
        self.loads: dict[str, Any] = self.book.get("loads", {})
        self.members = {name: self._members(stop) for name, stop in self.stops.items()}
        self.arcs = {name: self._arc(stop) for name, stop in self.stops.items()}
        self.coils = {name: [self._coil(part) for part in load["springs"]] for name, load in self.loads.items()}
        self._settled: dict[Any, dict[str, Pressed]] = {}
        self._holds_of: dict[tuple[str, int], tuple[str, str, float]] = {}
        self._roots: dict[tuple[frozenset[str], str], str] = {}

    # Reading

    def _chosen(self, node: Any) -> Any:
        if isinstance(node, list):
            return [self._chosen(one) for one in node if not isinstance(one, dict) or self._is_here(one)]
        if not isinstance(node, dict):
            return node
        if node and all(isinstance(key, str) and key.split(" ")[0] in self.options for key in node):
            return self._chosen(next(value for key, value in node.items() if self._holds(key)))
        return {
            key: self._chosen(value)
            for key, value in node.items()
            if key != "only" and (not isinstance(value, dict) or self._is_here(value))
        }

    def _is_here(self, node: dict[str, Any]) -> bool:
        if "only" not in node:
            return True
        only = node["only"]
        return any(self._holds(one) for one in (only if isinstance(only, list) else [only]))

    def _holds(self, condition: str) -> bool:
        for clause in condition.split(" and "):
            option, *words = clause.split(" ")
            if self.choices[option] not in [word for word in words if word != "or"]:
                return False
        return True

    def _coil(self, part: str) -> Coil:
        data = self.parts[part]["spring"]
        count = self.count(part)
        if data["kind"] == "torsion":
            return Coil(part, tuple(count * one for one in figure(data["angular rate"])), (0.0, 0.0, 0.0), 0.0)
        rate = tuple(count * one for one in figure(data["rate"]))
        return Coil(part, rate, figure(data["free length"]), drawn(data.get("solid length", "0 mm")))

    def count(self, part: str) -> int:
        return int(self.parts[part].get("count", 1))

    def _members(self, stop: dict[str, Any]) -> tuple[str, ...]:
        found = [stop["a"].split(" ")[0], stop["b"].split(" ")[0], *stop.get("by", ())]
        for pack in stop.get("packs", ()):
            found += self._pack(pack)
        return tuple(dict.fromkeys(found))

    def _pack(self, pack: str) -> list[str]:
        order = self.book["packs"][pack]["order"]
        return [part for item in order for part in (item["alternate"] if isinstance(item, dict) else [item])]

    def place(self, face: str) -> tuple[str, float]:
        part, name = face.split(" ", 1)
        return part, drawn(self.parts[part]["faces"][name])

    def _arc(self, stop: dict[str, Any]) -> tuple[str, str, float]:
        """A stop as (a, b, room): b's place less a's place is at most the room."""
        (a, on_a), (b, on_b) = self.place(stop["a"]), self.place(stop["b"])
        room = self._reach(stop["at most"])
        axis = self._axis(a)
        if stop["toward"] == axis["start"]:
            return b, a, room - on_a + on_b
        return a, b, room - on_b + on_a

    def _axis(self, part: str) -> dict[str, Any]:
        axes = self.book["axes"]
        return axes[self.parts[part].get("axis", next(iter(axes)))]

    def _reach(self, reach: Any) -> float:
        if not isinstance(reach, list):
            return drawn(reach)
        return sum(self._link(link) for link in reach)

    def _link(self, link: str) -> float:
        word, rest = link.split(" ", 1)
        sign = 1 if word in ("plus", "+") else -1
        if rest.startswith("pack "):
            pack = self._pack(rest[5:])
            return sign * sum(self.count(part) * self._far(part, "front", "rear") for part in pack)
        if rest[0].isdigit() or rest[0] == ".":
            return sign * drawn(rest.split(",")[0])
        times = 1
        if rest.startswith("each "):
            rest = rest[5:]
            times = self.count(rest.split(" ")[0])
        part, faces = rest.split(" ", 1)
        return sign * times * self._far(part, *faces.split(" to "))

    def _far(self, part: str, start: str, end: str) -> float:
        return self.place(f"{part} {end}")[1] - self.place(f"{part} {start}")[1]

    # Separation and needs

    def root(self, off: frozenset[str], part: str) -> str:
        key = (off, part)
        if key not in self._roots:
            at = part
            while at != self.base and at not in off:
                at = self.parent[at]
            self._roots[key] = at
        return self._roots[key]

    def is_together(self, off: frozenset[str], parts: Iterable[str]) -> bool:
        return len({self.root(off, part) for part in parts}) <= 1

    def is_met(self, need: Any, part: str, off: frozenset[str], gone: frozenset[str]) -> bool:
        if isinstance(need, dict) and "any of" in need:
            return any(self.is_met(one, part, off, gone) for one in need["any of"])
        if isinstance(need, dict) and "all of" in need:
            return all(self.is_met(one, part, off, gone) for one in need["all of"])
        holder = next(iter(need)) if isinstance(need, dict) else need
        return holder in gone or not self.is_together(off, (holder, part))

    def _needs(self, where: dict[str, Any]) -> list[Any]:
        found: list[Any] = []
        for key in ("held by", "behind"):
            needs = where.get(key, [])
            found += [{name: how} for name, how in needs.items()] if isinstance(needs, dict) else needs
        return found

    def is_open(self, part: str, way: dict[str, Any], off: frozenset[str], gone: frozenset[str]) -> bool:
        if way.get("on bench") and self.root(off, part) == self.base:
            return False
        return all(self.is_met(need, part, off, gone) for need in self._needs(way))

    def loose(self, scene: Scene, gone: frozenset[str]) -> set[str]:
        """Parts that nothing holds and that would drop out as the unit stands."""
        return {
            name
            for name, ways in self.ways.items()
            if name not in scene.missing
            and self.root(scene.off, name) == self.base
            and any(self._drops(name, way, scene, gone) for way in ways)
        }

    def _drops(self, part: str, way: dict[str, Any], scene: Scene, gone: frozenset[str]) -> bool:
        if way.get("tool") or way.get("support") or way.get("on bench") or self.parts[part].get("stays"):
            return False
        return self._points_down(part, way["toward"], scene.attitude) and self.is_open(part, way, scene.off, gone)

    def _points_down(self, part: str, toward: str, attitude: str) -> bool:
        axis = self._axis(part)
        openings = self.book.get("openings", {})
        up = {axis["start"]: axis.get("end is up", []), axis["end"]: axis.get("start is up", [])}
        down = up[toward] if toward in up else openings.get(toward, {}).get("faces down", [])
        return attitude in ([down] if isinstance(down, str) else down)

    # Springs

    def whole(self, scene: Scene, gone: frozenset[str]) -> frozenset[str]:
        """The stops that hold."""
        return frozenset(name for name in self.stops if self._is_whole(name, scene, gone))

    def _is_whole(self, name: str, scene: Scene, gone: frozenset[str]) -> bool:
        members = self.members[name]
        rated = self.stops[name].get("rated count")
        lacking = {part: off for part, off in scene.pieces if off and part in members}
        is_enough = rated is not None and all(self.count(part) - off >= int(rated) for part, off in lacking.items())
        # The pieces that are left hold only where they were not seen broken, and are not in doubt themselves.
        excused = lacking.keys() - scene.gone - scene.unknown if is_enough else frozenset()
        lost = gone.intersection(members) - excused
        return not lost and self.is_together(scene.off, members)

    def pressing(self, scene: Scene, gone: frozenset[str]) -> frozenset[tuple[str, str]]:
        """The springs that lie between their seats, unbroken."""
        found = set()
        for name, load in self.loads.items():
            ends = [seat.split(" ")[0] for seat in load.get("seats", [])] + load.get("wound between", [])
            off = scene.off
            if scene.held is not None and scene.held[0] == name:
                off -= self._stood_in_for(*scene.held)
            for part in load["springs"]:
                if part not in gone and self.is_together(off, (part, *ends)):
                    found.add((name, part))
        return frozenset(found)

    def _pushed(self, load: str, release: int) -> int:
        """Which of a load's seats is pushed while it is held."""
        way = self.loads[load]["releases"][release]
        parts = [seat.split(" ")[0] for seat in self.loads[load]["seats"]]
        pushed = way.get("pushes", "").split(" ")[0]
        if pushed in parts:
            return parts.index(pushed)
        return next((number for number, part in enumerate(parts) if part in way.get("reach", ())), 0)

    def _stood_in_for(self, load: str, release: int) -> frozenset[str]:
        """The pushed seat's part where it may come off in the session: what holds the load stands in for it."""
        if "seats" not in self.loads[load]:
            return frozenset()
        part = self.loads[load]["seats"][self._pushed(load, release)].split(" ")[0]
        return frozenset({part}).intersection(self.loads[load]["releases"][release].get("reach", ()))

    def rest(self, scene: Scene, gone: frozenset[str]) -> dict[str, Pressed]:
        """Every load as it is in a state; one that cannot be held as short as it should be is not held."""
        if scene.held is not None and not self.has_room(scene, gone):
            scene = replace(scene, held=None)
        key = (self.whole(scene, gone), self.pressing(scene, gone), scene.held)
        if key not in self._settled:
            self._settled[key] = self._rest(*key)
        return self._settled[key]

    def has_room(self, scene: Scene, gone: frozenset[str]) -> bool:
        """Whether all stops, solid coils and what holds a load can be kept at once."""
        arcs, _ = self._layout(self.whole(scene, gone), self.pressing(scene, gone), scene.held)
        return Paths(arcs).is_possible()

    def sample(self, every: int) -> Iterator[tuple[tuple[float, float], float]]:
        """The least energy from below and above by linear programs, and that of the watcher, for states met so far."""
        for key in list(self._settled)[::every]:
            arcs, coils = self._layout(*key)
            if coils:
                apart = settle(arcs, coils, self.base)
                mine = sum(0.5 * rate * max(0.0, free - apart[name]) ** 2 for name, *_, rate, free, _ in coils)
                yield least_energy(arcs, coils, self.base), mine

    def _rest(self, whole: Any, pressing: Any, held: Any) -> dict[str, Pressed]:
        arcs, coils = self._layout(whole, pressing, held)
        apart = settle(arcs, coils, self.base)
        longest = settle(arcs, [(*coil[:5], coil[6]) for coil in coils], self.base)
        found = {}
        for name, load in self.loads.items():
            mine = [coil for coil in self.coils[name] if (name, coil.part) in pressing]
            if "seats" not in load:
                found[name] = self._wound(load, mine)
                continue
            free = max(coil.free[2] for coil in self.coils[name])
            is_loaded = any(longest[name] < coil.free[2] - TRAVEL for coil in mine)
            if not is_loaded:
                found[name] = Pressed(False, free, 0.0, 0.0)
                continue
            is_pushing = any(apart[name] < coil.free[1] - TOUCH for coil in mine)
            long = apart[name] if is_pushing else longest[name]
            energy = sum(0.5 * coil.rate[1] * max(0.0, coil.free[1] - long) ** 2 for coil in mine)
            most = sum(0.5 * coil.rate[2] * max(0.0, coil.free[2] - longest[name]) ** 2 for coil in mine)
            found[name] = Pressed(True, long, energy, max(energy, most))
        return found

    def _wound(self, load: dict[str, Any], coils: list[Coil]) -> Pressed:
        angle = figure(load["wound"])
        energy = sum(0.5 * coil.rate[1] * angle[1] ** 2 for coil in coils)
        return Pressed(bool(coils), angle[1], energy, sum(0.5 * coil.rate[2] * angle[2] ** 2 for coil in coils))

    def _layout(self, whole: Any, pressing: Any, held: Any) -> tuple[list[Any], list[Any]]:
        arcs = [self.arcs[name] for name in sorted(whole)]
        coils = []
        for name, load in self.loads.items():
            if "seats" not in load:
                continue
            (a, on_a), (b, on_b) = map(self.place, load["seats"])
            for coil in self.coils[name]:
                if (name, coil.part) in pressing:
                    coils.append((name, a, b, on_b - on_a, coil.rate[1], coil.free[1], coil.free[2]))
                    arcs.append((b, a, on_b - on_a - coil.solid))
            if held is not None and held[0] == name:
                arcs.append(self._hold(*held))
        return arcs, coils

    def _hold(self, load: str, release: int) -> tuple[str, str, float]:
        """What holds a load in a session: its pushed seat against what the press stands on, or else its other seat."""
        if (load, release) not in self._holds_of:
            self._holds_of[load, release] = self._hold_of(load, release)
        return self._holds_of[load, release]

    def _hold_of(self, load: str, release: int) -> tuple[str, str, float]:
        way = self.loads[load]["releases"][release]
        over = drawn(way["over"]) if "over" in way else 0.0
        (a, on_a), (b, on_b) = map(self.place, self.loads[load]["seats"])
        every = frozenset((name, coil.part) for name, coils in self.coils.items() for coil in coils)
        whole = frozenset(self.stops)
        side = self._pushed(load, release)
        ground = way.get("stands on", "").split(" ")[0]
        if not ground or ground == (a, b)[side] or ground not in self._touched():
            return a, b, self._rest(whole, every, None)[load].length - over - on_b + on_a
        arcs, coils = self._layout(whole, every, None)
        apart = settle(arcs, coils, self.base)
        arcs += [(b, a, offset - apart[name] + 1e-9) for name, a, b, offset, *_ in coils]
        if side == 0:
            return a, ground, Paths(arcs).between(a, ground) - over
        return ground, b, Paths(arcs).between(ground, b) - over

    def _touched(self) -> set[str]:
        faces = [stop[key] for stop in self.stops.values() for key in "ab"]
        faces += [seat for load in self.loads.values() for seat in load.get("seats", ())]
        return {face.split(" ")[0] for face in faces}


@dataclass(frozen=True)
class Jump:
    """What one load does in one move, in one reading of what nobody knows."""

    load: str
    energy: float
    most: float
    travel: float

    @property
    def is_felt(self) -> bool:
        return max(self.most, self.energy) > ENERGY or self.travel > TRAVEL


def jumps(watcher: Watcher, before: Scene, after: Scene) -> Iterator[Jump]:
    """What every load lets go, in every reading."""
    fewer = {part for part, off in after.pieces if off} - {part for part, off in before.pieces if off}
    fewer -= {part for load in watcher.loads.values() for part in load["springs"]}
    for gone, taken in product(before.readings(), (frozenset(), frozenset(fewer))):
        then, now = watcher.rest(before, gone), watcher.rest(after, gone | taken)
        for load in then:
            a, b = then[load], now[load]
            travel = max(0.0, b.length - a.length) if a.is_loaded else 0.0
            yield Jump(load, max(0.0, a.energy - b.energy), max(0.0, a.most - b.most), travel)


def newly_loose(watcher: Watcher, before: Scene, after: Scene) -> set[str]:
    """Parts that a move lets drop, in any reading of what nobody knows."""
    found: set[str] = set()
    for gone in before.looks():
        found |= watcher.loose(after, gone) - watcher.loose(before, gone)
    return found


def all_loose(watcher: Watcher, scene: Scene) -> set[str]:
    """Parts that may drop as the unit stands, in any reading of what nobody knows."""
    return set().union(*(watcher.loose(scene, gone) for gone in scene.looks()))


def without_piece(scene: Scene, part: str, off: int) -> Scene:
    """The scene with so many pieces of a part off."""
    rest = tuple(pair for pair in scene.pieces if pair[0] != part)
    return replace(scene, pieces=(*rest, (part, off)) if off else rest)
