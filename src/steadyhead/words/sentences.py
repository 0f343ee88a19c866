"""Every sentence of the program in one table, gathered from the tables by subject; no id stands in two of them."""

from __future__ import annotations

from steadyhead.words import (
    arriving_english,
    cautions_english,
    company_english,
    endings_english,
    guide_english,
    how_english,
    instruments_english,
    loop_english,
    papers_english,
    quantities_english,
    record_english,
    screens_english,
    sensor_enter_english,
    sensor_lines_english,
    sensor_record_english,
    sensor_run_english,
    sensor_web_english,
    sensorcheck_budget_english,
    settings_english,
    store_english,
    verdict_english,
    visit_file_english,
    web_english,
    why_english,
)

TABLES: tuple[dict[str, str], ...] = (
    arriving_english.ENGLISH,
    cautions_english.ENGLISH,
    company_english.ENGLISH,
    endings_english.ENGLISH,
    guide_english.ENGLISH,
    how_english.ENGLISH,
    instruments_english.ENGLISH,
    loop_english.ENGLISH,
    papers_english.ENGLISH,
    quantities_english.ENGLISH,
    record_english.ENGLISH,
    screens_english.ENGLISH,
    sensor_record_english.ENGLISH,
    sensor_enter_english.ENGLISH,
    sensor_lines_english.ENGLISH,
    sensor_run_english.ENGLISH,
    sensor_web_english.ENGLISH,
    sensorcheck_budget_english.ENGLISH,
    settings_english.ENGLISH,
    store_english.ENGLISH,
    verdict_english.ENGLISH,
    visit_file_english.ENGLISH,
    web_english.ENGLISH,
    why_english.ENGLISH,
)

ENGLISH: dict[str, str] = {id_: template for table in TABLES for id_, template in table.items()}
