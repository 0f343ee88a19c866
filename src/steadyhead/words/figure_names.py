"""What a figure is called where a paper or a screen tells how it was made.

Rules
-----
1. A figure that was read has the name of its measure; one that was worked out has a name of its own.
2. In a formula the ids of its figures are said by these names.
"""

from __future__ import annotations

import re

from steadyhead.words.checks_names import MEASURES
from steadyhead.words.sensor_figure_names import SENSOR_FIGURES
from steadyhead.words.sensorcheck_names import INPUTS, OF_BUDGETS

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
    "share": "share of what still fits all readings",
}

FIGURES: dict[str, str] = {**SENSOR_FIGURES, **MEASURES, **INPUTS, **OF_BUDGETS, **OF_PAPERS}
