"""The least cost of taking a unit apart, worked out from the watcher alone: all states, or a constraint program."""

from __future__ import annotations

from fractions import Fraction
from heapq import heappop, heappush
from itertools import count
from typing import Any

from ortools.sat.python import cp_model

from layshaft.plan.act import Act, Hold, LetOff, TakeOff, Turn
from tests.laws.walk import after, faults
from tests.laws.watcher import Scene, Watcher, drawn

Cost = tuple[int, ...]
ZERO: Cost = (0, 0, 0, 0, 0)


def tenths(time: Any) -> int:
    """Tenths of a minute."""
    return round(drawn(time) / 6)


class Costs:
    """What each act costs: risk, grams turned over, press set-ups, tool changes, tenths of a minute."""

    def __init__(self, watcher: Watcher) -> None:
        self.watcher = watcher
        self.grams = {
            part: round(Fraction(drawn(data["mass"])).limit_denominator(10**6) * 1000 * watcher.count(part))
            for part, data in watcher.parts.items()
        }

    def goal(self) -> frozenset[str]:
        ways = self.watcher.ways.items()
        return frozenset(part for part, some in ways if some and not self.watcher.parts[part].get("stays together"))

    def acts(self, scene: Scene) -> list[Act]:
        """Everything worth trying in a scene, allowed or not."""
        found: list[Act] = []
        for part, ways in self.watcher.ways.items():
            if part not in scene.off:
                found += [TakeOff(part, at) for at in range(len(ways))]
        if scene.held is not None:
            return [*found, LetOff()]
        found += [Turn(one) for one in self.watcher.book["attitudes"] if one != scene.attitude]
        return found + [
            Hold(name, at) for name, load in self.watcher.loads.items() for at in range(len(load["releases"]))
        ]

    def of(self, scene: Scene, act: Act, tool: str | None) -> tuple[Cost, str | None]:
        """What an act costs with a tool in hand, and the tool in hand after it."""
        match act:
            case Turn():
                return (0, self.left(scene), 0, 0, 0), tool
            case Hold(load=load, release=release):
                way = self.watcher.loads[load]["releases"][release]
                return (0, 0, int(way["kind"] == "press"), 0, tenths(way["time"])), tool
            case TakeOff(part=part, way=at):
                way = self.watcher.ways[part][at]
                wanted = way.get("tool") or tool
                return (0, 0, 0, int(wanted != tool), tenths(way["time"])), wanted
        return ZERO, tool

    def left(self, scene: Scene) -> int:
        """The grams that are still in the unit."""
        root, base = self.watcher.root, self.watcher.base
        return sum(grams for part, grams in self.grams.items() if root(scene.off, part) == base)

    def least(self) -> Cost | None:
        """The least cost over all states, by Dijkstra."""
        serial = count()
        start = Scene(attitude=self.watcher.book["starts"])
        heap: list[tuple[Cost, int, Scene, str | None]] = [(ZERO, next(serial), start, None)]
        done: set[tuple[Scene, str | None]] = set()
        allowed: dict[Scene, list[Act]] = {}
        goal = self.goal()
        while heap:
            cost, _, scene, tool = heappop(heap)
            if (scene, tool) in done:
                continue
            done.add((scene, tool))
            if goal <= scene.off:
                return cost
            if scene not in allowed:
                allowed[scene] = [act for act in self.acts(scene) if not faults(self.watcher, scene, act)]
            for act in allowed[scene]:
                more, then = self.of(scene, act, tool)
                where = (after(self.watcher, scene, act), then)
                if where not in done:
                    heappush(heap, (tuple(a + b for a, b in zip(cost, more, strict=True)), next(serial), *where))
        return None


class Program:
    """Least turns, press set-ups and tool changes of a book of one-retainer springs, by a constraint program.

    The order is cut into runs: each has one attitude, one tool or none, and is free or inside one load's session.
    """

    def __init__(self, watcher: Watcher, runs: int) -> None:
        self.watcher, self.runs = watcher, range(runs)
        self.costs = Costs(watcher)
        self.model = cp_model.CpModel()
        self.moves = sorted(part for part, ways in watcher.ways.items() if ways)
        self.tools = sorted({way["tool"] for part in self.moves for way in watcher.ways[part] if "tool" in way})
        self.attitudes = list(watcher.book["attitudes"])
        self.sessions = [
            (name, at) for name, load in watcher.loads.items() for at in range(len(load["releases"]))
        ]
        self.retained = {part: name for name, load in watcher.loads.items() for part in load["releases"][0]["reach"]}
        self._variables()
        self._order()
        self._runs()

    def _variables(self) -> None:
        new = self.model.new_bool_var
        self.when = {(m, r): new(f"{m} in {r}") for m in self.moves for r in self.runs}
        self.place = {m: self.model.new_int_var(0, len(self.moves) - 1, f"place {m}") for m in self.moves}
        self.run = {m: self.model.new_int_var(0, len(self.runs) - 1, f"run {m}") for m in self.moves}
        self.stands = {(a, r): new(f"{a} {r}") for a in self.attitudes for r in self.runs}
        self.hand = {(t, r): new(f"{t} {r}") for t in [None, *self.tools] for r in self.runs}
        self.inside = {(s, r): new(f"{s} {r}") for s in [None, *self.sessions] for r in self.runs}

    def _order(self) -> None:
        model = self.model
        model.add_all_different(self.place.values())
        for m in self.moves:
            model.add_exactly_one(self.when[m, r] for r in self.runs)
            model.add(self.run[m] == sum(r * self.when[m, r] for r in self.runs))
            way = self.watcher.ways[m][0]
            for need in self.watcher._needs(way):
                self._wait(m, need)
            self._suits(m, way)
        for m in self.moves:
            for n in self.moves:
                if m < n:
                    first = model.new_bool_var("")
                    model.add(self.place[m] < self.place[n]).only_enforce_if(first)
                    model.add(self.place[m] > self.place[n]).only_enforce_if(~first)
                    model.add(self.run[m] <= self.run[n]).only_enforce_if(first)
                    model.add(self.run[m] >= self.run[n]).only_enforce_if(~first)

    def _wait(self, move: str, need: Any) -> None:
        if isinstance(need, dict) and "all of" in need:
            for one in need["all of"]:
                self._wait(move, one)
            return
        options = need["any of"] if isinstance(need, dict) and "any of" in need else [need]
        chosen = [self.model.new_bool_var("") for _ in options]
        self.model.add_bool_or(chosen)
        for choice, one in zip(chosen, options, strict=True):
            parts = one["all of"] if isinstance(one, dict) and "all of" in one else [one]
            for part in parts:
                holder = next(iter(part)) if isinstance(part, dict) else part
                self.model.add(self.place[holder] < self.place[move]).only_enforce_if(choice)

    def _suits(self, move: str, way: dict[str, Any]) -> None:
        load = self.retained.get(move)
        for r in self.runs:
            there = self.when[move, r]
            if "attitude" in way:
                self.model.add_bool_or(self.stands[a, r] for a in way["attitude"]).only_enforce_if(there)
            if "tool" in way:
                self.model.add_implication(there, self.hand[way["tool"], r])
            allowed = [s for s in self.sessions if s[0] == load] if load else [None]
            self.model.add_bool_or(self.inside[s, r] for s in allowed).only_enforce_if(there)

    def _runs(self) -> None:
        model = self.model
        start = self.watcher.book["starts"]
        self.turned, self.changed, self.pressed = [], [], []
        self.spent: list[Any] = []
        for r in self.runs:
            model.add_exactly_one(self.stands[a, r] for a in self.attitudes)
            model.add_exactly_one(self.hand[t, r] for t in [None, *self.tools])
            model.add_exactly_one(self.inside[s, r] for s in [None, *self.sessions])
            self._change(r, start)
            for session in self.sessions:
                self._session(r, session)
        self._turns()

    def _change(self, r: int, start: str) -> None:
        model = self.model
        turn, change = model.new_bool_var(f"turn {r}"), model.new_bool_var(f"change {r}")
        for a in self.attitudes:
            before = self.stands[a, r - 1] if r else model.new_constant(int(a == start))
            model.add_implication(~turn, before).only_enforce_if(self.stands[a, r])
        for t in self.tools:
            before = self.hand[t, r - 1] if r else model.new_constant(0)
            model.add_implication(~change, before).only_enforce_if(self.hand[t, r])
        if r:
            for t in self.tools:
                model.add_implication(self.hand[t, r - 1], ~self.hand[None, r])
        self.turned.append(turn)
        self.changed.append(change)

    def _session(self, r: int, session: tuple[str, int]) -> None:
        model, inside = self.model, self.inside[session, r]
        way = self.watcher.loads[session[0]]["releases"][session[1]]
        enter = model.new_bool_var(f"enter {session} {r}")
        if r:
            model.add_bool_or(~inside, self.inside[session, r - 1], enter)
            model.add_implication(self.turned[r], ~self.inside[session, r - 1]).only_enforce_if(inside)
        else:
            model.add_implication(inside, enter)
        if "attitude" in way:
            model.add_bool_or(self.stands[a, r] for a in way["attitude"]).only_enforce_if(inside)
        for blocker in way.get("behind", ()):
            model.add(self.run[blocker] < r).only_enforce_if(enter)
        if way["kind"] == "press":
            self.pressed.append(enter)
        self.spent.append(tenths(way["time"]) * enter)

    def _turns(self) -> None:
        model, watcher = self.model, self.watcher
        fixed = sum(grams for part, grams in self.costs.grams.items() if part not in self.place)
        self.weight: list[Any] = []
        for r in self.runs:
            self.weight.append(fixed * self.turned[r])
            for m in self.moves:
                still = model.new_bool_var("")
                gone = [self.when[m, q] for q in self.runs if q < r]
                model.add_bool_or([still, ~self.turned[r], *gone])
                self.weight.append(self.costs.grams[m] * still)
        assert not any("lies in" in data for data in watcher.parts.values())

    def least(self, seconds: float = 60.0) -> tuple[Cost, bool]:
        """Turns, presses, tool changes and tenths of a minute, each least given those before; whether it is proved."""
        total = sum(tenths(self.watcher.ways[m][0]["time"]) for m in self.moves)
        goals = [sum(self.weight), sum(self.pressed), sum(self.changed), total + sum(self.spent)]
        found: list[int] = []
        for goal in goals:
            self.model.minimize(goal)
            solver = cp_model.CpSolver()
            solver.parameters.num_workers = 1
            solver.parameters.random_seed = 1
            solver.parameters.max_deterministic_time = seconds
            status = solver.solve(self.model)
            if status != cp_model.OPTIMAL:
                return tuple(found), False
            found.append(round(solver.objective_value))
            self.model.add(goal <= found[-1])
        return (0, *found), True


