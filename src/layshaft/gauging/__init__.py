"""What a reading means: how sure it is, what it decides, and which parts bring the results inside.

=====================  =========================================================================
limits                 ``window`` where a figure lies between two ends, exactly as typed
how sure a figure is   ``uncertainty`` from a gauge's data to one standard uncertainty;
                       ``student`` the factor for few degrees of freedom
verdicts               ``conformity`` probability inside a limit, guard bands, sure or not sure;
                       ``risk`` what a whole run of parts risks at a given acceptance limit
several places         ``places`` taper, worst place, mean; too few places is measure again
repeats                ``repeat`` how far apart a gauge lets them lie, and what their scatter does
money                  ``decision`` cost of being wrong either way, worth of one more reading
dimension chains       ``stack`` worst case, root sum square, shared links, parts of one batch
choice of parts        ``pack`` one pack and one ring; ``assortment``, ``selection`` and ``pick``
                       several sizes and packs at once: what there is, the choice, the answer;
                       ``subset`` sums that k pieces reach; ``question``, ``choice``, ``search``
                       and ``tally`` the engine in whole figures
numerical ground       ``quadrature`` integrals with fixed points
=====================  =========================================================================

Verdicts compare exact figures (`fractions.Fraction`); probabilities are floats and never overrule them.
All lengths, forces and torques of one call share one unit; the rest of the program uses SI.
Nothing here reads a clock, a file or the surroundings, or draws a random number.
"""
