"""The volts of a healthy supply: about what its plate says, or, where nothing regulates it, well above.

Rules
-----
1. The supply of a 5-volt sensor is regulated. Of the others some are a transformer with a rectifier, made for many
   times what a sensor draws: a 24-volt one idles at 28 to 32 V and is not bad (common practice).
2. One latent moves both: up to `IDLES_FROM` deviations by the spread of a regulated supply, beyond by what an idle one
   rises.
3. Limits in which the plate calls the supply sound are where an idle one may stand at most.
"""

from __future__ import annotations

from steadyhead.diagnosis.system import LOW_VOLTS, System

#: From so many deviations on a supply is one that nothing regulates, and what one deviation more adds to its volts, in
#: parts of what its plate says.
IDLES_FROM, IDLES = 1.0, 0.18
#: Deviations at which a supply stands at the upper end of the limits that were given.
AT_LIMIT = 2.5
#: Where nobody said what the supply of a voltage sensor is: from so many deviations down it is another one, of 12 volts
#: instead of 24, and what one deviation less takes from it there.
OTHER_FROM, OTHER_TO, OTHER, OTHER_SPREAD = -1.0, -1.4, 0.507, 0.02
#: And where such a supply stands in the middle [deviations].
OTHER_AT = -1.75


def rise(system: System) -> float:
    """Return what one deviation adds where nothing regulates the supply [parts of what its plate says]."""
    limits = system.visit.controller.supply_limits
    if limits is not None:
        most = limits.high / system.supply_v - 1.0 - IDLES_FROM * system.supply_spread
        return max(system.supply_spread, most / (AT_LIMIT - IDLES_FROM))
    return system.supply_spread if system.supply_v < LOW_VOLTS else IDLES


def supply_volts(system: System, z: float) -> float:
    """Return the volts of a healthy supply at one point of its latent [V].

    A supply of 24 V, of which nothing else is known:

    >>> from steadyhead.visit import parse_visit
    >>> text = 'schema = 1' + chr(10) + '[sensor]' + chr(10) + 'signal = "4..20 mA"' + chr(10) + 'range = "0..100 psi"'
    >>> system = System(parse_visit(text).visit)
    >>> [round(supply_volts(system, z), 1) for z in (-1.0, 0.0, 1.0, 2.0)]
    [22.8, 24.0, 25.2, 29.5]
    """
    if system.supply_unsaid and z < OTHER_FROM:
        return system.supply_v * _other(system, z)
    beyond = max(z - IDLES_FROM, 0.0)
    return system.supply_v * (1.0 + system.supply_spread * (z - beyond) + rise(system) * beyond)


def _other(system: System, z: float) -> float:
    """Return the volts of a supply that may be another one, in parts of the usual one's."""
    return OTHER + _other_slope(system, z) * (z - OTHER_TO)


def _other_slope(system: System, z: float) -> float:
    """Return what one deviation adds to them: little about the other supply's, much on the way to the usual one's."""
    usual = 1.0 + OTHER_FROM * system.supply_spread
    return OTHER_SPREAD if z < OTHER_TO else (usual - OTHER) / (OTHER_FROM - OTHER_TO)


def fall(system: System) -> float:
    """Return what the supply may be below what its plate says, roughly [parts of that]."""
    return 1.0 - OTHER if system.supply_unsaid else system.supply_spread


def supply_slope(system: System, z: float) -> float:
    """Return by what part one deviation more raises a healthy supply at one point of its latent."""
    if system.supply_unsaid and z < OTHER_FROM:
        slope = _other_slope(system, z)
    else:
        slope = rise(system) if z > IDLES_FROM else system.supply_spread
    return slope * system.supply_v / supply_volts(system, z)
