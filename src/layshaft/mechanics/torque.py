"""Exact torques in a gear train without losses: what each element and coupling must bear.

Here are ``solve_torques`` and ``coupling_torques``. Each element puts on its shafts torques in the ratio of
the coefficients that tie their speeds (`train`); each shaft is in balance. So no share is ever typed: that a
sun bears S/(S + R) of the carrier's torque comes out. Not here: friction, inertia, uneven planets.

Torques are fractions in any unit the given ones are in. A redundant loop leaves some torques open: those are
none, and `capacity` gives their range.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction

from layshaft.mechanics._rational import Equation, solve
from layshaft.mechanics.train import Train


class NotCarried(ValueError):
    """A torque is put on the train that nothing bears: shafts would run away instead.

    `closed` are the couplings that were closed.
    """

    def __init__(self, closed: tuple[str, ...]) -> None:
        self.closed = closed
        kept = ", ".join(closed) if closed else "no coupling"
        super().__init__(f"nothing bears the torque with {kept} closed: the train would only spin up")


def solve_torques(
    train: Train, closed: Collection[str], given: Mapping[str, Fraction], reacting: Collection[str]
) -> tuple[dict[str, Fraction | None], dict[str, dict[str, Fraction | None]]]:
    """Torques on a train that turns steadily.

    Parameters
    ----------
    train : Train
        The train.
    closed : collection of str
        Names of the closed couplings.
    given : mapping
        Torque put on shafts from outside, shaft to torque [N m]; positive drives the way that counts as
        forward.
    reacting : collection of str
        Shafts that outside parts hold back or drive as needed, the outputs; every other shaft is in balance
        by itself.

    Returns
    -------
    tuple
        First the torque from outside on each given or reacting shaft [N m], negative where it holds back
        (the load on an output). Second, element name to shaft to the torque which that element puts on the
        shaft [N m]. None where a redundant loop leaves it open.

    Raises
    ------
    NotCarried
        Nothing bears a given torque, as in neutral.
    OutOfRange
        A coupling or shaft is unknown.

    References
    ----------
    Balance of each shaft with the virtual work of each element; torque split of a plain set as in
    R. S. Khurmi, J. K. Gupta, Theory of Machines, Examples 13.19 to 13.23.

    Example
    -------
    Overdrive: carrier driven, sun held; the sun bears three tenths.

    >>> from layshaft.mechanics.train import Coupling, planetary
    >>> train = Train((planetary("set", "sun", "out", "in", 36, -84),), (Coupling("brake", "sun"),))
    >>> outside, inside = solve_torques(train, ["brake"], {"in": Fraction(100)}, ["out"])
    >>> outside["out"], inside["set"]["sun"]
    (Fraction(-70, 1), Fraction(30, 1))
    """
    train.require_shafts(*given, *reacting)
    tying = train.tying(closed)
    # The unknowns are one multiplier for each tying element and one outside torque for each reacting shaft.
    unknowns = [("element", e.name) for e in tying] + [("outside", shaft) for shaft in reacting]
    equations = []
    for shaft in train.shafts:
        coefficients = {("element", e.name): e.ties[shaft] for e in tying if shaft in e.ties}
        if shaft in reacting:
            coefficients["outside", shaft] = Fraction(1)
        equations.append(Equation(coefficients, -Fraction(given.get(shaft, 0))))
    solution = solve(equations, unknowns)
    if not solution.is_consistent:
        raise NotCarried(tuple(c.name for c in train.couplings if c.name in closed))
    outside: dict[str, Fraction | None] = {shaft: Fraction(torque) for shaft, torque in given.items()}
    for shaft in reacting:
        reaction = solution.values["outside", shaft]
        outside[shaft] = None if reaction is None else reaction + Fraction(given.get(shaft, 0))
    inside: dict[str, dict[str, Fraction | None]] = {}
    for element in tying:
        multiplier = solution.values["element", element.name]
        inside[element.name] = {
            shaft: None if multiplier is None else multiplier * coefficient
            for shaft, coefficient in element.ties.items()
        }
    return outside, inside


def coupling_torques(
    train: Train, closed: Collection[str], given: Mapping[str, Fraction], reacting: Collection[str]
) -> dict[str, Fraction | None]:
    """Torque that each coupling passes on from its first side to its second side, or to the case.

    Parameters
    ----------
    train : Train
        The train.
    closed : collection of str
        Names of the closed couplings.
    given : mapping
        Torque put on shafts from outside, shaft to torque [N m].
    reacting : collection of str
        Shafts that outside parts hold back or drive as needed, the outputs.

    Returns
    -------
    dict
        Coupling to torque [N m], none where a redundant loop leaves it open; a coupling that is not closed
        passes nothing. Its sign tells whether a one-way clutch is asked to hold the way it can.

    Raises
    ------
    NotCarried
        Nothing bears a given torque.
    OutOfRange
        A coupling or shaft is unknown.

    References
    ----------
    As `solve_torques`.

    Example
    -------
    >>> from layshaft.mechanics.train import Coupling, planetary
    >>> train = Train((planetary("set", "sun", "out", "in", 36, -84),), (Coupling("brake", "sun"),))
    >>> coupling_torques(train, ["brake"], {"in": Fraction(440)}, ["out"])
    {'brake': Fraction(132, 1)}
    """
    _, inside = solve_torques(train, closed, given, reacting)
    passed: dict[str, Fraction | None] = {}
    for coupling in train.couplings:
        if coupling.name not in closed:
            passed[coupling.name] = Fraction(0)
            continue
        on_first = inside[coupling.name].get(coupling.first, Fraction(0))
        passed[coupling.name] = None if on_first is None else -on_first
    return passed
