"""Each caution in a few words: a reminder, where the whole sentence was shown before on this visit."""

from __future__ import annotations

CAUTIONS: dict[str, str] = {
    "local-codes-first": "local codes and a licensed person first",
    "fire-pump-refused": "no fire pump",
    "watch-while-raised": "watch the pressure while it rises",
    "keep-the-evidence": "keep what the display knows",
    "lock-out": "locked out and tagged",
    "capacitors-hold-charge": "capacitors stay charged",
    "prove-tester-then-dead": "prove dead",
    "stop-the-drive": "stop the drive first",
    "starts-by-itself": "the pump can start by itself",
    "relieve-pressure": "relieve the pressure",
    "keep-water-clean": "keep the water clean",
    "mains-beside-terminals": "mains beside the terminals",
    "no-insulation-test-into-electronics": "no insulation test into electronics",
    "tag-wires": "tag the wires",
    "source-never-against-powered-loop": "no signal source against a powered loop",
    "milliamp-jack-and-back": "mA jack, and back",
    "wait-for-recovery": "wait a minute",
    "water-is-off": "tell who depends on the water",
    "meter-category": "right meter, fused leads",
}
