"""Circles among things that point at each other."""

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.book.circle import circles, shortest_circle


@pytest.mark.parametrize("edges, expected", [
    ({}, []),
    ({"a": "b", "b": ""}, []),
    ({"a": "a"}, [("a",)]),
    ({"a": "b", "b": "c", "c": "a"}, [("a", "b", "c")]),
    ({"a": "bx", "b": "c", "c": "a", "x": "a"}, [("a", "x")]),
    ({"in": "a", "a": "b", "b": "a", "c": "d", "d": "c"}, [("a", "b"), ("c", "d")]),
])
def test_circles(edges, expected):
    assert circles(edges) == expected


@given(st.dictionaries(st.integers(0, 6), st.lists(st.integers(0, 6), max_size=3), max_size=7))
def test_circles_against_a_graph_library(edges):
    graph = networkx.DiGraph([(a, b) for a, some in edges.items() for b in some])
    graph.add_nodes_from(edges)
    found = circles(edges)
    assert bool(found) == (not networkx.is_directed_acyclic_graph(graph))
    for circle in found:
        assert all(graph.has_edge(a, b) for a, b in zip(circle, (*circle[1:], circle[0]), strict=True))
        assert len(set(circle)) == len(circle)
    # Each knot of things that point at each other is told once at least.
    knots = [knot for knot in networkx.strongly_connected_components(graph) if len(knot) > 1]
    assert all(any(knot.issuperset(circle) for circle in found) for knot in knots)


@given(st.dictionaries(st.integers(0, 5), st.lists(st.integers(0, 5), max_size=3), min_size=1, max_size=6))
def test_shortest_circle_is_the_shortest(edges):
    graph = networkx.DiGraph([(a, b) for a, some in edges.items() for b in some])
    graph.add_nodes_from(edges)
    start = min(edges)
    lengths = [len(circle) for circle in networkx.simple_cycles(graph) if start in circle]
    assert len(shortest_circle(edges, start)) == min(lengths, default=0)
