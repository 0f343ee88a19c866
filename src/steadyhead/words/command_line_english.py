"""What is said of a command line that cannot be read, in English; a command's help stands with the command."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "command-try": "«{command}» shows what can be typed.",
    "command-unknown": "There is no command {got}. The commands: {must_be}.{nearest:nearest}",
    "command-option-unknown": "There is no option {got} here. The options: {must_be}.{nearest:nearest}",
    "command-argument-missing": "{got} is missing.",
    "command-too-much": "Too much was typed: {got}.",
    "command-option-bare": "{got} takes no value.",
    "command-option-alone": "{got} needs a value behind it.",
    "command-no-number": "{got} is no whole number. {key} must be one.",
    "command-out-of-range": "{got} will not do. {key} must be within {must_be}.",
    "command-refused": "{got}",
}
