"""Which stops hold a spring, which smallest sets of parts free it, and what still holds when parts are gone.

Here are ``paths``, ``smallest_cuts`` and ``holders_left``.

A spring is held along a path of stops from seat to seat. It is free when every path that is shorter than its free
length is broken, and a path is broken when one of its stops is. How long, how strong and what it lets go is in
`rest`. Weights that rest on a spring are no path: whether one is pressed by them alone is for `rest` to say.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from layshaft.mechanics._layout import Id, Layout, Number, Spring
from layshaft.mechanics._path_walk import Walk


@dataclass(frozen=True, slots=True)
class Path:
    """`stops` in order from seat to seat, the other `springs` the path leans on, and its `length` [m].

    A path that leans on a spring reaches as far as that spring does when free.
    """

    stops: tuple[Id, ...]
    springs: tuple[Id, ...]
    length: Number


@dataclass(frozen=True, slots=True)
class Paths:
    """The paths that hold `spring` shorter than its `free_length` [m], shortest first.

    `is_complete` is false where the search was cut off: then there may be more paths, and no answer drawn from these
    shows that the spring is free.
    """

    spring: Id
    free_length: Number
    found: tuple[Path, ...]
    is_complete: bool


@dataclass(frozen=True, slots=True)
class Cuts:
    """Every smallest set of parts whose removal breaks all paths; `fast` are paths that no removal breaks.

    With a fast path there is no set. Without any path the one set is empty: nothing holds the spring. `is_complete` is
    false where the search, or that for the paths, was cut off: there may be more sets, and these may free nothing.
    """

    sets: tuple[frozenset[Id], ...]
    fast: tuple[Path, ...]
    is_complete: bool


@dataclass(frozen=True, slots=True)
class Holders:
    """What still holds a spring: `paths` that are whole, shortest first, and the `length` [m] that they let it get.

    `parts` are all that have to do with it, `sole` those of which each alone frees it by going. `is_complete` is
    false where there may be more paths; then nothing here shows that the spring is free.
    """

    paths: tuple[Path, ...]
    length: Number
    parts: frozenset[Id]
    sole: frozenset[Id]
    is_complete: bool


def paths(layout: Layout, spring: Spring | Id, limit: int = 1000, effort: int = 100_000) -> Paths:
    """All simple paths of stops that hold a spring shorter than free.

    Parameters
    ----------
    layout : Layout
        Bodies, stops and springs.
    spring : Spring or id
        The spring asked about.
    limit : int
        How many paths to find at most [-].
    effort : int
        How many steps to take at most [-].

    Returns
    -------
    Paths
        The paths with their lengths [m], the shortest first, and whether these are all.

    Raises
    ------
    Misfit
        The stops contradict each other.
    KeyError
        No spring has that id.

    Notes
    -----
    A path passes no body twice. Where springs act on each other, a path may lean on other springs; such a path holds
    the spring unless all on it are free at once. So a spring that no path holds is free of stops, while one that a
    leaning path holds may be free nonetheless, for another stop may keep the spring it leans on away: `rest` tells.
    Exact when the layout's lengths are. The shortest paths are met first, so a search cut off has the shortest one.

    References
    ----------
    T. H. Cormen et al., Introduction to Algorithms, 3rd ed., section 24.4, difference constraints (section number
    from memory), for what a path of stops allows; the search is plain depth first with a floor under what is to come.

    Example
    -------
    >>> from layshaft.mechanics.rest import Layout, Point, Stop
    >>> points = {"seat": Point("case", 0.0), "hub": Point("hub", 0.0), "end": Point("case", 0.076)}
    >>> stops = (Stop("sleeve", "end", "hub", 0.0027), Stop("ring", "end", "hub", 0.0))
    >>> main = Spring("main", "seat", "hub", 65_693.0, 0.1323, 0.05775)
    >>> layout = Layout(points, stops, (main,), frozenset({"case"}))
    >>> [(path.stops, round(path.length, 4)) for path in paths(layout, "main").found]
    [(('ring',), 0.076), (('sleeve',), 0.0787)]
    """
    wanted = spring if isinstance(spring, Spring) else layout.spring(spring)
    walk = Walk(layout, wanted, limit, effort)
    offset = layout.points[wanted.b].offset - layout.points[wanted.a].offset
    found = [Path(stops, springs, length + offset) for stops, springs, length in walk.found()]
    found.sort(key=lambda path: (path.length, len(path.stops), repr(path)))
    return Paths(wanted.id, wanted.free_length, tuple(found), walk.is_complete)


def smallest_cuts(
    paths: Paths,
    parts_of_stop: Mapping[Id, Collection[Id]],
    parts_of_spring: Mapping[Id, Collection[Id]] | None = None,
    limit: int = 1000,
    effort: int = 100_000,
) -> Cuts:
    """Every smallest set of parts whose removal frees a spring.

    Parameters
    ----------
    paths : Paths
        What holds the spring.
    parts_of_stop : mapping of id to ids
        For each stop the parts of which it needs every one; an empty collection for a stop that always stays.
    parts_of_spring : mapping of id to ids, optional
        The same for springs that are leaned on; one without an entry stays.
    limit : int
        How many sets to find at most [-].
    effort : int
        How many steps to take at most [-].

    Returns
    -------
    Cuts
        The sets, smallest first, none of which holds another; and whether these are all.

    Raises
    ------
    KeyError
        A stop on a path has no entry.

    Notes
    -----
    A retainer that is there several times holds as long as enough of them for the load do: name the group once, and
    count it as gone when too few are left. Not checked: whether the parts can come out in that order, or at all.

    References
    ----------
    K. Murakami, T. Uno, Efficient algorithms for dualizing large-scale hypergraphs, Discrete Applied Mathematics 170
    (2014), pp. 83-94 (all minimal hitting sets; from memory).

    Example
    -------
    >>> held = Paths("main", 0.1323, (Path(("ring",), (), 0.076), Path(("sleeve", "pin"), (), 0.0787)), True)
    >>> parts = {"ring": {"OT-1"}, "sleeve": {"OT-2", "OT-3"}, "pin": {"OT-4"}}
    >>> [sorted(cut) for cut in smallest_cuts(held, parts).sets]
    [['OT-1', 'OT-2'], ['OT-1', 'OT-3'], ['OT-1', 'OT-4']]
    """
    needed = [_parts(path, parts_of_stop, parts_of_spring or {}) for path in paths.found]
    fast = tuple(path for path, parts in zip(paths.found, needed, strict=True) if not parts)
    if fast:
        return Cuts((), fast, paths.is_complete)
    names = sorted(frozenset().union(*needed), key=repr)
    bit = {name: 1 << number for number, name in enumerate(names)}
    search = _HittingSets([sum(bit[name] for name in parts) for parts in needed], limit, effort)
    sets = [frozenset(name for name in names if bit[name] & chosen) for chosen in search.found()]
    sets.sort(key=lambda chosen: (len(chosen), sorted(map(repr, chosen))))
    return Cuts(tuple(sets), (), paths.is_complete and search.is_complete)


def holders_left(
    paths: Paths,
    parts_of_stop: Mapping[Id, Collection[Id]],
    gone: Collection[Id],
    parts_of_spring: Mapping[Id, Collection[Id]] | None = None,
) -> Holders:
    """What still holds a spring after parts went.

    Parameters
    ----------
    paths : Paths
        What held the spring with all parts in place.
    parts_of_stop : mapping of id to ids
        For each stop the parts of which it needs every one.
    gone : collection of ids
        The parts that are gone. To learn what can be relied on to hold, name those of unknown state among them; to
        learn what may still be loaded, leave these out. A plan has to be right both ways.
    parts_of_spring : mapping of id to ids, optional
        The same for springs that are leaned on; one without an entry stays.

    Returns
    -------
    Holders
        Whole paths, the length [m] that they let the spring get, and the parts that have to do with it.

    Raises
    ------
    KeyError
        A stop on a path has no entry.

    Notes
    -----
    Valid while nothing but the parts changes; not checked: weights, and forces that a stop cannot carry.

    References
    ----------
    None: by the definition of a path.

    Example
    -------
    >>> held = Paths("main", 0.1323, (Path(("ring",), (), 0.076), Path(("sleeve",), (), 0.0787)), True)
    >>> left = holders_left(held, {"ring": {"OT-1"}, "sleeve": {"OT-2", "OT-3"}}, gone={"OT-1"})
    >>> left.length, sorted(left.sole)
    (0.0787, ['OT-2', 'OT-3'])
    """
    lost = frozenset(gone)
    whole = []
    needed = []
    for path in paths.found:
        parts = _parts(path, parts_of_stop, parts_of_spring or {})
        if not parts & lost:
            whole.append(path)
            needed.append(parts)
    length = min((path.length for path in whole), default=paths.free_length)
    sole = frozenset.intersection(*needed) if needed else frozenset[Id]()
    return Holders(tuple(whole), length, frozenset[Id]().union(*needed), sole, paths.is_complete)


def _parts(
    path: Path, parts_of_stop: Mapping[Id, Collection[Id]], parts_of_spring: Mapping[Id, Collection[Id]]
) -> frozenset[Id]:
    """The parts of which a path needs every one."""
    parts: set[Id] = set()
    for stop in path.stops:
        parts.update(parts_of_stop[stop])
    for spring in path.springs:
        parts.update(parts_of_spring.get(spring, ()))
    return frozenset(parts)


class _HittingSets:
    """Every smallest set of bits that has one in common with each of `paths`.

    Each part chosen keeps a path of its own, that no other chosen part breaks; else a smaller set would do.
    """

    def __init__(self, paths: Sequence[int], limit: int, effort: int) -> None:
        self.paths = paths
        self.limit = limit
        self.effort = effort
        self.is_complete = True
        every = 0
        for path in paths:
            every |= path
        self.hits = {
            bit: sum(1 << number for number, path in enumerate(paths) if path & bit) for bit in _bits(every)
        }

    def found(self) -> Iterator[int]:
        """The sets as bits."""
        every = sum(self.hits)
        for number, chosen in enumerate(self._extend(0, [], (1 << len(self.paths)) - 1, every)):
            if number == self.limit:
                self.is_complete = False
                return
            yield chosen

    def _extend(self, chosen: int, own: list[int], left: int, candidates: int) -> Iterator[int]:
        """Sets that extend `chosen`, whose parts have `own` paths, to hit the paths `left` with `candidates`."""
        if not left:
            yield chosen
            return
        path = min(_bits(left), key=lambda bit: (self.paths[bit.bit_length() - 1] & candidates).bit_count())
        branch = self.paths[path.bit_length() - 1] & candidates
        candidates &= ~branch
        for part in _bits(branch):
            self.effort -= 1
            if self.effort < 0:
                self.is_complete = False
                return
            still_own = [paths & ~self.hits[part] for paths in own]
            if all(still_own):
                still_own.append(left & self.hits[part])
                yield from self._extend(chosen | part, still_own, left & ~self.hits[part], candidates)
                candidates |= part


def _bits(mask: int) -> Iterator[int]:
    while mask:
        low = mask & -mask
        yield low
        mask ^= low
