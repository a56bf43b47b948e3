"""Exact speeds of a gear train: who turns how fast, the ratio, whole turns to count, a tie-up.

Here are ``solve_speeds``, ``slip_speeds``, ``ratio``, ``whole_turns``, ``turns_statement`` and
``clashing_couplings``. Speeds are fractions, in any unit that the given ones are in; nothing is rounded on
the way.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction

from layshaft.mechanics._domain import OutOfRange
from layshaft.mechanics._rational import Equation, Solution, solve
from layshaft.mechanics.train import Train


class TieUp(ValueError):
    """The closed couplings ask one shaft for two speeds: the train cannot turn so.

    `couplings` is a smallest set of closed couplings that clash with what is driven.
    """

    def __init__(self, couplings: tuple[str, ...]) -> None:
        self.couplings = couplings
        held = ", ".join(couplings) if couplings else "the gears alone"
        super().__init__(f"the train ties up: {held} cannot hold together with the speeds that are given")


class Undetermined(ValueError):
    """What is given does not settle the speed of a shaft: it may turn as it likes."""

    def __init__(self, shaft: str) -> None:
        self.shaft = shaft
        super().__init__(f"nothing settles the speed of {shaft}: no closed coupling ties it")


def _solved(train: Train, closed: Collection[str], given: Mapping[str, Fraction]) -> Solution[str]:
    equations = [Equation(element.ties) for element in train.tying(closed)]
    equations += [Equation({shaft: Fraction(1)}, Fraction(speed)) for shaft, speed in given.items()]
    return solve(equations, train.shafts)


def clashing_couplings(
    train: Train, closed: Collection[str], given: Mapping[str, Fraction]
) -> tuple[str, ...]:
    """A smallest set of closed couplings that cannot hold together with the given speeds.

    Parameters
    ----------
    train : Train
        The train.
    closed : collection of str
        Names of the closed couplings.
    given : mapping
        Speeds that are given, shaft to speed; any unit, the same for all [-].

    Returns
    -------
    tuple of str
        Names; taking any one of them away ends this clash. Empty where nothing clashes, and also where the
        gears alone clash with the given speeds.

    Raises
    ------
    OutOfRange
        A coupling or shaft is unknown.

    References
    ----------
    Consistency of linear equations; couplings are taken away one by one while the clash stays.

    Example
    -------
    Overdrive brake and a one-way clutch fitted the wrong way round:

    >>> from layshaft.mechanics.train import Coupling, planetary
    >>> train = Train((planetary("set", "sun", "out", "in", 36, -84),),
    ...               (Coupling("brake", "sun"), Coupling("one-way", "in", "out")))
    >>> clashing_couplings(train, ["brake", "one-way"], {"in": Fraction(1)})
    ('brake', 'one-way')
    """
    train.require_shafts(*given)
    kept = [c.name for c in train.couplings if c.name in closed]
    if _solved(train, closed, given).is_consistent:
        return ()
    for name in tuple(kept):
        fewer = [other for other in kept if other != name]
        if not _solved(train, fewer, given).is_consistent:
            kept = fewer
    return tuple(kept)


def solve_speeds(
    train: Train, closed: Collection[str], given: Mapping[str, Fraction]
) -> dict[str, Fraction | None]:
    """Speed of every shaft of a train.

    Parameters
    ----------
    train : Train
        The train.
    closed : collection of str
        Names of the closed couplings; the others let their shafts slip freely.
    given : mapping
        Speeds that are given, shaft to speed; any unit, the same for all [-].

    Returns
    -------
    dict
        Shaft to speed in the unit given [-], none where nothing settles it.

    Raises
    ------
    TieUp
        The closed couplings clash with each other or with the given speeds.
    OutOfRange
        A coupling or shaft is unknown.

    References
    ----------
    Willis's equation for each set, solved together; checked against R. S. Khurmi, J. K. Gupta, Theory of
    Machines, ch. 13.

    Example
    -------
    >>> from layshaft.mechanics.train import Coupling, planetary
    >>> train = Train((planetary("set", "sun", "ring", "carrier", 32, -72),), (Coupling("brake", "ring"),))
    >>> solve_speeds(train, ["brake"], {"carrier": Fraction(18)})["sun"]
    Fraction(117, 2)
    """
    train.require_shafts(*given)
    solution = _solved(train, closed, given)
    if not solution.is_consistent:
        raise TieUp(clashing_couplings(train, closed, given))
    return dict(solution.values)


def slip_speeds(
    train: Train, closed: Collection[str], given: Mapping[str, Fraction]
) -> dict[str, Fraction | None]:
    """Speed of the first side of each coupling against its second side, or against the case.

    Parameters
    ----------
    train : Train
        The train.
    closed : collection of str
        Names of the closed couplings.
    given : mapping
        Speeds that are given, shaft to speed; any unit, the same for all [-].

    Returns
    -------
    dict
        Coupling to slip in the unit given [-], none where nothing settles it. Its sign tells whether a
        one-way clutch that is not closed runs free the way it must.

    Raises
    ------
    TieUp
        The closed couplings clash.
    OutOfRange
        A coupling or shaft is unknown.

    References
    ----------
    Difference of `solve_speeds`.

    Example
    -------
    >>> from layshaft.mechanics.train import Coupling, planetary
    >>> train = Train((planetary("set", "sun", "out", "in", 36, -84),),
    ...               (Coupling("brake", "sun"), Coupling("one-way", "in", "out")))
    >>> slip_speeds(train, ["brake"], {"in": Fraction(7)})["one-way"]
    Fraction(-3, 1)
    """
    speeds = solve_speeds(train, closed, given)
    slips: dict[str, Fraction | None] = {}
    for coupling in train.couplings:
        first = speeds[coupling.first]
        second = Fraction(0) if coupling.second is None else speeds[coupling.second]
        if coupling.name in closed:
            slips[coupling.name] = Fraction(0)
        elif first is None or second is None:
            slips[coupling.name] = None
        else:
            slips[coupling.name] = first - second
    return slips


def ratio(train: Train, closed: Collection[str], driving: str, driven: str) -> Fraction:
    """Turns of the driving shaft for one turn of the driven shaft.

    Parameters
    ----------
    train : Train
        The train.
    closed : collection of str
        Names of the closed couplings.
    driving : str
        Shaft that is driven from outside, the input.
    driven : str
        Shaft that goes on, the output.

    Returns
    -------
    Fraction
        Ratio, input turns over output turns [-]: under one in an overdrive, negative where they turn
        opposite ways.

    Raises
    ------
    TieUp
        The train locks up when the driving shaft is turned.
    Undetermined
        The driven shaft is free (neutral).
    OutOfRange
        The driven shaft stands still, or a coupling or shaft is unknown.

    References
    ----------
    `solve_speeds` with one turn of the driving shaft.

    Example
    -------
    >>> from layshaft.mechanics.train import Coupling, planetary
    >>> train = Train((planetary("set", "sun", "out", "in", 36, -84),), (Coupling("brake", "sun"),))
    >>> ratio(train, ["brake"], "in", "out")
    Fraction(7, 10)
    """
    train.require_shafts(driving, driven)
    turned = solve_speeds(train, closed, {driving: Fraction(1)})[driven]
    if turned is None:
        raise Undetermined(driven)
    if turned == 0:
        raise OutOfRange("driven_shaft", driven, "a shaft that turns when the driving shaft does")
    return 1 / turned


def whole_turns(ratio: Fraction) -> tuple[int, int, bool]:
    """Smallest whole turns in and out that prove a ratio.

    Parameters
    ----------
    ratio : Fraction
        Input turns over output turns [-].

    Returns
    -------
    tuple
        Turns in [-], turns out [-], and whether they turn opposite ways.

    Raises
    ------
    OutOfRange
        The ratio is zero.

    References
    ----------
    Arithmetic: the ratio in lowest terms.

    Example
    -------
    >>> whole_turns(Fraction(7, 10)), whole_turns(Fraction(-5, 2))
    ((7, 10, False), (5, 2, True))
    """
    if ratio == 0:
        raise OutOfRange("ratio", ratio, "other than zero")
    return abs(ratio.numerator), ratio.denominator, ratio < 0


def turns_statement(ratio: Fraction) -> str:
    """Say a ratio as turns that can be counted at the bench.

    Parameters
    ----------
    ratio : Fraction
        Input turns over output turns [-].

    Returns
    -------
    str
        A sentence, such as "7 turns in, 10 turns out, the same way".

    Raises
    ------
    OutOfRange
        The ratio is zero.

    References
    ----------
    `whole_turns`.

    Example
    -------
    >>> turns_statement(Fraction(1748, 459))
    '1748 turns in, 459 turns out, the same way'
    """
    turns_in, turns_out, is_opposite = whole_turns(ratio)
    plural_in, plural_out = ("turn" if n == 1 else "turns" for n in (turns_in, turns_out))
    way = "opposite ways" if is_opposite else "the same way"
    return f"{turns_in} {plural_in} in, {turns_out} {plural_out} out, {way}"
