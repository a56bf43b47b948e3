"""Paths that hold a spring, the smallest sets of parts that free it, and what still holds."""

import itertools
import random
from dataclasses import replace
from fractions import Fraction

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layshaft.mechanics.cut import Path, Paths, holders_left, paths, smallest_cuts
from layshaft.mechanics.rest import Layout, Misfit, Point, Spring, Stop, at_rest, let_go
from tests.laws.random_layout import make_layout

CASE = frozenset({"case"})
PARTS = {"ring": {"OT-043"}, "washer": {"OT-020"}, "splines": {"OT-021", "OT-040"}}


def captive():
    """A spring that a ring holds at once, and behind it a gear with its washer."""
    points = {
        "seat": Point("case", 0.0), "end": Point("case", 0.0760), "hub": Point("hub", 0.0),
        "gear front": Point("gear", 0.0), "gear back": Point("gear", 0.0),
    }
    stops = (Stop("washer", "end", "gear back", 0.0015), Stop("splines", "gear front", "hub", 0.0012),
             Stop("ring", "end", "hub", 0.0), Stop("far wall", "end", "hub", 0.0563 + 0.0001))
    return Layout(points, stops, (Spring("main", "seat", "hub", 65_693.0, 0.1323, 0.05775),), CASE)


def test_paths_are_those_shorter_than_free():
    found = paths(captive(), "main")
    assert [path.stops for path in found.found] == [("ring",), ("washer", "splines")]
    assert [path.length for path in found.found] == pytest.approx([0.0760, 0.0787])
    assert found.is_complete


def test_every_smallest_set_that_frees_the_spring():
    cuts = smallest_cuts(paths(captive(), "main"), PARTS)
    assert list(map(set, cuts.sets)) == [{"OT-020", "OT-043"}, {"OT-021", "OT-043"}, {"OT-040", "OT-043"}]
    assert cuts.is_complete and cuts.fast == ()


def test_what_holds_after_the_ring_broke():
    found = paths(captive(), "main")
    left = holders_left(found, PARTS, gone={"OT-043"})
    assert [path.stops for path in left.paths] == [("washer", "splines")]
    assert left.length == pytest.approx(0.0787)
    assert left.sole == left.parts == {"OT-020", "OT-021", "OT-040"}
    whole = holders_left(found, PARTS, gone=())
    assert whole.sole == frozenset() and whole.length == pytest.approx(0.0760)
    free = holders_left(found, PARTS, gone={"OT-043", "OT-020"})
    assert (free.paths, free.length, free.parts, free.sole) == ((), 0.1323, frozenset(), frozenset())


def test_part_on_every_path_frees_alone():
    shared = PARTS | {"ring": {"OT-043", "OT-040"}}
    cuts = smallest_cuts(paths(captive(), "main"), shared)
    assert set(cuts.sets[0]) == {"OT-040"}
    assert holders_left(paths(captive(), "main"), shared, gone=()).sole == {"OT-040"}


def test_path_without_a_part_that_can_go_holds_for_good():
    cuts = smallest_cuts(paths(captive(), "main"), PARTS | {"ring": ()})
    assert cuts.sets == () and [path.stops for path in cuts.fast] == [("ring",)]


def test_spring_that_nothing_holds_needs_no_cut():
    free = paths(captive().without(stops={"ring", "splines"}), "main")
    assert free.found == ()
    assert smallest_cuts(free, {}).sets == (frozenset(),)


def test_spring_between_faces_of_one_body_is_held_by_it():
    points = {"a": Point("case", 0.0), "b": Point("case", 0.05)}
    found = paths(Layout(points, (), (Spring("s", "a", "b", 1e4, 0.08, 0.02),), CASE), "s")
    assert found.found == (Path((), (), 0.05),)
    assert smallest_cuts(found, {}).fast == found.found


def test_opposed_springs_hold_each_other_while_the_wall_stands():
    points = {"a": Point("case", 0.0), "b": Point("slider", 0.0), "c": Point("slider", 0.0), "d": Point("wall", 0.0),
              "bolt": Point("case", 0.2), "head": Point("wall", 0.0)}
    springs = (Spring(1, "a", "b", 30_000.0, 0.15, 0.05), Spring(2, "c", "d", 10_000.0, 0.09, 0.03))
    layout = Layout(points, (Stop("bolts", "bolt", "head", 0.0),), springs, CASE)
    for own, other, length in ((1, 2, 0.2 - 0.09), (2, 1, 0.2 - 0.15)):
        found = paths(layout, own)
        assert found.found == (Path(("bolts",), (other,), pytest.approx(length)),)
        assert list(map(set, smallest_cuts(found, {"bolts": {"six screws"}}).sets)) == [{"six screws"}]
        leaned = smallest_cuts(found, {"bolts": {"six screws"}}, {other: {"that spring"}})
        assert list(map(set, leaned.sets)) == [{"six screws"}, {"that spring"}]
        left = holders_left(found, {"bolts": {"six screws"}}, {"that spring"}, {other: {"that spring"}})
        assert left.paths == ()


def test_search_cut_off_says_so():
    found = paths(captive(), "main", limit=1)
    assert [path.stops for path in found.found] == [("ring",)]
    assert not found.is_complete
    assert not smallest_cuts(found, PARTS).is_complete
    assert not holders_left(found, PARTS, gone={"OT-043"}).is_complete
    assert not paths(captive(), "main", effort=1).is_complete
    whole = paths(captive(), "main", limit=2)
    assert whole.is_complete
    assert len(smallest_cuts(whole, PARTS, limit=2).sets) == 2
    assert not smallest_cuts(whole, PARTS, limit=2).is_complete
    assert smallest_cuts(whole, PARTS, limit=3).is_complete
    assert not smallest_cuts(whole, PARTS, effort=2).is_complete


def test_stop_without_parts_said_and_contradicting_stops_are_refused():
    with pytest.raises(KeyError, match="splines"):
        smallest_cuts(paths(captive(), "main"), {"ring": {"OT-043"}, "washer": {"OT-020"}})
    wrong = replace(captive(), stops=(*captive().stops, Stop("x", "hub", "end", -0.001)))
    with pytest.raises(Misfit):
        paths(wrong, "main")


def test_exact_length_equal_to_free_holds_nothing():
    points = {"seat": Point("case", 0), "hub": Point("hub", 0)}
    spring = Spring("s", "seat", "hub", 1e4, Fraction("0.1323"), 0.05)
    for gap, holds in ((Fraction("0.1323"), False), (Fraction("0.1323") - Fraction(1, 10**30), True)):
        layout = Layout(points, (Stop("stop", "seat", "hub", gap),), (spring,), CASE)
        assert bool(paths(layout, spring).found) == holds


def all_paths_of_networkx(layout, spring):
    """Ways from seat to seat shorter than free, from all simple paths of networkx; springs count with what is free."""
    graph = nx.MultiDiGraph()
    graph.add_nodes_from(range(10))
    for stop in layout.stops:
        a, b = layout.points[stop.a], layout.points[stop.b]
        graph.add_edge(a.body, b.body, key=stop.id, weight=stop.gap + a.offset - b.offset)
    for other in layout.springs:
        if other != spring:
            a, b = layout.points[other.a], layout.points[other.b]
            graph.add_edge(b.body, a.body, key=other.id, weight=b.offset - a.offset - other.free_length)
    a, b = layout.points[spring.a], layout.points[spring.b]
    found = set()
    for way in nx.all_simple_edge_paths(graph, a.body, b.body):
        length = sum(graph.edges[edge]["weight"] for edge in way) + b.offset - a.offset
        if length < spring.free_length - 1e-12:
            links = [edge[2] for edge in way]
            springs = tuple(link for link in links if isinstance(link, str))
            found.add((tuple(link for link in links if link not in springs), springs, round(length, 10)))
    return found


@settings(max_examples=100)
@given(seed=st.integers(0, 2**32))
def test_paths_are_those_of_networkx(seed):
    layout = make_layout(seed, most_bodies=6, weight=0.0)
    for spring in layout.springs:
        found = paths(layout, spring, limit=10**6, effort=10**7)
        assert found.is_complete
        listed = {(path.stops, path.springs, round(path.length, 10)) for path in found.found}
        assert listed == all_paths_of_networkx(layout, spring)
        lengths = [path.length for path in found.found]
        assert lengths == sorted(lengths)


def parts_of(layout, seed):
    """One to three parts for each stop, some of them in several stops."""
    drawn = random.Random(seed)
    return {stop.id: frozenset(drawn.choices("ABCDEFGH", k=drawn.randint(1, 3))) for stop in layout.stops}


@settings(max_examples=100)
@given(seed=st.integers(0, 2**32))
def test_cuts_are_the_smallest_sets_that_brute_force_finds(seed):
    layout = make_layout(seed, most_bodies=5, weight=0.0)
    parts_of_stop = parts_of(layout, seed)
    found = paths(layout, layout.springs[0])
    needed = [set().union(*(parts_of_stop[name] for name in path.stops)) for path in found.found]
    cuts = smallest_cuts(found, parts_of_stop)
    subsets = [frozenset(s) for size in range(9) for s in itertools.combinations("ABCDEFGH", size)]
    hitting = [subset for subset in subsets if all(subset & need for need in needed)]
    smallest = {subset for subset in hitting if not any(other < subset for other in hitting)}
    assert set(cuts.sets) == smallest and len(cuts.sets) == len(smallest)
    assert [len(cut) for cut in cuts.sets] == sorted(len(cut) for cut in cuts.sets)


def broken(parts_of_stop, gone):
    return {name for name, parts in parts_of_stop.items() if parts & gone}


@settings(max_examples=100)
@given(seed=st.integers(0, 2**32))
def test_a_cut_frees_the_spring_and_nothing_less_does(seed):
    layout = make_layout(seed, most_bodies=6, weight=0.0)
    layout = replace(layout, springs=layout.springs[:1])
    spring = layout.springs[0]
    parts_of_stop = parts_of(layout, seed)
    for cut in smallest_cuts(paths(layout, spring), parts_of_stop).sets[:20]:
        after = layout.without(stops=broken(parts_of_stop, cut))
        assert at_rest(after).energy == 0
        assert let_go(layout, after).energy == pytest.approx(at_rest(layout).energy)
        for part in cut:
            assert at_rest(layout.without(stops=broken(parts_of_stop, cut - {part}))).energy > 0


@settings(max_examples=100)
@given(seed=st.integers(0, 2**32))
def test_a_cut_frees_the_spring_among_others_too(seed):
    layout = make_layout(seed, most_bodies=6, weight=0.0)
    parts_of_stop = parts_of(layout, seed)
    for spring in layout.springs:
        found = paths(layout, spring)
        assert found.is_complete
        if not found.found:
            assert at_rest(layout).springs[spring.id].force == pytest.approx(0.0, abs=spring.rate * 1e-11)
        for cut in smallest_cuts(found, parts_of_stop).sets[:5]:
            after = at_rest(layout.without(stops=broken(parts_of_stop, cut)))
            assert after.springs[spring.id].force == pytest.approx(0.0, abs=spring.rate * 1e-11)


@given(seed=st.integers(0, 2**32), gone=st.sets(st.sampled_from("ABCDEFGH")))
def test_length_left_is_that_at_rest(seed, gone):
    layout = make_layout(seed, most_bodies=6, weight=0.0)
    layout = replace(layout, springs=layout.springs[:1])
    parts_of_stop = parts_of(layout, seed)
    found: Paths = paths(layout, layout.springs[0])
    left = holders_left(found, parts_of_stop, gone)
    rest = at_rest(layout.without(stops=broken(parts_of_stop, gone)))
    assert rest.springs[layout.springs[0].id].length == pytest.approx(left.length, abs=1e-11)
    for part in left.sole:
        assert holders_left(found, parts_of_stop, {*gone, part}).paths == ()
