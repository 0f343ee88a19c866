"""Monte Carlo by the million, for a laptop: the interface of `steadyhead.sensorcheck.propagating`, on numpy."""

from steadyhead.montecarlo.propagating import propagate

__all__ = ["propagate"]
