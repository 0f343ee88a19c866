"""What the pages of photos say, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "photos-head": "Photos",
    "photos-add": "Add a photo",
    "photos-take": "Take a photo",
    "photos-choose": "Choose a picture",
    "photos-of-plate": "Photograph the plate",
    "photos-of-wiring": "Photograph what you see",
    "photos-of-display": "Photograph the display",
    "photos-keep": "Keep the photo",
    "photos-note": "Where, when and with what it was taken is left out; only the picture is kept.",
    "photos-shows": "It shows",
    "photos-stage": "Before anything was changed, or after",
    "photos-says": "In a few words, if you like",
    "photos-none": "No photo yet.",
    "photos-alt": "Photo: {what}",
    "photos-alt-nothing": "A photo that nobody has described",
    "photos-correct": "Keep what it shows",
    "photos-out": "Take this photo out",
    "photos-out-note": "The picture is erased for good, on every device that hears of it.",
    "photos-out-sure": "Erase this photo",
    "photos-taken-by": "{at}, {author}",
}
