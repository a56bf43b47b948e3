"""What steel does: pure functions in SI units, for one figure or a numpy array of figures alike.

========================  =====================================================================
springs                   ``coil`` size and ends; ``spring`` rate, force, energy;
                          ``spring_stress`` correction factors, stress, buckling;
                          ``disc_spring``, ``disc_stress``, ``disc_stack``; ``wave_spring``;
                          ``release`` how fast a body can leave when energy is let go
springs held by stops     ``rest`` where a set of springs and stops comes to rest; ``cut`` which
                          retainers together free a load
presses                   ``piston`` pressure and force; ``press`` gauge, travel, daylight;
                          ``strut`` buckling of posts and push rods
friction                  ``clutch`` disc packs and ball ramps; ``oneway`` roller clutches;
                          ``contact`` pressure of a roller on what it touches;
                          ``engagement`` slip, heat and time while a clutch takes up
gearing                   ``gear`` diameters, centres, tooth force; ``planet`` can a planetary set
                          be put together; ``train`` elements of a network; ``speed`` exact
                          speeds; ``torque`` torques; ``capacity`` what a locked set can pass
chain                     ``chain`` wear from slack, length and centre distance
bearings                  ``bearing`` preload, turning torque, change with heat
held by bolts or force    ``fastener`` torque and preload; ``ring`` thrust on a retaining ring;
                          ``fit`` heat and interference
========================  =====================================================================

Nothing here reads a clock, a file or the surroundings. A figure outside a formula's range raises
`OutOfRange`; nothing is clipped, rounded or guessed. Judging against limits is done elsewhere, in
figures as typed. Importing this package does not import numpy.
"""

from layshaft.mechanics._domain import OutOfRange

__all__ = ["OutOfRange"]
