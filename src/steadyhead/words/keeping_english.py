"""What the settings say in English of the letterhead, of copies of the record, and of erasing a customer."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "letterhead": "Over every paper",
    "letterhead-note": "Your company's name, address, telephone: up to four lines.",
    "letterhead-line": "Line {number}",
    "letterhead-keep": "Keep these lines",
    "logo": "Logo over every paper",
    "logo-note": "A picture, JPEG, PNG or WebP, up to {size} kB. Black on white prints best.",
    "logo-none": "No logo yet.",
    "logo-file": "Picture",
    "logo-keep": "Keep this logo",
    "logo-drop": "Papers without a logo",
    "logo-too-large": "The picture has {got} kB; a logo has {most} kB at most. Nothing was changed.",
    "keeping": "Copies of the record",
    "keeping-backup": "Save a copy of everything",
    "keeping-note": "One file with every visit and photo. Keep it somewhere else than this device.",
    "keeping-restore": "To put a copy back, close the app and run: {command}. What stands here now is set aside "
    "first, and what was erased since stays erased.",
    "keeping-none": "This record lives on a server: its own tools make its copies.",
    "erase": "Erase a customer",
    "erase-note": "Takes away a system with its visits, readings and photos, here and wherever a later sync brings "
    "them. It cannot be undone.",
    "erase-choose": "Which system?",
    "erase-head": "Erase {name}",
    "erase-counts": "This takes away for ever: the system, its visits ({visits}) and its photos ({photos}).",
    "erase-sure": "Yes, erase it for ever",
    "erase-confirm": "Erase",
    "erase-not-sure": "Mark that you are sure. Nothing was erased.",
    "erase-done": "Erased.",
}
