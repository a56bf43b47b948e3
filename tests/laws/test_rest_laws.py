"""Laws that springs held by stops obey, on random layouts, against solvers and graph code of others."""

import math
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import networkx as nx
import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog, minimize

from layshaft.mechanics.rest import Layout, Point, Stop, at_rest, contradiction, let_go, longest_length
from layshaft.mechanics.rest_bounds import Spread, bounds
from tests.laws.random_layout import list_faults_of_rest, make_layout

seeds = st.integers(0, 2**32)


def bodies_of(layout):
    return sorted({point.body for point in layout.points.values()} | layout.forces.keys())


def energy_by_slsqp(layout):
    """Least energy [J] by a general solver: SciPy's SLSQP, in millimetres, with a shortening for each spring.

    Nothing where what that solver returns breaks a stop by more than a nanometre.
    """
    bodies = [body for body in bodies_of(layout) if body not in layout.fixed]
    count = len(bodies)

    def difference(a, b):
        row, constant = np.zeros(count + len(layout.springs)), 0.0
        for end, sign in ((layout.points[b], 1), (layout.points[a], -1)):
            constant += sign * end.offset * 1000
            if end.body not in layout.fixed:
                row[bodies.index(end.body)] += sign
        return row, constant

    rows, least = [], []
    for stop in layout.stops:
        row, constant = difference(stop.a, stop.b)
        rows.append(-row)
        least.append(constant - stop.gap * 1000)
    for number, spring in enumerate(layout.springs):
        row, constant = difference(spring.a, spring.b)
        rows.append(row.copy())
        least.append(spring.solid_length * 1000 - constant)
        row[count + number] = 1
        rows.append(row)
        least.append(spring.free_length * 1000 - constant)
    matrix, least = np.array(rows), np.array(least)
    weights = np.array([layout.forces.get(body, 0.0) for body in bodies])
    rates = np.array([spring.rate / 1000 for spring in layout.springs])
    scale = max(1.0, rates.max())

    def energy(z):
        return (0.5 * rates @ z[count:] ** 2 - weights @ z[:count]) / scale

    def slope(z):
        return np.concatenate((-weights, rates * z[count:])) / scale

    feasible = linprog(np.zeros(matrix.shape[1]), -matrix, -least, bounds=(None, None), method="highs")
    found = minimize(energy, feasible.x, jac=slope, method="SLSQP", options={"ftol": 1e-15, "maxiter": 2000},
                     constraints={"type": "ineq", "fun": lambda z: matrix @ z - least, "jac": lambda z: matrix})
    return found.fun * scale / 1000 if (matrix @ found.x - least).min() > -1e-6 else None


def test_random_layouts_are_of_every_kind():
    rests = [at_rest(make_layout(seed, both_ways=seed % 3 == 0)) for seed in range(400)]
    kinds = {
        "coupled": [rest for rest in rests if rest.is_coupled and not rest.falls],
        "by paths alone": [rest for rest in rests if not rest.is_coupled and rest.energy],
        "coupled with weights": [rest for rest in rests if rest.is_coupled and rest.layout.forces and not rest.falls],
        "weights by paths alone": [r for r in rests if not r.is_coupled and r.carried and r.layout.forces],
        "falling": [rest for rest in rests if rest.falls],
        "solid": [rest for rest in rests if any(spring.is_solid for spring in rest.springs.values())],
        "shared": [rest for rest in rests if rest.shared],
    }
    assert {kind: len(found) for kind, found in kinds.items() if len(found) < 20} == {}


@settings(max_examples=300)
@given(seed=seeds, both_ways=st.booleans())
def test_rest_meets_the_conditions_of_least_energy(seed, both_ways):
    layout = make_layout(seed, both_ways=both_ways)
    assert list_faults_of_rest(layout, at_rest(layout)) == []


@settings(max_examples=20)
@given(seed=seeds)
def test_rest_of_large_layouts_meets_them_too(seed):
    layout = make_layout(seed, most_bodies=60)
    assert list_faults_of_rest(layout, at_rest(layout)) == []


@settings(max_examples=150)
@given(seed=seeds, both_ways=st.booleans())
def test_energy_is_what_a_general_solver_finds(seed, both_ways):
    layout = make_layout(seed, most_bodies=5, both_ways=both_ways)
    rest = at_rest(layout)
    assume(not rest.falls)
    other = energy_by_slsqp(layout)
    assume(other is not None)
    scale = rest.energy + sum(abs(force) for force in layout.forces.values()) * 0.1
    assert rest.potential == pytest.approx(other, rel=1e-6, abs=1e-6 * scale + 1e-9)


def test_general_solver_seldom_gives_up():
    layouts = [make_layout(seed, most_bodies=5) for seed in range(100)]
    solved = [energy_by_slsqp(layout) is not None for layout in layouts if not at_rest(layout).falls]
    assert len(solved) > 50 and sum(solved) > 0.95 * len(solved)


@given(seed=seeds, pick=st.integers(0, 10**6))
def test_energy_never_rises_when_a_stop_goes(seed, pick):
    layout = make_layout(seed)
    assume(layout.stops)
    stop = layout.stops[pick % len(layout.stops)]
    before, after = at_rest(layout), at_rest(layout.without(stops={stop.id}))
    gone = let_go(before, after)
    assert before.falls <= after.falls
    assert gone.energy >= -1e-9 * (1 + before.energy)
    if not after.falls:
        assert after.potential <= before.potential + 1e-9 * (1 + abs(before.potential))
        assert gone.energy == pytest.approx(before.potential - after.potential, rel=1e-9, abs=1e-8)


@given(seed=seeds)
def test_what_is_let_go_on_the_way_sums_up(seed):
    layout = make_layout(seed, weight=0.0)
    states = [layout]
    for stop in layout.stops:
        states.append(states[-1].without(stops={stop.id}))
    steps = [let_go(before, after).energy for before, after in pairwise(states)]
    whole = let_go(layout, states[-1]).energy
    assert math.fsum(steps) == pytest.approx(whole, rel=1e-9, abs=1e-9)


@given(seed=seeds)
def test_mirrored_layout_has_the_same_springs(seed):
    layout = make_layout(seed)
    mirrored = Layout(
        {name: Point(point.body, -point.offset) for name, point in layout.points.items()},
        tuple(replace(stop, a=stop.b, b=stop.a) for stop in layout.stops),
        tuple(replace(spring, a=spring.b, b=spring.a) for spring in layout.springs),
        layout.fixed,
        {body: -force for body, force in layout.forces.items()},
    )
    compare_springs(at_rest(layout), at_rest(mirrored))


@given(seed=seeds, order=st.randoms(use_true_random=False))
def test_order_of_entry_makes_no_difference(seed, order):
    layout = make_layout(seed)
    points, stops, springs = list(layout.points.items()), list(layout.stops), list(layout.springs)
    for entries in (points, stops, springs):
        order.shuffle(entries)
    shuffled = Layout(dict(points), tuple(stops), tuple(springs), layout.fixed, layout.forces)
    first, second = at_rest(layout), at_rest(shuffled)
    compare_springs(first, second)
    assert first.shared == second.shared
    for name in (first.carried.keys() | second.carried.keys()) - first.shared:
        assert second.carried.get(name, 0.0) == pytest.approx(first.carried.get(name, 0.0), rel=1e-6, abs=1e-4)


def compare_springs(first, second):
    assert first.falls == second.falls
    assert first.energy == pytest.approx(second.energy, rel=1e-9, abs=1e-9)
    for name, spring in first.springs.items():
        other = second.springs[name]
        assert other.length == pytest.approx(spring.length, abs=2e-10)
        assert other.energy == pytest.approx(spring.energy, rel=1e-6, abs=1e-9)
        if not spring.is_solid:
            assert other.force == pytest.approx(spring.force, rel=1e-6, abs=1e-4)


@given(seed=seeds, pick=st.integers(0, 10**6))
def test_a_state_made_by_removal_is_the_state_built_anew(seed, pick):
    layout = make_layout(seed)
    at_rest(layout)
    gone = {stop.id for stop in layout.stops if pick >> stop.id % 20 & 1}
    body = bodies_of(layout)[-1]
    smaller = layout.without(stops=gone, bodies={body} - layout.fixed)
    anew = Layout(smaller.points, smaller.stops, smaller.springs, smaller.fixed, smaller.forces)
    assert {stop.id for stop in anew.stops}.isdisjoint(gone)
    assert all(point.body != body for point in anew.points.values())
    compare_springs(at_rest(smaller), at_rest(anew))


def graph_of(layout):
    """Stops as edges between bodies; all fixed bodies are one."""
    graph = nx.MultiDiGraph()
    graph.add_nodes_from(0 if body in layout.fixed else body for body in bodies_of(layout))
    for stop in layout.stops:
        a, b = layout.points[stop.a], layout.points[stop.b]
        graph.add_edge(a.body, b.body, key=stop.id, weight=stop.gap + a.offset - b.offset)
    return graph


@settings(max_examples=150)
@given(seed=seeds)
def test_longest_length_is_the_shortest_path_of_networkx(seed):
    layout = make_layout(seed, weight=0.0)
    graph = graph_of(layout)
    for spring in layout.springs:
        a, b = layout.points[spring.a], layout.points[spring.b]
        length, stops = longest_length(layout, spring)
        if not nx.has_path(graph, a.body, b.body):
            assert (length, stops) == (math.inf, ())
            continue
        # A circle of touching stops sums to minus rounding, which networkx takes at its word: give each a hair.
        eased = nx.MultiDiGraph((u, v, {"weight": d["weight"] + 1e-13}) for u, v, d in graph.edges(data=True))
        eased.add_nodes_from(graph)
        shortest = nx.bellman_ford_path_length(eased, a.body, b.body) + b.offset - a.offset
        assert length == pytest.approx(shortest, abs=1e-11)
        gaps = {stop.id: stop for stop in layout.stops}
        along = sum(
            gaps[name].gap + layout.points[gaps[name].a].offset - layout.points[gaps[name].b].offset for name in stops
        )
        assert along + b.offset - a.offset == pytest.approx(length, abs=1e-12)


@settings(max_examples=150)
@given(seed=seeds, change=st.integers(-60, 20))
def test_contradiction_is_the_negative_cycle_of_networkx(seed, change):
    layout = make_layout(seed, weight=0.0)
    stops = tuple(replace(stop, gap=Fraction(round(stop.gap * 1000) + change, 1000)) for stop in layout.stops)
    points = {name: Point(p.body, Fraction(round(p.offset * 1000), 1000)) for name, p in layout.points.items()}
    exact = Layout(points, stops, (), layout.fixed)
    cycle = contradiction(exact)
    assert (cycle is not None) == nx.negative_edge_cycle(graph_of(exact))
    if cycle:
        on_cycle = [next(stop for stop in stops if stop.id == name) for name in cycle]
        ends = [(points[stop.a].body, points[stop.b].body) for stop in on_cycle]
        assert all(end[1] == start[0] for end, start in zip(ends, [*ends[1:], ends[0]], strict=True))
        assert sum(stop.gap + points[stop.a].offset - points[stop.b].offset for stop in on_cycle) < 0


@settings(max_examples=40)
@given(seed=seeds)
def test_stops_that_share_are_those_whose_force_a_linear_program_can_change(seed):
    layout = make_layout(seed, most_bodies=6)
    rest = at_rest(layout)
    assume(not rest.falls and not any(spring.is_solid for spring in rest.springs.values()))
    tight = [stop for stop in layout.stops if stop.id in rest.tight]
    bodies = [body for body in bodies_of(layout) if body not in layout.fixed]
    matrix, left = np.zeros((len(bodies), len(tight))), np.zeros(len(bodies))
    for column, stop in enumerate(tight):
        for end, sign in ((stop.b, -1), (stop.a, 1)):
            if layout.points[end].body not in layout.fixed:
                matrix[bodies.index(layout.points[end].body), column] += sign
        left -= matrix[:, column] * rest.carried.get(stop.id, 0.0)
    assume(tight)
    for column, stop in enumerate(tight):
        cost = np.zeros(len(tight))
        cost[column] = 1
        # Some force, in place of the one found, with the same sum on each body; at most 1 MN keeps it bounded.
        ends = [linprog(sign * cost, A_eq=matrix, b_eq=-left, bounds=(0, 1e6), method="highs") for sign in (1, -1)]
        can_change = abs(ends[0].x[column] - ends[1].x[column]) > 1e-3
        assert (stop.id in rest.shared) == can_change


def scatter(layout, random, share):
    """A spread about a layout: stops may be wider and narrower, springs weaker and stronger."""
    return Spread(
        gaps={stop.id: (stop.gap - random.uniform(0, 0.002) * share, stop.gap + random.uniform(0, 0.002))
              for stop in layout.stops if random.random() < 0.7},
        free_lengths={s.id: (max(s.free_length - random.uniform(0, 0.002), (s.free_length + s.solid_length) / 2),
                             s.free_length + random.uniform(0, 0.002)) for s in layout.springs},
        rates={s.id: (s.rate * random.uniform(0.9, 1), s.rate * random.uniform(1, 1.1)) for s in layout.springs},
    )


def pick_within(layout, spread, pick):
    return Layout(
        layout.points,
        tuple(replace(s, gap=pick(spread.gaps[s.id])) if s.id in spread.gaps else s for s in layout.stops),
        tuple(replace(s, rate=pick(spread.rates[s.id]), free_length=pick(spread.free_lengths[s.id]))
              for s in layout.springs),
        layout.fixed, layout.forces)


@settings(max_examples=150)
@given(seed=seeds, random=st.randoms(use_true_random=False), share=st.sampled_from([0, 1]))
def test_bounds_hold_for_every_set_of_figures_within(seed, random, share):
    layout = make_layout(seed, most_bodies=6)
    spread = scatter(layout, random, share)
    found = bounds(layout, spread)
    picks = [lambda ends: random.choice(ends), lambda ends: random.uniform(*ends), lambda ends: ends[1]]
    for pick in picks * 3:
        one = pick_within(layout, spread, pick)
        if contradiction(one):
            continue
        rest = at_rest(one)
        for name, spring in rest.springs.items():
            bound = found.springs[name]
            assert bound.length[0] - 1e-9 <= spring.length <= bound.length[1] + 1e-9
            slip = 1e-9 * one.spring(name).rate
            assert bound.force[0] - slip <= spring.force <= bound.force[1] + slip
            assert bound.energy[0] - 1e-7 <= spring.energy <= bound.energy[1] * (1 + 1e-9) + 1e-7
        assert found.energy[0] - 1e-7 <= rest.energy <= found.energy[1] * (1 + 1e-9) + 1e-7


@settings(max_examples=100)
@given(seed=seeds, random=st.randoms(use_true_random=False))
def test_sharp_bounds_are_reached(seed, random):
    layout = make_layout(seed, most_bodies=6, weight=0.0)
    spread = scatter(layout, random, share=0)
    found = bounds(layout, spread)
    for name, bound in found.springs.items():
        if not bound.is_sharp:
            continue
        springs = {spring.id: spring for spring in layout.springs}
        reached = set()
        for wide in (0, 1):
            for strong in (0, 1):
                stops = tuple(replace(s, gap=spread.gaps.get(s.id, (s.gap,) * 2)[wide]) for s in layout.stops)
                one = replace(springs[name], rate=spread.rates[name][strong],
                              free_length=spread.free_lengths[name][strong])
                rest = at_rest(Layout(layout.points, stops, (one,), layout.fixed)).springs[name]
                for kind in ("length", "force", "energy"):
                    for end in (0, 1):
                        if getattr(rest, kind) == pytest.approx(getattr(bound, kind)[end], rel=1e-9, abs=1e-12):
                            reached.add((kind, end))
        assert len(reached) == 6


@settings(max_examples=100)
@given(seed=seeds)
def test_exact_lengths_give_what_floats_give(seed):
    layout = make_layout(seed)
    points = {name: Point(p.body, Fraction(p.offset)) for name, p in layout.points.items()}
    # Exactly, a circle of touching stops may miss what floats round off: let every gap be a hair wider in both.
    stops = tuple(replace(stop, gap=Fraction(stop.gap + 1e-9)) for stop in layout.stops)
    exact = Layout(points, stops, layout.springs, layout.fixed, layout.forces)
    floats = Layout(layout.points, tuple(Stop(s.id, s.a, s.b, float(s.gap)) for s in stops), layout.springs,
                    layout.fixed, layout.forces)
    assert contradiction(exact) is None
    compare_springs(at_rest(exact), at_rest(floats))
