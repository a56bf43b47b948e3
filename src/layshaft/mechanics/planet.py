"""Whether a planetary set can be put together: ring closure, places where a planet fits, neighbours.

Here are ``ring_closure``, ``planet_places``, ``is_evenly_spaceable`` and ``neighbour_tip_gap``. Counts are
signed: an internal gear is negative. How the set turns is in `speed`.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import OutOfRange, Real, require_at_least, require_positive
from layshaft.mechanics._elementwise import sin


def _require_teeth(**counts: int) -> None:
    for name, count in counts.items():
        if count == 0:
            raise OutOfRange(name, count, "a count other than zero")


def ring_closure(sun_teeth: int, planet_teeth: int, ring_teeth: int) -> int:
    """Teeth by which the ring is larger than sun and two planets.

    Parameters
    ----------
    sun_teeth : int
        Teeth of the sun [-].
    planet_teeth : int
        Teeth of a planet [-].
    ring_teeth : int
        Teeth of the ring, without sign [-].

    Returns
    -------
    int
        Difference [-]. None for gears without profile shift; shifted sets run well with a tooth or two, so
        a difference is a question, not a fault.

    Raises
    ------
    OutOfRange
        A gear has no teeth or a negative count.

    References
    ----------
    Equal centre distance of sun with planet and planet with ring; set 21/43/108 of a university teaching page
    (Ljubljana) runs with a difference of one.

    Example
    -------
    >>> ring_closure(36, 24, 84), ring_closure(21, 43, 108)
    (0, 1)
    """
    require_positive(sun_teeth=sun_teeth, planet_teeth=planet_teeth, ring_teeth=ring_teeth)
    return ring_teeth - sun_teeth - 2 * planet_teeth


def planet_places(
    first_teeth: int,
    second_teeth: int,
    first_planet_teeth: int = 1,
    second_planet_teeth: int = 1,
    idlers: int = 0,
) -> int:
    """Evenly spread places round a set where one more of the same planet will go in.

    Parameters
    ----------
    first_teeth : int
        Teeth of the central gear that meshes the first gear of the planet [-]; negative if internal.
    second_teeth : int
        Teeth of the central gear that meshes the second gear of the planet [-]; negative if internal.
    first_planet_teeth : int
        Teeth of the planet's first gear [-]. A plain planet has one gear: leave both as they are.
    second_planet_teeth : int
        Teeth of the planet's second gear, fixed to the first alike on every planet [-].
    idlers : int
        Pinions between the two central gears beyond the planet itself, one in a double-planet set [-].

    Returns
    -------
    int
        Places in a turn [-]: planets go in only at multiples of one turn over this number.

    Raises
    ------
    OutOfRange
        A gear has no teeth, or the two central gears turn as one, so that any angle would do.

    Notes
    -----
    Hold both central gears still and carry the planet on by a share x of a turn: it then misses the second
    gear by x (zA p2 - zB p1)/p1 of its teeth. Turning the first gear by whole teeth moves the miss by
    multiples of p2/p1 without spoiling the first mesh. Both close when x (zA p2 - zB p1) is a multiple of the
    common factor of p1 and p2.

    References
    ----------
    H. W. Mueller, Epicyclic Drive Trains, 1982, assembly conditions (from memory); for plain planets it is
    the (S + R)/N rule of standard texts.

    Example
    -------
    Sun 36 and ring 84; and sun 20 with a planet 30/15 and ring 65:

    >>> planet_places(36, -84)
    120
    >>> planet_places(20, -65, 30, 15)
    150
    """
    _require_teeth(first_teeth=first_teeth, second_teeth=second_teeth)
    require_positive(first_planet_teeth=first_planet_teeth, second_planet_teeth=second_planet_teeth)
    sign = -1 if idlers % 2 else 1
    mismatch = abs(sign * first_teeth * second_planet_teeth - second_teeth * first_planet_teeth)
    if mismatch == 0:
        raise OutOfRange("second_teeth", second_teeth, "such that the two central gears turn differently")
    return mismatch // math.gcd(first_planet_teeth, second_planet_teeth)


def is_evenly_spaceable(
    planets: int,
    first_teeth: int,
    second_teeth: int,
    first_planet_teeth: int = 1,
    second_planet_teeth: int = 1,
    idlers: int = 0,
) -> bool:
    """Whether a number of equal planets goes in at equal angles.

    Parameters
    ----------
    planets : int
        Number of planets [-].
    first_teeth : int
        Teeth of the central gear that meshes the first gear of the planet [-]; negative if internal.
    second_teeth : int
        Teeth of the central gear that meshes the second gear of the planet [-]; negative if internal.
    first_planet_teeth : int
        Teeth of the planet's first gear [-]; leave it for a plain planet.
    second_planet_teeth : int
        Teeth of the planet's second gear [-]; leave it for a plain planet.
    idlers : int
        Pinions between the two central gears beyond the planet itself [-].

    Returns
    -------
    bool
        True where `planet_places` is a multiple of the number of planets.

    Raises
    ------
    OutOfRange
        There is no planet, or as `planet_places`.

    References
    ----------
    H. W. Mueller, Epicyclic Drive Trains, 1982, assembly conditions (from memory).

    Example
    -------
    >>> [n for n in range(3, 7) if is_evenly_spaceable(n, 28, -62)]
    [3, 5, 6]
    """
    require_at_least(1, "one", planets=planets)
    places = planet_places(first_teeth, second_teeth, first_planet_teeth, second_planet_teeth, idlers)
    return places % planets == 0


def neighbour_tip_gap(centre_distance: Real, planets: Real, planet_tip_diameter: Real) -> Real:
    """Gap between the tips of neighbouring planets at equal angles.

    Parameters
    ----------
    centre_distance : float or array
        Sun axis to planet axis [m].
    planets : float or array
        Number of planets [-].
    planet_tip_diameter : float or array
        Diameter over the teeth of a planet, its largest gear [m].

    Returns
    -------
    float or array
        Gap [m]; negative where they would foul.

    Raises
    ------
    OutOfRange
        A size is not above zero or there are fewer than two planets.

    References
    ----------
    Geometry: neighbours stand 2 a sin(180 degrees / N) apart.

    Example
    -------
    >>> round(neighbour_tip_gap(0.054352, 6, 0.046982) * 1000, 2)
    7.37
    """
    require_positive(centre_distance=centre_distance, planet_tip_diameter=planet_tip_diameter)
    require_at_least(2, "two", planets=planets)
    return 2 * centre_distance * sin(math.pi / planets) - planet_tip_diameter
