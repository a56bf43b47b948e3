"""Random unit books from a seed: trees, ways, springs in several arrangements, stops with gaps, loads, packs, options.

All lengths are whole hundredths of an inch, so that one book can be written in either unit with no rounding. Places of
all bodies are drawn first and stops after them, so that the stops never contradict each other. What cannot be known
before a book is read (a part that a stop pins for ever, say) makes a fault now and then: then the next seed is tried.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from functools import cache
from random import Random
from typing import Any

from layshaft.book import load_book
from layshaft.book.book import BookFaults
from layshaft.book.definition import Unit

ATTITUDES = ("nose up", "nose down", "level")
AXES = {
    "main": {"start": "front", "end": "rear", "start is up": "nose up", "end is up": "nose down"},
    "cross": {"start": "left", "end": "right", "start is up": "level"},
}
KINDS = ("press", "spring compressor", "long screws", "own thread", "by hand under cover")
TRIES = 40


@dataclass(frozen=True)
class Wish:
    """What a book is to hold: about so many parts and loads.

    Simple: each spring on one retainer. Flat: no part lies in another.
    """

    parts: int = 12
    loads: int = 2
    is_branching: bool = True
    has_sessions_only_by_press: bool = False
    has_falls: bool = True
    has_attitudes: bool = True
    has_options: bool = False
    is_simple: bool = False
    is_flat: bool = False
    has_proofs: bool = False


def length(hundredths: int, unit: str, tolerance: int = 0) -> str:
    """So many hundredths of an inch, in inches or exactly in millimetres."""

    def figure(value: int) -> str:
        if unit == "in":
            return f"{value / 100:.2f}"
        return f"{value * 254 / 1000:.3f}"

    return f"{figure(hundredths)} ± {figure(tolerance)} {unit}" if tolerance else f"{figure(hundredths)} {unit}"


class Maker:
    """Draws one book."""

    def __init__(self, seed: int, wish: Wish, unit: str) -> None:
        self.chance = Random(seed)
        self.wish = wish
        self.unit = unit
        self.place: dict[str, int] = {"P-00": 0}
        self.key: dict[str, float] = {}
        self.parts: dict[str, dict[str, Any]] = {
            "P-00": {"name": "Case", "class": "case", "mass": "5 kg", "faces": {}}
        }
        self.stops: dict[str, dict[str, Any]] = {}
        self.loads: dict[str, dict[str, Any]] = {}
        self.packs: dict[str, dict[str, Any]] = {}
        self.proofs: dict[str, dict[str, Any]] = {}
        self.seed = seed

    def maybe(self, odds: float) -> bool:
        return self.chance.random() < odds

    def part(self, kind: str, at: int, key: float, **more: Any) -> str:
        name = f"P-{len(self.parts):02d}"
        grams = self.chance.randint(1, 300) * 10
        self.parts[name] = {
            "name": f"{kind.capitalize()} {len(self.parts)}",
            "class": kind,
            "mass": f"{grams} g",
            **more,
        }
        self.place[name] = at
        self.key[name] = key
        return name

    def face(self, part: str, at: int) -> str:
        """A face of a part at a place along the axis; one that is there already is used again."""
        faces = self.parts[part].setdefault("faces", {})
        name = f"f{at - self.place[part]}".replace("-", "m")
        faces[name] = length(at - self.place[part], self.unit)
        return f"{part} {name}"

    def stop(self, a: tuple[str, int], b: tuple[str, int], toward: str, slack: int, by: list[str]) -> str:
        """A stop that the drawn places keep, with so much room left."""
        gap = (b[1] - a[1] if toward == "rear" else a[1] - b[1]) + slack
        found: dict[str, Any] = {"a": self.face(*a), "b": self.face(*b), "toward": toward}
        found["at most"] = length(gap, self.unit)
        thick = [name for name in by if "ring" in self.parts[name]["class"]]
        if thick and self.maybe(0.4):
            size = self.chance.randint(2, 12)
            self.parts[thick[0]].setdefault("faces", {}).update(
                {"front": length(0, self.unit), f"t{size}": length(size, self.unit)}
            )
            found["at most"] = [
                f"less {thick[0]} front to t{size}",
                f"plus {length(gap + size, self.unit)}, drawn room",
            ]
            if gap + size < 0:
                found["at most"] = length(gap, self.unit)
        found["by"] = by
        name = f"stop {len(self.stops)}"
        self.stops[name] = found
        return name

    def retainers(self, many: int, latest: float) -> list[str]:
        """Rings, screws and clips; some lie in a cover or are there several times."""
        made = []
        for _ in range(many):
            kind = self.chance.choice(["snap ring", "fastener", "clip"])
            more: dict[str, Any] = (
                {"count": self.chance.randint(2, 6)} if kind == "fastener" and self.maybe(0.6) else {}
            )
            made.append(self.part(kind, 0, self.chance.uniform(0.0, latest), **more))
        return made

    def spring(self, room: int, key: float, stroke: int | None = None) -> str:
        """A spring that is pressed into so much room."""
        stroke = stroke or self.chance.randint(3, 120)
        solid = max(1, int(room * self.chance.uniform(0.1, 0.6)))
        data: dict[str, Any] = {
            "kind": "helical",
            "free length": length(room + stroke, self.unit, self.chance.choice([0, 0, 1, 3])),
            "rate": f"{self.chance.choice([0.2, 1.5, 8, 30, 65.693])} N/mm",
            "solid length": length(solid, self.unit),
        }
        if data["free length"].count("±") and stroke < 8:
            data["free length"] = length(room + stroke, self.unit)
        more: dict[str, Any] = {"count": self.chance.randint(2, 4)} if self.maybe(0.15) else {}
        return self.part("spring", 0, key, spring=data, **more)

    def release(self, reach: list[str], cap: str, base_face: str, key: float) -> dict[str, Any]:
        kind = "press" if self.wish.has_sessions_only_by_press else self.chance.choice(KINDS)
        found: dict[str, Any] = {"kind": kind, "reach": reach, "time": f"{self.chance.randint(1, 9)} min"}
        if kind in ("press", "spring compressor"):
            found |= {"tool": "bridge", "over": length(1, self.unit)}
            cap_face = self.face(cap, self.place[cap])
            found |= {"pushes": cap_face, "stands on": base_face} if kind == "press" else {}
        elif kind in ("long screws", "own thread"):
            found["thread engaged"] = length(900, self.unit)
        else:
            found["limits"] = {"energy": "900 J", "speed": "900 m/s"}
        if self.wish.has_attitudes and self.maybe(0.3):
            found["attitude"] = self.some_attitudes()
        blockers = [name for name, other in self.key.items() if other < key and name not in reach]
        if blockers and self.maybe(0.3):
            found["behind"] = [self.chance.choice(blockers)]
        return found

    def some_attitudes(self) -> list[str]:
        return self.chance.sample(ATTITUDES, self.chance.randint(1, 2))

    def add_load(
        self,
        springs: list[str],
        first: tuple[str, int],
        second: tuple[str, int],
        reach: list[str],
        cap: str,
        host: str = "P-00",
    ) -> None:
        name = f"load {len(self.loads)}"
        key = min(self.key[part] for part in reach)
        releases = [self.release(reach, cap, self.face(host, 700), key)]
        if self.maybe(0.25):
            releases.append(self.release(reach, cap, self.face(host, 700), key))
        self.loads[name] = {
            "springs": springs,
            "seats": [self.face(*first), self.face(*second)],
            "releases": releases,
        }

    def backed(self, cap: str, at: int, toward: str, other: tuple[str, int], latest: float) -> list[str]:
        """Retainers that hold a cap on another part: the first with no or little room, backups with more."""
        held = self.retainers(1 if self.wish.is_simple else self.chance.choice([1, 1, 2, 3]), latest)
        slack = 0
        for name in held:
            by = [name]
            if self.maybe(0.15):
                by = [name, self.chance.choice(held)]
            self.stop(other, (cap, at), toward, slack, sorted(set(by)))
            if self.parts[name].get("count", 1) > 1 and self.maybe(0.5):
                self.stops[f"stop {len(self.stops) - 1}"]["rated count"] = self.chance.randint(
                    1, self.parts[name]["count"]
                )
            slack += self.chance.choice([0, 0, 1, 2, 6, 20])
        return held

    def single(self) -> None:
        """A spring of its own, or two side by side, between the case, or a drum that comes out whole, and a cap."""
        toward = self.chance.choice(["front", "rear"])
        room = self.chance.randint(60, 300)
        at = self.chance.randint(100, 600)
        latest = self.chance.uniform(0.3, 0.6)
        host, first = "P-00", len(self.parts)
        if not (self.wish.is_simple or self.wish.is_flat) and self.maybe(0.35):
            host, first = self.part("drum", 0, latest + 0.3), first + 1
        cap = self.part("cap", at, latest + 0.1)
        held = self.backed(cap, at, toward, (host, at), latest)
        springs = [self.spring(room, latest + 0.2) for _ in range(1 + self.maybe(0.15))]
        ends = (cap, at), (host, at + room)
        if toward == "rear":
            ends = (host, at - room), (cap, at)
        self.add_load(springs, *ends, held, cap, host)
        self.way(cap, toward, held_by=held)
        for spring in springs:
            self.way(spring, toward, behind=[cap])
        if host != "P-00":
            for name in list(self.parts)[first:]:
                self.parts[name]["lies in"] = host
                if self.maybe(0.4):
                    self.parts[name]["stays together"] = "Only where a part of it is renewed"

    def shared(self) -> None:
        """Two springs on one body: side by side, in a row, or against each other."""
        form = self.chance.choice(["parallel", "series", "opposed"])
        room = self.chance.randint(60, 200)
        latest = self.chance.uniform(0.3, 0.5)
        body = self.part("slide", 300, latest + 0.2)
        one, two = self.spring(room, latest + 0.3), self.spring(room + 10, latest + 0.3)
        if form == "parallel":
            held = self.backed(body, 300, "front", ("P-00", 300), latest)
            self.add_load([one], (body, 300), ("P-00", 300 + room), held, body)
            self.add_load([two], (body, 300), ("P-00", 310 + room), held, body)
            self.way(body, "front", held_by=held)
            self.way(one, "front", behind=[body])
            self.way(two, "front", behind=[body])
            return
        cap = self.part("cap", 300 - room, latest + 0.1)
        held = self.backed(cap, 300 - room, "front", ("P-00", 300 - room), latest)
        inner = self.backed(body, 300, "front", ("P-00", 300), latest)
        if form == "opposed" or self.maybe(0.4):
            self.stop(
                ("P-00", 300),
                (body, 300),
                "rear",
                self.chance.choice([0, 2, 15]),
                self.chance.choice([inner[:1], []]),
            )
        self.add_load([one], (cap, 300 - room), (body, 300), held, cap)
        self.add_load([two], (body, 300), ("P-00", 310 + room), inner, body)
        self.way(cap, "front", held_by=held)
        self.way(one, "front", behind=[cap])
        self.way(body, "front", behind=[cap], held_by=inner)
        self.way(two, "front", behind=[body])

    def wound(self) -> None:
        """A spring wound by an angle between the case and a hub."""
        latest = self.chance.uniform(0.2, 0.6)
        held = self.retainers(1, latest)
        hub = self.part("hub", 0, latest + 0.1)
        data = {"kind": "torsion", "angular rate": "2 N·m/rad"}
        spring = self.part("spring", 0, latest + 0.2, spring=data)
        release = {"kind": "own thread", "thread engaged": "20 mm", "reach": [hub], "time": "2 min"}
        self.loads[f"load {len(self.loads)}"] = {
            "springs": [spring],
            "wound": "90 deg",
            "wound between": [hub, "P-00"],
            "releases": [release],
        }
        self.way(hub, "front", held_by=held)
        self.way(spring, "front", behind=[hub])

    def pack(self) -> None:
        """Plates that alternate in a drum, and a stop over them."""
        many = self.chance.randint(2, 5)
        drum = self.part("drum", 400, 0.9)
        kinds = [("friction", many + self.chance.choice([0, 1]), 8), ("steel", many, 7)]
        plates = [
            self.part(
                kind,
                0,
                0.5,
                **{
                    "lies in": drum,
                    "count": count,
                    "faces": {"front": length(0, self.unit), "rear": length(thick, self.unit)},
                },
            )
            for kind, count, thick in kinds
        ]
        height = sum(count * thick for _, count, thick in kinds)
        self.packs["plates"] = {"order": [{"alternate": plates}], "lined": plates[:1]}
        plate = self.part("cap", 400 - height, 0.3, **{"lies in": drum})
        ring = self.part("snap ring", 0, 0.2, **{"lies in": drum})
        name = self.stop((drum, 400), (plate, 400 - height), "rear", 0, [])
        self.stops[name]["packs"] = ["plates"]
        self.stops[name]["at most"] = ["less pack plates"]
        self.stop((drum, 400 - height - 4), (plate, 400 - height), "front", self.chance.randint(0, 3), [ring])
        self.way(plate, "front", held_by=[ring])
        for one in plates:
            self.way(one, "front", behind=[plate])

    def way(self, part: str, toward: str, held_by: Any = (), behind: Any = (), **more: Any) -> None:
        found: dict[str, Any] = {"toward": toward, "time": f"{self.chance.randint(1, 40) / 10} min", **more}
        if held_by:
            found["held by"] = list(held_by)
        if behind:
            found["behind"] = list(behind)
        if self.maybe(0.6):
            found["tool"] = f"tool {self.chance.randint(1, 3)}"
        elif self.maybe(0.1):
            found["support"] = "sling"
        if self.wish.has_attitudes and self.maybe(0.12):
            found["attitude"] = self.some_attitudes()
        self.parts[part].setdefault("ways", []).append(found)

    def needs(self, part: str) -> list[Any]:
        """A few needs over parts that come earlier in the hidden order."""
        earlier = sorted(
            name for name, key in self.key.items() if key < self.key[part] and self.parts[name].get("ways")
        )
        found: list[Any] = []
        for _ in range(self.chance.choice([0, 1, 1, 2])):
            if not earlier:
                break
            pick = [self.chance.choice(earlier) for _ in range(3)]
            if self.wish.is_branching and self.maybe(0.3):
                found.append({self.chance.choice(["any of", "all of"]): [pick[0], pick[1]]})
            elif self.wish.is_branching and self.maybe(0.1):
                found.append({"any of": [pick[0], {"all of": [pick[1], pick[2]]}]})
            else:
                found.append(pick[0])
        return found

    def fillers(self) -> None:
        """Parts that no spring asks for: covers, shafts, bundles, screws, on either axis."""
        while len(self.parts) < self.wish.parts:
            kind = self.chance.choice(["cover", "shaft", "gear", "bearing", "fastener"])
            more: dict[str, Any] = {"count": self.chance.randint(2, 8)} if kind == "fastener" else {}
            holders = [name for name, data in self.parts.items() if name != "P-00" and "spring" not in data]
            if holders and not self.wish.is_flat and self.maybe(0.3):
                more["lies in"] = self.chance.choice(holders)
            if self.maybe(0.15) and "lies in" not in more:
                more["axis"] = "cross"
            self.part(kind, 0, self.chance.random(), **more)
        fillers = [name for name, data in self.parts.items() if name != "P-00" and not data.get("ways")]
        for name in sorted(fillers, key=lambda one: self.key[one]):
            data = self.parts[name]
            if "lies in" in data and self.maybe(0.2) and not any(name in stop["by"] for stop in self.stops.values()):
                continue
            ends = ("left", "right") if data.get("axis") else ("front", "rear")
            for _ in range(1 + (self.wish.is_branching and self.maybe(0.2))):
                needs = self.needs(name)
                cut = self.chance.randint(0, len(needs))
                more = {"on bench": True} if "lies in" in data and self.maybe(0.2) else {}
                self.way(name, self.chance.choice(ends), needs[:cut], needs[cut:], **more)
            if "lies in" in data and self.maybe(0.3):
                data["stays together"] = "Only where a part of it is renewed"

    def settle_falls(self) -> None:
        for name, data in self.parts.items():
            if name != "P-00" and data.get("ways") and (not self.wish.has_falls or self.maybe(0.6)):
                data["stays"] = "grease"

    def options(self) -> dict[str, Any]:
        if not self.wish.has_options:
            return {"variants": {"plain": {}}}
        for data in self.parts.values():
            if data.get("count", 1) > 1 and data["class"] in ("fastener",) and self.maybe(0.5):
                data["count"] = {"size small": data["count"], "size large": data["count"] + 1}
        return {
            "options": {"size": ["small", "large"]},
            "variants": {"plain": {"size": "small"}, "large": {"size": "large"}},
        }

    def some_proofs(self) -> dict[str, dict[str, Any]]:
        """Checks between a part that is in early and one that goes on late."""
        movable = sorted((name for name, data in self.parts.items() if data.get("ways")), key=lambda one: self.key[one])
        middle = len(movable) // 2
        found = {}
        for number in range(1, 4 if middle else 1):
            found[f"check {number}"] = {
                "name": f"Check {number}", "how": "Depth gauge", "proves": "it is seated",
                "does not prove": "anything else", "time": "1 min",
                "after": [self.chance.choice(movable[middle:])],
                "before": [self.chance.choice(movable[:middle])] if number < 3 else [],
            }
        return found

    def book(self) -> dict[str, Any]:
        forms = [self.single, self.single, self.shared, self.shared, self.wound]
        if self.wish.is_simple:
            forms = [self.single]
        while len(self.loads) < self.wish.loads:
            self.chance.choice(forms)()
        if self.wish.parts >= 20 and not self.wish.is_flat and self.maybe(0.5):
            self.pack()
        self.fillers()
        self.settle_falls()
        head = {
            "layshaft book": 1,
            "id": f"random-{self.seed}",
            "name": "Random box",
            "maker": "Tarnwick Gear Works",
            "invented": True,
            "revision": 1,
            "dated": "2026-10-01",
            "base": "P-00",
            "starts": "nose up",
            "attitudes": list(ATTITUDES if self.wish.has_attitudes else ATTITUDES[:1]),
            "axes": AXES
            if self.wish.has_attitudes
            else {
                "main": {"start": "front", "end": "rear", "start is up": "nose up"},
                "cross": {"start": "left", "end": "right"},
            },
            "tools": {"tool 1": {}, "tool 2": {}, "tool 3": {}, "bridge": {}, "sling": {}},
        }
        head |= self.options()
        if self.wish.has_proofs:
            self.proofs = self.some_proofs()
        for key in ("parts", "stops", "loads", "packs", "proofs"):
            if getattr(self, key):
                head[key] = getattr(self, key)
        return head


@dataclass(frozen=True)
class Drawn:
    """A random book as text, and its unit as it is read."""

    text: str
    seed: int
    unit: Unit = field(repr=False, compare=False)


def book_text(seed: int, wish: Wish, unit: str = "mm") -> str:
    """The text of one random book, which may have faults; one seed gives one unit, in either unit of length."""
    return json.dumps(Maker(seed, wish, unit).book(), ensure_ascii=False, indent=1)


@cache
def random_book(seed: int, wish: Wish = Wish()) -> Drawn:
    """A random book that is read without faults: the first of up to 40 drawn from one seed."""
    for attempt in range(TRIES):
        drawn = seed * 1000 + attempt
        text = book_text(drawn, wish)
        try:
            return Drawn(text, drawn, load_book(text, f"random-{drawn}.yaml").unit("plain"))
        except BookFaults:
            continue
    raise AssertionError(f"no book without faults from seed {seed}")
