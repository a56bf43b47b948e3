"""What there is to choose from, and what the results of the choice must be.

Sizes in a drawer and pools of measured plates on one side; results that are linear in them, with their
limits, on the other. The choice itself is in `selection`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from layshaft.gauging.window import Limit, check_ends, margin


@dataclass(frozen=True, slots=True)
class Size:
    """One size of a selective part.

    Attributes
    ----------
    value : Fraction [any one unit]
    stock : int or None [-]
        How many the drawer holds; `None` is as many as wanted.
    cost : Fraction [money]
        What taking one costs.
    is_sold : bool [-]
        Whether more of it can be bought; of a piece that is the only one of its size there is no other.
    """

    value: Fraction
    stock: int | None = None
    cost: Fraction = Fraction(0)
    is_sold: bool = True

    @property
    def stocked(self) -> Size:
        """The size with as many on hand as wanted, where more of it can be bought."""
        return replace(self, stock=None) if self.is_sold else self


@dataclass(frozen=True, slots=True)
class Selective:
    """A place for one selective part.

    Attributes
    ----------
    name : str [-]
    sizes : tuple of Size [any one unit]
        In the order preferred among equals, each size once.
    drawer : str or None [-]
        Places that take from one drawer share its stock; `None` is a drawer of its own.
    """

    name: str
    sizes: tuple[Size, ...]
    drawer: str | None = None


@dataclass(frozen=True, slots=True)
class Pool:
    """Measured pieces of which a number is taken; only their sum matters.

    Attributes
    ----------
    name : str [-]
    pieces : tuple of Fraction [any one unit]
        Every piece at hand.
    count : int [-]
        How many are taken.
    """

    name: str
    pieces: tuple[Fraction, ...]
    count: int


@dataclass(frozen=True, slots=True)
class Result:
    """A result that is linear in the choices.

    Attributes
    ----------
    name : str [-]
    constant : Fraction [any one unit]
        What all that is not chosen adds.
    coefficients : mapping of str to Fraction [-]
        Factor of each choice that moves it.
    limit : Limit or None [unit of the result]
    aim : Fraction or None [unit of the result]
        Where it should be nearest to; the middle of a limit with two ends when not given.
    scale : Fraction or None [unit of the result]
        What a distance from the limit is divided by, above zero; see `Demand`.
    """

    name: str
    constant: Fraction
    coefficients: Mapping[str, Fraction]
    limit: Limit | None = None
    aim: Fraction | None = None
    scale: Fraction | None = None


@dataclass(frozen=True, slots=True)
class CrossLimit:
    """A limit on a linear expression of results.

    Attributes
    ----------
    name : str [-]
    coefficients : mapping of str to Fraction [-]
        Factor of each result.
    limit : Limit [unit of the expression]
    constant : Fraction [unit of the expression]
    aim, scale : Fraction or None [unit of the expression]
        As in `Result`.
    """

    name: str
    coefficients: Mapping[str, Fraction]
    limit: Limit
    constant: Fraction = Fraction(0)
    aim: Fraction | None = None
    scale: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Demand:
    """A limit worked back to the choices.

    Attributes
    ----------
    name : str [-]
    constant : Fraction [unit of the limit]
    coefficients : mapping of str to Fraction [-]
        Factor of each choice that moves it, none of them zero.
    limit : Limit [any one unit]
    aim : Fraction or None [unit of the limit]
    scale : Fraction [unit of the limit]
        A distance from the limit is divided by it. The width of the limit where it has one. A limit with one
        end, or of no width, borrows the narrowest width among the limits that share a choice with it, or
        failing that among all; where no limit has a width, all distances are taken as they are.
    is_cross : bool [-]
        Whether it ties several results together.
    """

    name: str
    constant: Fraction
    coefficients: Mapping[str, Fraction]
    limit: Limit
    aim: Fraction | None
    scale: Fraction
    is_cross: bool

    def distance(self, value: Fraction) -> Fraction:
        """Scaled distance to the nearer end, negative outside [-]."""
        return margin(value, self.limit).distance / self.scale


@dataclass(frozen=True)
class Assortment:
    """All choices, results and limits of one question.

    Attributes
    ----------
    selectives : tuple of Selective [any one unit]
    pools : tuple of Pool [same unit]
    results : tuple of Result [same unit]
    cross_limits : tuple of CrossLimit [same unit]
    demands : tuple of Demand [same unit]
        Worked out: limits of the results, then those across results.

    Raises
    ------
    ValueError
        A name twice or not known, nothing to choose, a size listed twice, drawers that disagree on their
        stock, a negative stock or count, a limit that `check_ends` refuses, or a scale not above zero.

    Examples
    --------
    >>> from layshaft.gauging.window import Window
    >>> ring = Selective("ring", (Size(Fraction("1.5")), Size(Fraction("1.6"))))
    >>> gap = Result("gap", Fraction(2), {"ring": Fraction(-1)}, Window(Fraction("0.3"), Fraction("0.5")))
    >>> Assortment((ring,), (), (gap,)).values({"ring": Fraction("1.6")})
    {'gap': Fraction(2, 5)}
    """

    selectives: tuple[Selective, ...]
    pools: tuple[Pool, ...]
    results: tuple[Result, ...]
    cross_limits: tuple[CrossLimit, ...] = ()
    demands: tuple[Demand, ...] = field(init=False)

    def __post_init__(self) -> None:
        _check_choices(self.selectives, self.pools)
        choices = self.choice_names
        results = [one.name for one in self.results]
        _check_names("result", [*results, *(cross.name for cross in self.cross_limits)])
        for result in self.results:
            _check_known(result.name, result.coefficients, choices)
        for cross in self.cross_limits:
            _check_known(cross.name, cross.coefficients, results)
        object.__setattr__(self, "demands", _work_out_demands(self))

    @property
    def choice_names(self) -> tuple[str, ...]:
        """Names of the selective parts, then of the pools."""
        return (*(one.name for one in self.selectives), *(pool.name for pool in self.pools))

    def values(self, taken: Mapping[str, Fraction]) -> dict[str, Fraction]:
        """All results and expressions for one figure taken from each choice [unit of the results]."""
        found: dict[str, Fraction] = {}
        for result in self.results:
            found[result.name] = _sum(result.constant, result.coefficients, taken)
        results = dict(found)
        for cross in self.cross_limits:
            found[cross.name] = _sum(cross.constant, cross.coefficients, results)
        return found


def split_independent(assortment: Assortment) -> tuple[Assortment, ...]:
    """Split a question into those that share no choice, no drawer and no result.

    Parameters
    ----------
    assortment : Assortment [any one unit]

    Returns
    -------
    tuple of Assortment [same unit]
        In the order of their first choice. Results that no choice moves stay with the first.

    Notes
    -----
    Asked together, the tightest result of one group would leave all others undecided but for their aims.

    Examples
    --------
    >>> def place(name):
    ...     return Selective(name, (Size(Fraction(1)),))
    >>> gaps = tuple(Result(f"gap {name}", Fraction(3), {name: Fraction(-1)}) for name in "ab")
    >>> [part.choice_names for part in split_independent(Assortment((place("a"), place("b")), (), gaps))]
    [('a',), ('b',)]
    """
    group = _group_names(assortment)
    numbers = sorted({group["choice", name] for name in assortment.choice_names})

    def is_here(kind: str, name: str, number: int) -> bool:
        # A group without a choice, of results that nothing moves, stays with the first.
        own = group[kind, name]
        return own == number or (own not in numbers and number == numbers[0])

    return tuple(
        Assortment(
            tuple(one for one in assortment.selectives if is_here("choice", one.name, number)),
            tuple(one for one in assortment.pools if is_here("choice", one.name, number)),
            tuple(one for one in assortment.results if is_here("result", one.name, number)),
            tuple(one for one in assortment.cross_limits if is_here("result", one.name, number)),
        )
        for number in numbers
    )


def _group_names(assortment: Assortment) -> dict[tuple[str, str], int]:
    """A number for every choice and result, the same for those that hang together."""
    ties = [[("choice", one.name), ("drawer", one.drawer or one.name)] for one in assortment.selectives]
    ties += [[("choice", pool.name)] for pool in assortment.pools]
    for result in assortment.results:
        ties.append([("result", result.name), *(("choice", name) for name in result.coefficients)])
    for cross in assortment.cross_limits:
        ties.append([("result", cross.name), *(("result", name) for name in cross.coefficients)])
    group: dict[tuple[str, str], int] = {}
    for tied in ties:
        for name in tied:
            group.setdefault(name, len(group))
        together = {group[name] for name in tied}
        group = {name: min(together) if number in together else number for name, number in group.items()}
    return group


def _sum(constant: Fraction, factors: Mapping[str, Fraction], figures: Mapping[str, Fraction]) -> Fraction:
    return sum((factor * figures[name] for name, factor in factors.items()), constant)


def _check_names(kind: str, names: Iterable[str]) -> None:
    seen: set[str] = set()
    for name in names:
        if name in seen:
            raise ValueError(f"two of the {kind}s are called {name!r}")
        seen.add(name)


def _check_known(name: str, coefficients: Mapping[str, Fraction], known: Iterable[str]) -> None:
    for other in coefficients:
        if other not in known:
            raise ValueError(f"{name} depends on {other!r}, which is not among {', '.join(sorted(known))}")


def _check_choices(selectives: tuple[Selective, ...], pools: tuple[Pool, ...]) -> None:
    if not selectives and not pools:
        raise ValueError("there is nothing to choose: no selective part and no pool")
    _check_names("choice", [*(one.name for one in selectives), *(pool.name for pool in pools)])
    stocks: dict[tuple[str | None, Fraction], int | None] = {}
    for selective in selectives:
        if len({size.value for size in selective.sizes}) < len(selective.sizes):
            raise ValueError(f"{selective.name}: a size is listed twice")
        for size in selective.sizes:
            if size.stock is not None and size.stock < 0:
                raise ValueError(f"{selective.name}: a stock of {size.stock} is below zero")
            key = (selective.drawer, size.value)
            if selective.drawer and stocks.setdefault(key, size.stock) != size.stock:
                raise ValueError(f"{selective.name}: drawer {selective.drawer} has two stocks of one size")
    for pool in pools:
        if pool.count < 0:
            raise ValueError(f"{pool.name}: zero or more pieces can be taken, not {pool.count}")


def _work_out_demands(assortment: Assortment) -> tuple[Demand, ...]:
    """Limits in terms of the choices, with the scale that each distance is divided by."""
    results = {one.name: one for one in assortment.results}
    found: list[tuple[Result | CrossLimit, Limit, Fraction, dict[str, Fraction]]] = []
    for result in assortment.results:
        if result.limit is not None:
            moved = {name: factor for name, factor in result.coefficients.items() if factor}
            found.append((result, result.limit, result.constant, moved))
    for cross in assortment.cross_limits:
        constant, summed = cross.constant, dict[str, Fraction]()
        for name, factor in cross.coefficients.items():
            constant += factor * results[name].constant
            for choice, inner in results[name].coefficients.items():
                summed[choice] = summed.get(choice, Fraction(0)) + factor * inner
        moved = {name: factor for name, factor in summed.items() if factor}
        found.append((cross, cross.limit, constant, moved))
    widths = [(_width(limit), set(moved)) for _, limit, _, moved in found]
    return tuple(
        Demand(
            one.name,
            constant,
            moved,
            limit,
            one.aim if one.aim is not None else _middle(limit),
            _scale(one, limit, set(moved), widths),
            isinstance(one, CrossLimit),
        )
        for one, limit, constant, moved in found
    )


def _width(limit: Limit) -> Fraction:
    check_ends(limit)
    return Fraction(0) if limit.low is None or limit.high is None else limit.high - limit.low


def _middle(limit: Limit) -> Fraction | None:
    return None if limit.low is None or limit.high is None else (limit.low + limit.high) / 2


def _scale(
    one: Result | CrossLimit, limit: Limit, moved: set[str], widths: list[tuple[Fraction, set[str]]]
) -> Fraction:
    if one.scale is not None:
        if one.scale <= 0:
            raise ValueError(f"{one.name}: a scale of {one.scale} is not above zero")
        return one.scale
    if own := _width(limit):
        return own
    beside = [width for width, others in widths if width and others & moved]
    return min(beside or [width for width, _ in widths if width], default=Fraction(1))
