"""Screws: preload from torque and how far it scatters, stress, share of the proof load, turn angle.

Here are ``tensile_stress_area``, ``nut_factor``, ``preload``, ``tightening_torque``, ``preload_bounds``,
``proof_share`` and ``turn_angle``.

A torque is a poor measure of a preload: take `preload_bounds`, not `preload`, where it decides. Proof stress
of a class depends on the size (ISO 898-1: class 8.8 has 580 MPa to M16 and 600 MPa above), so it is an
argument. Not here: thread stripping, engaged length, loads from outside the joint.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import (
    Real,
    require_above,
    require_between,
    require_not_negative,
    require_positive,
)


def tensile_stress_area(diameter: Real, pitch: Real) -> Real:
    """Area of an ISO metric thread that bears tension, (pi/4)(d - 0.938194 p)^2.

    Parameters
    ----------
    diameter : float or array
        Nominal diameter [m].
    pitch : float or array
        Pitch [m].

    Returns
    -------
    float or array
        Area [m^2].

    Raises
    ------
    OutOfRange
        The pitch is not above zero, or the thread would have no core.

    References
    ----------
    ISO 898-1, nominal stress area.

    Example
    -------
    In square millimetres, M10:

    >>> round(tensile_stress_area(0.010, 0.0015) * 1e6, 2)
    57.99
    """
    require_positive(pitch=pitch)
    require_above(0.938194 * pitch, "0.94 of the pitch", diameter=diameter)
    return math.pi / 4 * (diameter - 0.938194 * pitch) ** 2


def nut_factor(
    diameter: Real, mean_thread_diameter: Real, pitch: Real, thread_friction: Real, collar_friction: Real
) -> Real:
    """Nut factor K of a metric screw from its friction, so that T = K F d.

    Parameters
    ----------
    diameter : float or array
        Nominal diameter [m].
    mean_thread_diameter : float or array
        Mean of nominal and root diameter [m], d - 0.6134 p, not the pitch diameter.
    pitch : float or array
        Pitch [m].
    thread_friction : float or array
        Friction in the thread [-].
    collar_friction : float or array
        Friction under head or nut [-].

    Returns
    -------
    float or array
        Nut factor [-].

    Raises
    ------
    OutOfRange
        A size is not above zero, a friction is negative, or friction locks the thread.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, eq. 8-26, thread half angle 30
    degrees, collar 1.25 d; U. C. Jindal, Machine Design, Example 9-3.

    Example
    -------
    >>> round(nut_factor(0.018, 0.018 - 0.6134 * 0.0025, 0.0025, 0.15, 0.13), 4)
    0.1834
    """
    require_positive(diameter=diameter, mean_thread_diameter=mean_thread_diameter, pitch=pitch)
    require_not_negative(thread_friction=thread_friction, collar_friction=collar_friction)
    lead = pitch / (math.pi * mean_thread_diameter)
    flank = thread_friction / math.cos(math.radians(30))
    require_positive(one_less_friction_times_lead=1 - flank * lead)
    thread = mean_thread_diameter / (2 * diameter) * (lead + flank) / (1 - flank * lead)
    return thread + 0.625 * collar_friction


def preload(torque: Real, nut_factor: Real, diameter: Real) -> Real:
    """Preload that a torque gives on the average, F = T/(K d).

    Parameters
    ----------
    torque : float or array
        Tightening torque [N m].
    nut_factor : float or array
        Nut factor K [-]; about 0.2 dry or lightly oiled, less with grease.
    diameter : float or array
        Nominal diameter [m].

    Returns
    -------
    float or array
        Preload [N].

    Raises
    ------
    OutOfRange
        Nut factor or diameter is not above zero, or the torque is negative.

    References
    ----------
    T. H. Wentzell, Machine Design, Example 6.1.

    Example
    -------
    >>> round(preload(47.0, 0.20, 0.010))
    23500
    """
    require_positive(nut_factor=nut_factor, diameter=diameter)
    require_not_negative(torque=torque)
    return torque / (nut_factor * diameter)


def tightening_torque(preload: Real, nut_factor: Real, diameter: Real) -> Real:
    """Torque that gives a preload on the average; the inverse of `preload`.

    Parameters
    ----------
    preload : float or array
        Preload [N].
    nut_factor : float or array
        Nut factor K [-].
    diameter : float or array
        Nominal diameter [m].

    Returns
    -------
    float or array
        Torque [N m].

    Raises
    ------
    OutOfRange
        Nut factor or diameter is not above zero, or the preload is negative.

    References
    ----------
    T. H. Wentzell, Machine Design, Example 6.1.

    Example
    -------
    >>> round(tightening_torque(23_500.0, 0.20, 0.010), 1)
    47.0
    """
    require_positive(nut_factor=nut_factor, diameter=diameter)
    require_not_negative(preload=preload)
    return nut_factor * preload * diameter


def preload_bounds(
    torque: Real, nut_factor: Real, diameter: Real, scatter: Real, relaxation: Real = 0.0
) -> tuple[Real, Real]:
    """Least and greatest preload to expect from a torque.

    Parameters
    ----------
    torque : float or array
        Tightening torque [N m].
    nut_factor : float or array
        Nut factor K [-].
    diameter : float or array
        Nominal diameter [m].
    scatter : float or array
        Part by which the preload may lie above or below [-]; 0.25 lubricated, 0.35 dry by torque wrench.
    relaxation : float or array
        Part of the least preload that settles away [-].

    Returns
    -------
    tuple
        Least and greatest preload [N].

    Raises
    ------
    OutOfRange
        A figure is outside its range, scatter and relaxation from 0 to 1.

    References
    ----------
    NASA NSTS 08307 Rev A, 1998, form of the preload bounds (from memory), thermal term left out.

    Example
    -------
    >>> least, greatest = preload_bounds(20.0, 0.20, 0.010, 0.25, 0.05)
    >>> round(least), round(greatest)
    (7125, 12500)
    """
    require_between(0.0, 1.0, scatter=scatter, relaxation=relaxation)
    mean = preload(torque, nut_factor, diameter)
    return mean * (1 - scatter) * (1 - relaxation), mean * (1 + scatter)


def proof_share(preload: Real, stress_area: Real, proof_stress: Real) -> Real:
    """Stress from the preload over the proof stress.

    Parameters
    ----------
    preload : float or array
        Preload [N].
    stress_area : float or array
        Tensile stress area [m^2].
    proof_stress : float or array
        Proof stress of the class at this size [Pa].

    Returns
    -------
    float or array
        Share [-]; what is left bears torsion while tightening and the load.

    Raises
    ------
    OutOfRange
        Area or proof stress is not above zero, or the preload is negative.

    References
    ----------
    ISO 898-1, proof load is stress area times proof stress.

    Example
    -------
    >>> round(proof_share(23_500.0, 58.0e-6, 580e6), 3)
    0.699
    """
    require_positive(stress_area=stress_area, proof_stress=proof_stress)
    require_not_negative(preload=preload)
    return preload / (stress_area * proof_stress)


def turn_angle(preload: Real, grip: Real, area: Real, elastic_modulus: Real, pitch: Real) -> Real:
    """Turn of the nut from snug that stretches a screw to a preload.

    Parameters
    ----------
    preload : float or array
        Preload [N].
    grip : float or array
        Length that is stretched [m].
    area : float or array
        Area that is stretched [m^2].
    elastic_modulus : float or array
        Modulus of elasticity [Pa].
    pitch : float or array
        Pitch [m].

    Returns
    -------
    float or array
        Angle [rad], the joint taken as rigid: a real one needs more.

    Raises
    ------
    OutOfRange
        A size is not above zero or the preload is negative.

    References
    ----------
    T. H. Wentzell, Machine Design, Example 6.2.

    Example
    -------
    In degrees:

    >>> round(math.degrees(turn_angle(33_000.0, 0.040, 58.0e-6, 207e9, 0.0015)), 1)
    26.4
    """
    require_positive(grip=grip, area=area, elastic_modulus=elastic_modulus, pitch=pitch)
    require_not_negative(preload=preload)
    return 2 * math.pi * preload * grip / (area * elastic_modulus * pitch)
