"""What the pages and commands say in English of handing over, taking in, and bringing two homes together."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "handing": "Hand over",
    "handing-visit": "Hand over this visit",
    "handing-visit-note": "One file with every reading and photo of this visit. Another phone or the laptop takes it "
    "in; both records then hold the same.",
    "handing-share": "Share the file",
    "handing-save": "Save the file",
    "handing-share-failed": "This browser did not share it. Save the file, and send it from there.",
    "handing-done": "Handed over on {when}, {way}.",
    "handing-not": "Not handed over since its last entry.",
    "handing-missed": "Not handed over yet",
    "handing-missed-note": "These visits have ended and are on this phone alone. Hand them over when you are back.",
    "handing-none-missed": "Every visit that has ended was handed over.",
    "handing-all": "Everything",
    "handing-all-note": "Visits: {visits}. Entries: {facts}. Photos: {photos}. Keep the file somewhere else than this "
    "device, or take it in on another one.",
    "handing-all-save": "Save everything in one file",
    "handing-parts-note": "It is large, so it comes in {count} files. Save each; they are taken in in any order.",
    "handing-part": "Save part {number} of {count}",
    "handing-here-only": "A file with everything is handed to whoever sits at this device alone.",
    "handing-other-ways": "Other ways",
    "everything-no-part": "There is no part {got}: everything comes in {count}.",
    "taking": "Take in a visit or a copy",
    "taking-note": "A file that another phone or laptop handed over: NAME.visit or NAME.visits; or a visit file, "
    "NAME.toml. It is brought together with what stands here, and nothing here is written over.",
    "taking-file": "The file",
    "taking-keep": "Take it in",
    "taking-none": "Choose a file first. Nothing was changed.",
    "taking-too-large": "The file is larger than {megabytes} MB. A laptop takes it in by a command: steadyhead import "
    "FILE. Nothing was changed.",
    "taking-limit": "At most {megabytes} MB here. A laptop takes a larger one with: {command}",
    "came": "What came",
    "came-nothing": "Nothing new: all of it was here already.",
    "came-new": "New entries: {count}.",
    "came-photos": "New photos: {count}.",
    "came-visits": "Visits with new entries",
    "came-visit": "New entries: {count}",
    "came-conflicts": "Two devices say different things",
    "came-conflicts-note": "Both are kept. Tap to look, and choose what holds.",
    "came-conflict": "{first} or {second}",
    "came-erased": "Erased on the other device, and so here: {count} entries.",
    "came-late": "Came, but had been erased here, and stays erased: {count} entries.",
    "came-newer": "Of a newer version: kept and passed on as it came, not shown here: {list}.",
    "came-parts": "Passed over in the file, since a newer version wrote it: {list}.",
    "import-everything": "Taken in from {file}: {count} entries that were new here, photos that were new: {photos}.",
    "import-conflicts": "Two devices say different things of {count} entries. Both are kept; the app shows where to "
    "choose.",
    "import-erased": "Erased elsewhere, and so here: {count} entries.",
    "import-late": "Came, but had been erased here, and stays erased: {count} entries.",
    "import-newer": "Of a newer version, kept and passed on as it came: {list}.",
    "export-everything": "Everything is in {files}: {visits} visits, {facts} entries, {photos} photos.",
    "sync": "Hand over to the laptop",
    "sync-note": "Both must be on one network. At the laptop run {command}, then open Settings, Phones: it shows an "
    "address and a code. What either has, both have afterwards.",
    "sync-by-command": "This computer hands over to another one by a command: {command}. Phones hand over to this "
    "computer while its app runs with --host.",
    "sync-address": "Address",
    "sync-code": "Code",
    "sync-code-note": "Needed when you hand over to it for the first time in a day.",
    "sync-photos": "Fetch the photos that are there, too",
    "sync-go": "Hand over now",
    "sync-again": "Hand over again",
    "sync-on": "Go on",
    "sync-under-way": "Under way. What has arrived is kept already.",
    "sync-went": "Went: {facts} entries, {photos} photos.",
    "sync-came": "Came: {facts} entries, {photos} photos.",
    "sync-done": "Done: both have the same now.",
    "sync-clashed": "{count} entries stood there with another content; one of the two was kept. Somebody has changed "
    "what must not change.",
    "sync-no-tls": "Without https nothing is encrypted on the way: use a network that you trust, or your own hotspot.",
    "sync-not-paired": "The other side asks for its code. It shows one under Settings, Phones.",
    "sync-none-there": "Nobody there speaks version {version} of handing over. Is the app running there with --host, "
    "and as new as this one?",
    "sync-refused": "The other side refused ({status} {got}). What was exchanged before stays.",
    "sync-cut-off": "The connection broke off. What was exchanged stays: do it again, and it goes on from there.",
    "sync-unread": "What the other side said cannot be used ({key}). What was exchanged before stays.",
    "sync-no-answer": "No answer from {address}. Is it on, and on the same network? A page that came over https "
    "reaches only addresses of https.",
    "sync-address-unreadable": "{got} is no address. It must look like {must_be}.",
    "help-hand_over": "Hand over by a file, by the phone's own sharing, or over the network to the laptop. Whatever "
    "was handed over twice is kept once.",
    "help-visit_file": "Tap to share or save the file of this visit. On the other device open Take in a visit or a "
    "copy.",
    "help-take_in": "Choose the file that you were given. Afterwards the page says what was new, and what two devices "
    "say differently.",
    "help-sync": "Type the address and the code that the laptop shows. It may break off at any moment: begin again, "
    "and it goes on where it was.",
}
