"""Names of what can be chosen in the settings."""

from __future__ import annotations

#: What is chosen, over its choices.
SETTINGS: dict[str, str] = {
    "language": "Language",
    "region": "Words",
    "unit": "Pressures in",
    "decimal": "Decimal sign",
}

#: The choices; a language is named in itself.
SETTING_CHOICES: dict[str, str] = {
    "language:en": "English",
    "language:es": "Español",
    "region:north-america": "transducer, pressure tank, ground",
    "region:elsewhere": "sensor, pressure vessel, earth",
    "unit:": "as on each plate",
    "unit:psi": "psi",
    "unit:bar": "bar",
    "unit:kPa": "kPa",
    "unit:mH2O": "m of water",
    "unit:ftH2O": "ft of water",
    "decimal:.": "a point",
    "decimal:,": "a comma",
}
