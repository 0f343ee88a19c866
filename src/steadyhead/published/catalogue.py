"""Every table of this package in one list, for a page or a command that shows them with their sources."""

from __future__ import annotations

from steadyhead.published import (
    conductor_awg,
    conductor_iec60228,
    current_signal_bands,
    gauge_classes,
    gauge_grades,
    normal_gravity,
    pipe_threads,
    pressure_factors,
    pump_starts,
    standard_atmosphere,
    water_density,
    water_saturation,
)
from steadyhead.published.source import Table

TABLES: tuple[Table, ...] = (
    conductor_awg.TABLE,
    conductor_iec60228.TABLE,
    current_signal_bands.TABLE,
    gauge_classes.TABLE,
    gauge_grades.TABLE,
    normal_gravity.TABLE,
    pipe_threads.TABLE,
    pressure_factors.TABLE,
    pump_starts.TABLE,
    standard_atmosphere.TABLE,
    water_density.TABLE,
    water_saturation.TABLE,
)
