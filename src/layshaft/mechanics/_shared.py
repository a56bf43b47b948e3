"""Which tight stops share a load in a way that balance alone does not settle, and which springs work alone.

References
----------
R. Tarjan, Depth-first search and linear graph algorithms, SIAM Journal on Computing 1 (1972), pp. 146-160
(strong components and blocks, in linear time).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from layshaft.mechanics._net import Arc

Ends = tuple[int, int]


def shared(arcs: Sequence[Arc[float]], tight: Sequence[int], carried: Mapping[int, float]) -> set[int]:
    """The tight arcs whose force could be another with every body still in balance.

    Force may be added along an arc, and taken back along one that carries some. An arc's force can change where a
    round trip of such changes leads through it and not straight back: between two nodes that can reach each other
    both ways, by an arc that is not the only link between its two sides.
    """
    ways = [(arcs[place].tail, arcs[place].head) for place in tight]
    back = [(head, tail) for place, (tail, head) in zip(tight, ways, strict=True) if carried.get(place, 0.0) > 0]
    component = _strong_components([*ways, *back])
    inner = [place for place, (tail, head) in zip(tight, ways, strict=True) if component[tail] == component[head]]
    return {inner[edge] for block in blocks([arcs[place][:2] for place in inner]) if len(block) > 1 for edge in block}


def _strong_components(ways: Sequence[Ends]) -> dict[int, int]:
    """For each node a number that it has in common with the nodes it can reach and be reached from."""
    out: dict[int, list[int]] = {}
    into: dict[int, list[int]] = {}
    for tail, head in ways:
        out.setdefault(tail, []).append(head)
        out.setdefault(head, [])
        into.setdefault(head, []).append(tail)
    finished: list[int] = []
    seen: set[int] = set()
    for root in out:
        stack = [(root, iter(out[root]))] if root not in seen else []
        seen.add(root)
        while stack:
            here, rest = stack[-1]
            there = next((node for node in rest if node not in seen), None)
            if there is None:
                finished.append(stack.pop()[0])
            else:
                seen.add(there)
                stack.append((there, iter(out[there])))
    component: dict[int, int] = {}
    for root in reversed(finished):
        reached = [root] if root not in component else []
        while reached:
            here = reached.pop()
            if component.setdefault(here, root) == root:
                reached += [node for node in into.get(here, ()) if node not in component]
    return component


def blocks(edges: Sequence[Ends]) -> list[list[int]]:
    """The edges, by their place, in groups of which any two lie on one simple circle; loops are left out."""
    around: dict[int, list[tuple[int, int]]] = {}
    for edge, (a, b) in enumerate(edges):
        if a != b:
            around.setdefault(a, []).append((edge, b))
            around.setdefault(b, []).append((edge, a))
    depth: dict[int, int] = {}
    found: list[list[int]] = []
    for root in around:
        if root not in depth:
            _blocks_from(root, around, depth, found)
    return found


def _blocks_from(
    root: int, around: Mapping[int, list[tuple[int, int]]], depth: dict[int, int], found: list[list[int]]
) -> None:
    """Walk in depth from `root`; a block ends where nothing below reaches back above the node it hangs on."""
    depth[root] = 0
    lowest = {root: 0}
    walk = [(root, -1, iter(around[root]))]
    open_edges: list[int] = []
    while walk:
        here, came_by, rest = walk[-1]
        for edge, there in rest:
            if there not in depth:
                depth[there] = lowest[there] = depth[here] + 1
                open_edges.append(edge)
                walk.append((there, edge, iter(around[there])))
                break
            if edge != came_by and depth[there] < depth[here]:
                open_edges.append(edge)
                lowest[here] = min(lowest[here], depth[there])
        else:
            walk.pop()
            if walk:
                above = walk[-1][0]
                lowest[above] = min(lowest[above], lowest[here])
                if lowest[here] >= depth[above]:
                    start = open_edges.index(came_by)
                    found.append(open_edges[start:])
                    del open_edges[start:]
