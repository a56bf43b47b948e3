"""Random layouts that fit together, and a check of rest that shares no code with what it checks."""

import math
import random

from layshaft.mechanics.rest import Layout, Point, Rest, Spring, Stop


class Maker:
    """Puts bodies at random places and draws stops and springs that these places keep."""

    def __init__(self, seed: int, bodies: int) -> None:
        self.random = random.Random(seed)
        self.x = [0.0, *(self.random.uniform(-0.1, 0.1) for _ in range(bodies - 1))]
        self.points: dict[int, Point] = {}

    def ends(self) -> tuple[int, int, float]:
        """Two new points on different bodies, and how far the second is beyond the first."""
        names = []
        for body in self.random.sample(range(len(self.x)), 2):
            names.append(len(self.points))
            self.points[names[-1]] = Point(body, self.random.choice([0.0, self.random.uniform(-0.05, 0.05)]))
        a, b = names
        return a, b, self.place(b) - self.place(a)

    def place(self, name: int) -> float:
        return self.x[self.points[name].body] + self.points[name].offset

    def stop(self, number: int, touching: float) -> Stop:
        a, b, apart = self.ends()
        return Stop(number, a, b, apart + (0.0 if self.random.random() < touching else self.random.uniform(0, 0.05)))

    def spring(self, number: int) -> Spring:
        a, b, apart = self.ends()
        if apart <= 0.02:
            further = self.random.uniform(0.02, 0.1) - apart
            self.points[b] = Point(self.points[b].body, self.points[b].offset + further)
            apart += further
        free = apart + self.random.uniform(-0.01, 0.06)
        solid = min(apart, free) * self.random.uniform(0.2, 0.95)
        return Spring(f"spring {number}", a, b, 10 ** self.random.uniform(3, 5.3), free, solid)


def make_layout(seed: int, most_bodies: int = 8, weight: float | None = None, both_ways: bool = False) -> Layout:
    """A layout of 2 to `most_bodies` bodies, one of them fixed; a weight on each of up to so many newtons."""
    drawn = random.Random(seed)
    bodies = drawn.randint(2, most_bodies)
    maker = Maker(seed, bodies)
    touching = drawn.choice([0.0, 0.4, 1.0])
    stops = tuple(maker.stop(number, touching) for number in range(drawn.randint(bodies // 2, int(3.5 * bodies))))
    springs = tuple(maker.spring(number) for number in range(drawn.randint(1, min(bodies, 5))))
    most = drawn.choice([0.0, 0.0, 50.0, 2000.0]) if weight is None else weight
    way = drawn.choice([-1, 1])
    forces = {
        body: drawn.uniform(0, most) * (drawn.choice([-1, 1]) if both_ways else way)
        for body in range(1, bodies)
        if most
    }
    return Layout(maker.points, stops, springs, frozenset({0}), forces)


def place(layout: Layout, rest: Rest, point) -> float:
    """Where a point is at rest."""
    return rest.positions[layout.points[point].body] + layout.points[point].offset


def length_of(layout: Layout, rest: Rest, spring: Spring) -> float:
    """How far apart the seats of a spring are at rest."""
    return place(layout, rest, spring.b) - place(layout, rest, spring.a)


def list_faults_of_rest(layout: Layout, rest: Rest) -> list[str]:
    """What speaks against this being the least energy of a convex problem: the conditions of Karush, Kuhn and Tucker.

    Every stop is kept; a stop bears no pull, and nothing unless it touches; a spring pushes by its law; on every body
    forces sum to nothing. Together they prove the least energy (S. Boyd, L. Vandenberghe, Convex Optimization, 2004,
    section 5.5.3).
    """
    faults = []
    forces = [spring.force for spring in rest.springs.values()] + list(map(abs, layout.forces.values()))
    scale = max([1.0, *forces])
    balance = dict.fromkeys((point.body for point in layout.points.values()), 0.0)
    balance |= layout.forces

    def push(spring_or_stop, force):
        balance[layout.points[spring_or_stop.b].body] += force
        balance[layout.points[spring_or_stop.a].body] -= force

    for stop in layout.stops:
        bears = rest.carried.get(stop.id, 0.0)
        push(stop, -bears)
        slack = stop.gap - (place(layout, rest, stop.b) - place(layout, rest, stop.a))
        if not math.isfinite(slack):
            continue  # an end falls
        if bears < 0 or (bears > 0 and slack > 1e-9):
            faults.append(f"{stop} bears {bears} N at a slack of {slack} m")
        if slack < -1e-10:
            faults.append(f"{stop} is passed by {-slack} m")
    for spring in layout.springs:
        found = rest.springs[spring.id]
        push(spring, found.force)
        length = length_of(layout, rest, spring)
        law = spring.rate * max(0.0, spring.free_length - length)
        is_by_law = math.isclose(found.force, law, rel_tol=1e-9, abs_tol=spring.rate * 1e-10)
        is_by_coils = found.is_solid and found.force >= law - spring.rate * 1e-10
        if not (is_by_law or is_by_coils or math.isnan(length)):
            faults.append(f"{spring} pushes {found.force} N, its law says {law} N")
        if length < spring.solid_length - 1e-10:
            faults.append(f"{spring} is shorter than solid")
    for body, force in balance.items():
        if body not in layout.fixed and body not in rest.falls and abs(force) > 1e-9 * scale:
            faults.append(f"{force} N are left on body {body}")
    return faults
