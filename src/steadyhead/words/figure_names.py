"""What a figure is called where a paper or a screen tells how it was made.

Rules
-----
1. A figure that was read has the name of its measure; one that was worked out has a name of its own.
2. In a formula the ids of its figures are said by these names.
"""

from __future__ import annotations

import re

from steadyhead.words.checks_names import MEASURES
from steadyhead.words.night_names import NIGHT_FIGURES
from steadyhead.words.sensor_figure_names import SENSOR_FIGURES
from steadyhead.words.sensorcheck_names import INPUTS, OF_BUDGETS
from steadyhead.words.tank_names import TANK_FIGURES
from steadyhead.words.tonight_names import TONIGHT_FIGURES
from steadyhead.words.web_names import FIELDS

#: An id inside a formula: small letters, digits, hyphens between.
FIGURE_ID = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*")

OF_PAPERS: dict[str, str] = {
    "range-low": "lower end of the {transducer:region}'s range",
    "range-high": "upper end of the {transducer:region}'s range",
    "signal-low": "signal at the lower end",
    "signal-high": "signal at the upper end",
    "sensor-accuracy": "{transducer:region}'s accuracy, of span",
    "card-pressure": "pressure of this row",
    "nominal-signal": "signal of the plate's line",
    "input-volts": "volts over the input",
    "input-resistance": "input's resistance",
    "healthy-low": "lower end of healthy",
    "healthy-high": "upper end of healthy",
    "lowest-read": "lowest that was read",
    "highest-read": "highest that was read",
    "foretold-low": "lower end of what this cause gives",
    "foretold-high": "upper end of what this cause gives",
    "likelier": "how much likelier the reading made it",
    "share-after": "its share after the reading",
    "barometer": "air pressure",
    "altitude": "height above the sea",
    "height": "height of the reference",
    "gauge-low": "lower end of the gauge's scale",
    "gauge-high": "upper end of the gauge's scale",
    "gauge-accuracy": "gauge's accuracy, of its scale",
    "meter-percent": "meter's accuracy, of the reading",
    "meter-counts": "meter's counts",
    "share": "share of what still fits all readings",
}

#: A system's keys, by their ids in a figure: ``controller-low-fault``.
OF_SYSTEMS: dict[str, str] = {key.replace(".", "-").replace("_", "-"): name for key, name in FIELDS.items()}

FIGURES: dict[str, str] = {
    **SENSOR_FIGURES, **MEASURES, **INPUTS, **OF_BUDGETS, **OF_SYSTEMS, **OF_PAPERS, **TONIGHT_FIGURES, **NIGHT_FIGURES,
    **TANK_FIGURES,
}  # fmt: skip
