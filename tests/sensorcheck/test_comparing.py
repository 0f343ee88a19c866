"""As-found against as-left, drift over the years, and zero-corrected series."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest

from steadyhead.errors import SensorCheckError
from steadyhead.figures import given
from steadyhead.sensorcheck.characteristics import characteristics
from steadyhead.sensorcheck.comparing import Dated, compared, drift_per_year, of_one_sensor
from steadyhead.sensorcheck.series import series_figures
from tests.sensorcheck.runs import HOUSE, PSI, shown_run

ONE_MILLIPASCAL = 1e-3


def test_an_adjustment_shows_level_by_level() -> None:
    """A closed form: 3 psi high before, 0.5 psi low after."""
    before = characteristics(shown_run(HOUSE, [(p * PSI, (p + 3) * PSI, "up", 1) for p in (0.0, 50.0, 90.0)]))
    after = characteristics(shown_run(HOUSE, [(p * PSI, (p - 0.5) * PSI, "up", 1) for p in (0.0, 50.5, 70.0)]))
    found = compared(before, after)
    assert [round(each.found.pressure.value / PSI) for each in found] == [0, 50]
    assert [each.change.value / PSI for each in found] == pytest.approx([-3.5, -3.5])


def test_runs_without_a_level_in_common_are_refused() -> None:
    """Nothing can be compared."""
    low = characteristics(shown_run(HOUSE, [(0.0, 0.0, "up", 1)]))
    high = characteristics(shown_run(HOUSE, [(90 * PSI, 0.0, "up", 1)]))
    with pytest.raises(SensorCheckError, match="no-level-in-common"):
        compared(low, high)


def dated(*rows: tuple[str, float, float | None]) -> list[Dated]:
    """Return zero errors by day, with their standard uncertainties."""
    return [
        Dated(day=day, figure=replace(given("zero-error", error, "pressure", "check"), standard_uncertainty=u))
        for day, error, u in rows
    ]


def test_a_drift_is_the_slope_over_the_years() -> None:
    """A closed form: 1461 days are four years of 365.25 days; 400 Pa in them are 99.998 Pa a year of 365.2425 days."""
    found = drift_per_year(dated(("2022-03-01", 100.0, None), ("2026-03-01", 500.0, None)))
    assert found.value == pytest.approx(400.0 / 1461 * 365.2425, abs=ONE_MILLIPASCAL)
    assert found.standard_uncertainty is None


def test_of_two_days_the_uncertainty_is_that_of_the_difference() -> None:
    """A closed form: sqrt(u1^2 + u2^2) over the time between."""
    found = drift_per_year(dated(("2022-03-01", 100.0, 30.0), ("2026-03-01", 500.0, 40.0)))
    assert found.standard_uncertainty == pytest.approx(sqrt(30.0**2 + 40.0**2) / 1461 * 365.2425, rel=1e-9)


def test_days_that_scatter_more_than_they_should_widen_it() -> None:
    """Birge's ratio (closed form): three days a year apart, equal u; the middle is d off the line of the outer two.

    Residuals of the line: d/3, -2d/3, d/3; chi-squared (2/3) d^2 / u^2 with one degree of freedom.
    """
    far = dated(("2024-01-01", 0.0, 10.0), ("2025-01-01", 300.0, 10.0), ("2026-01-01", 0.0, 10.0))
    near = dated(("2024-01-01", 0.0, 10.0), ("2025-01-01", 3.0, 10.0), ("2026-01-01", 0.0, 10.0))
    wide, plain = drift_per_year(far).standard_uncertainty, drift_per_year(near).standard_uncertainty
    assert wide is not None
    assert plain is not None
    assert wide / plain == pytest.approx(sqrt(2.0 / 3.0) * 300.0 / 10.0, rel=1e-3)


def test_under_two_days_there_is_no_drift() -> None:
    """One check has no drift, nor have two of one day."""
    for rows in ([("2026-01-01", 1.0, None)], [("2026-01-01", 1.0, None), ("2026-01-01T10:00:00Z", 2.0, None)]):
        with pytest.raises(SensorCheckError, match="drift-needs-two-days"):
            drift_per_year(dated(*rows))
    with pytest.raises(SensorCheckError, match="day-unreadable"):
        drift_per_year(dated(("yesterday", 1.0, None), ("2026-01-01", 1.0, None)))


def test_checks_of_one_sensor_are_found_by_its_number_oldest_first() -> None:
    """A property: another number, and a check that nobody dated, are not among them."""
    run = shown_run(HOUSE, [(0.0, 0.0, "up", 1)])
    runs = [
        replace(run, serial="A7 ", began="2026-01-01"), replace(run, serial="a7", began="2024-01-01"),
        replace(run, serial="B1", began="2025-01-01"), replace(run, serial="A7"),
    ]  # fmt: skip
    assert [each.began for each in of_one_sensor(runs, "A7")] == ["2024-01-01", "2026-01-01"]
    with pytest.raises(SensorCheckError, match="serial-unknown"):
        of_one_sensor(runs, "  ")


def test_series_are_freed_of_their_zero() -> None:
    """The definitions (from memory) on made-up figures, by hand [Pa].

    Cycle 1: up 10, 30; down 60, 14. Cycle 2: up 20, 55; down 65, 21. Zeros 10 and 20, freed: up 20 and 35, down 50 and
    45. Zero deviation max(4, 1) = 4; hysteresis (30 + 10) / 2 = 20; repeatability max(|20 - 35|, |50 - 45|) = 15.
    """
    half = 50 * PSI
    rows = [
        (0.0, 10.0, "up", 1), (half, half + 30, "up", 1), (half, half + 60, "down", 1), (0.0, 14.0, "down", 1),
        (0.0, 20.0, "up", 2), (half, half + 55, "up", 2), (half, half + 65, "down", 2), (0.0, 21.0, "down", 2),
    ]  # fmt: skip
    found = series_figures(characteristics(shown_run(HOUSE, rows)).levels)  # type: ignore[arg-type]
    assert found.zero_deviation is not None
    assert found.hysteresis is not None
    assert found.repeatability is not None
    values = [each.value for each in (found.zero_deviation, found.hysteresis, found.repeatability)]
    assert values == pytest.approx([4.0, 20.0, 15.0], abs=ONE_MILLIPASCAL)


def test_one_way_up_has_no_series_figures() -> None:
    """What cannot be told is None."""
    found = series_figures(characteristics(shown_run(HOUSE, [(0.0, 1.0, "up", 1), (50 * PSI, 0.0, "up", 1)])).levels)
    assert (found.zero_deviation, found.hysteresis, found.repeatability) == (None, None, None)
