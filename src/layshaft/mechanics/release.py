"""How fast a body can leave when stored energy is let go.

Here are ``speed_bound``, which no body can pass, and ``speed_estimate``, the usual figure with a third of the
spring's mass, which a body can pass. Warnings and limits rest on the bound; the estimate is for comparing.

Why the bound holds: whatever passes between spring, pack and body, the energy of one moving body is never
more than all that was stored, so m v^2 / 2 <= E for each body, and the lightest that could leave has the
greatest v. It needs no shape of motion, friction only lowers it, and it also covers a light part flung ahead
of a heavy one. It holds only if E is everything: each spring that can open, each at its longest free length,
stiffest rate and shortest length, oil and frame of a press that is still pressing, and weight times drop.

Why the estimate is no bound: it takes the spring to move as if stretched evenly, its free end fastest.
Really a wave runs along the coils. For a body as heavy as an evenly pressed spring whose other end is fixed
the wave equation gives a top speed of 2 exp(-exp(-2)/2) - 1 = 0.86914 x sqrt(k/m), the estimate
sqrt(3/4) = 0.86603 x sqrt(k/m), 0.4 % less. A spring that already moves can beat it by more.
"""

from __future__ import annotations

from layshaft.mechanics._domain import Real, require_not_negative, require_positive
from layshaft.mechanics._elementwise import sqrt


def speed_bound(energy: Real, lightest_mass: Real) -> Real:
    """Speed that no body leaving with the energy can pass.

    Parameters
    ----------
    energy : float or array
        Everything that could be let go at once [J].
    lightest_mass : float or array
        Mass of the lightest body that could leave alone [kg]; the mass of the spring is not added.

    Returns
    -------
    float or array
        Bound on the speed of the body's centre of mass [m/s]. Where the spring itself can fly out, take its
        mass too; single coils of it can whip faster than their centre of mass.

    Raises
    ------
    OutOfRange
        The mass is not above zero or the energy is negative.

    References
    ----------
    Conservation of energy; the reasoning is at the head of this module.

    Example
    -------
    >>> round(speed_bound(104.1, 3.866), 2)
    7.34
    """
    require_not_negative(energy=energy)
    require_positive(lightest_mass=lightest_mass)
    return sqrt(2 * energy / lightest_mass)


def speed_estimate(energy: Real, mass: Real, spring_mass: Real) -> Real:
    """Speed of a body pushed by a spring that takes a third of its own mass along. Not a bound.

    Parameters
    ----------
    energy : float or array
        Energy let go [J].
    mass : float or array
        Mass of the body [kg].
    spring_mass : float or array
        Mass of the spring [kg].

    Returns
    -------
    float or array
        Estimated speed [m/s], below the true top speed for some bodies: never rest a caution on it.

    Raises
    ------
    OutOfRange
        The mass is not above zero, or energy or spring mass is negative.

    References
    ----------
    Lord Rayleigh, The Theory of Sound, vol. 1, section 156: a third of the mass of a spring moves with its
    end (from memory).

    Example
    -------
    >>> round(speed_estimate(0.527, 0.004, 0.008), 1)
    12.6
    """
    require_not_negative(energy=energy, spring_mass=spring_mass)
    require_positive(mass=mass)
    return sqrt(2 * energy / (mass + spring_mass / 3))
