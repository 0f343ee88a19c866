"""What is said in English of room and keeping: the page of what this browser keeps, photos that still fit, no room."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "storage": "What this device keeps",
    "storage-link-note": "How large the record is, how much room is left, and whether it is safe here.",
    "storage-record": "The record",
    "storage-record-size": "The record: {size}",
    "storage-record-photos": "Photos in it: {count}, together {size}",
    "storage-record-unknown": "How large the record is nobody can tell here.",
    "storage-room-head": "Room",
    "storage-room": "Room left: {room}",
    "storage-room-none": "How much room is left this browser does not tell.",
    "storage-needs-scripts": "What the browser grants only a script can ask, and scripts are off.",
    "storage-elsewhere": "The record lives on the computer that serves this app. This phone keeps only what was typed "
    "and not sent yet.",
    "storage-here": "The record is a file on this computer. The browser itself keeps only what was typed and not sent "
    "yet.",
    # the promise
    "storage-promise-head": "Will the browser keep it?",
    "storage-promised": "Yes: this browser promised to keep the record until you erase it yourself.",
    "storage-not-promised": "Not promised: this browser may clear the record when the device runs out of room.",
    "storage-promise-unknown": "This browser makes no such promise. Save copies, and hand visits over.",
    "storage-ask": "Ask it to promise",
    "storage-refused": "It did not promise. Browsers promise more readily once the app stands on the home screen and "
    "is used; until then save copies, and hand visits over.",
    "storage-silent": "It has not answered. It may be asking you at the edge of the screen.",
    # what may be erased
    "storage-idle": "Not opened for a week, this browser may erase everything that a page keeps, the record too. Put "
    "the app on the home screen, or save a copy now.",
    "storage-copy": "Save a copy of everything",
    "storage-copy-note": "One file with every visit and photo. Keep it somewhere else than this device.",
    # the home screen
    "storage-install-head": "Put it on the home screen",
    "storage-installed": "The app was opened from the home screen. That is how it keeps best.",
    "storage-install-why": "It then opens like any other app, with no signal too, and the browser is less ready to "
    "clear it.",
    "storage-install-apple": "iPhone and iPad: tap the share sign (a square with an arrow), then Add to Home Screen. "
    "What stands there begins empty: save a copy here first, and bring it in there.",
    "storage-install-other": "Android and others: open the browser's menu, then tap Install app or Add to Home screen. "
    "The record stays the same.",
    # photos that still fit
    "room-some": "Photos that still fit here: about {count}.",
    "room-many": "Photos that still fit here: more than {many}.",
    "room-few": "Little room left. Photos that still fit here: about {count}. Take the ones that matter, and erase "
    "what nobody needs.",
    "room-none": "There is no room left for a photo. Erase what nobody needs before you take one.",
    "photo-too-large-here": "Not sent: this picture has {got}, and at most {most} can be kept. Choose a smaller one.",
    "body-too-large": "That is more than a page takes at once, and nothing of it was kept. A picture may have {most} "
    "at most: choose a smaller one.",
    # a full disk
    "no-room-head": "No room",
    "no-room": "There is no room left on this device: nothing of this was kept. What was kept before is safe. Erase "
    "what nobody needs, photos above all, then try again.",
    "no-room-held": "What you typed still stands on this page.",
    "no-room-again": "Try again",
}
