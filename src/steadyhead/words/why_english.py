"""How each reading moved a suspect, and what the engine did on its way, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "suspect-unknown": "This system has no suspect {got}. Such as: {must_be}.{nearest:nearest} All of them: steadyhead "
    "faults.",
    "why-head": "{fault:fault}: {share:odds}. The repair would be: {remedy:remedy}.",
    "why-before": "Before the first reading: {share:odds}.",
    "why-for": "Speaks for it, about {times} times. Then: {share:odds}.",
    "why-against": "Speaks against it, about {times} times. Then: {share:odds}.",
    "why-little": "Says little of it. Then: {share:odds}.",
    "why-all-for": "All but proves it. Then: {share:odds}.",
    "why-all-against": "All but rules it out. Then: {share:odds}.",
    "why-out": "It was out before this.",
    "why-foretold": "Expected {band}; {rival:fault} would give {other}.",
    "why-foretold-alone": "Expected {band}.",
    "why-foretold-alike": "Expected {band}, as with {rival:fault}.",
    "why-most-for": "Speaks for it most: reading {number}.",
    "why-most-against": "Speaks against it most: reading {number}.",
    "why-unused": "No longer counted, since a repair was made after them: readings {list}.",
    "why-rivals-head": "Its rivals now",
    "why-deciding-head": "What would prove it or clear it",
    "why-deciding": "{measure:what-read}, {minutes:minutes}: {band} if it is this; {other} if it is {rival:fault}.",
    "trace-head": "How this came about: the readings",
    "trace-before-repair": "Not counted: a repair was made after it.",
    "trace-counted": "Counted.",
    "trace-fits": "Fits the rest ({off} deviations).",
    "trace-fits-badly": "Fits the rest badly ({off} deviations).",
    "trace-odd": "Does not fit the rest ({off} deviations).",
    "trace-course-head": "What led after each reading",
    "trace-leads": "Now leads: {fault:fault}, {share:odds}.",
    "course-before": "Before the first reading.",
    "course-one-suspect": "One suspect in full: steadyhead why FILE FAULT",
    "trace-cells": "Cells: {count}; the first rough pass left {alive}. The heaviest now:",
    "trace-prices": "Stopping here and mending the likeliest costs {stopping:minutes} on average (a second trip, where "
    "it is wrong); finding out the rest costs {going_on:minutes}.",
    "trace-chosen-head": "Checks that are worth their minutes",
    "trace-none-chosen": "No check is worth its minutes.",
    "trace-lost-head": "Checks that are not ({count} of them)",
    "trace-check": "{what} ({arrangement:arrangement}): {minutes} min, saves {saves} min net",
    "why-nothing-decides": "No check that is left here tells it from a likely rival with another repair.",
}
