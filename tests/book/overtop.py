"""The overdrive demo book as the tests look at it: its units, and its stops as a graph in exact fractions."""

from pathlib import Path

import networkx

from layshaft.book import load_book
from layshaft.book.size import Sizes, pack_pieces
from layshaft.mechanics import spring
from layshaft.quantity import parse_quantity

TEXT = (Path(__file__).parents[2] / "books" / "overtop" / "book.yaml").read_text(encoding="utf-8")
BOOK = load_book(TEXT, "book.yaml")
VARIANTS = ["OT4", "OT5", "OT6"]
UNITS = [BOOK.unit(variant) for variant in VARIANTS]


def mm(value):
    return float(value) * 1e3


def value_of(text):
    return parse_quantity(text).nominal


def part_of(face):
    return face.split()[0]


def parts_of(unit, stop):
    packed = {piece for pack in stop.packs for piece, _ in pack_pieces(unit, unit.packs[pack])}
    return {part_of(stop.a), part_of(stop.b), *stop.by, *packed}


def stops_as_graph(unit, without=(), sizes=None):
    """Each stop as an arc: how far the part at its head may at most sit beyond the part at its tail."""
    sizes, main = sizes or Sizes(unit), unit.axes["main"]
    graph = networkx.MultiDiGraph()
    for name, stop in unit.stops.items():
        if parts_of(unit, stop).isdisjoint(without):
            tail, head = (stop.a, stop.b) if stop.toward == main.end else (stop.b, stop.a)
            apart = sizes.coordinate(tail).nominal - sizes.coordinate(head).nominal
            graph.add_edge(
                part_of(tail), part_of(head), key=name, weight=sizes.stop_gap(name).nominal + apart
            )
    return graph


def longest(unit, first, second, without=()):
    """How long a spring between two seats can get, None where nothing holds it."""
    graph, sizes = stops_as_graph(unit, without), Sizes(unit)
    try:
        room = networkx.bellman_ford_path_length(graph, part_of(first), part_of(second))
    except (networkx.NetworkXNoPath, networkx.NodeNotFound):
        return None
    return room + sizes.coordinate(second).nominal - sizes.coordinate(first).nominal


def direct_force(unit, length, bound="nominal"):
    data = unit.parts["OT-041"].spring
    rate = spring.rate(data.shear_modulus.si, data.wire.si, data.mean_diameter.si, data.active_coils.si)
    return spring.force(rate, float(getattr(data.free_length, bound)), float(length))
