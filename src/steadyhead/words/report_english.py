"""What the page that reports a problem says, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "report": "Report a problem",
    "report-note": "Nothing is sent by itself. You read the report here, then you share, copy or save it, and send it "
    "to whoever looks after this app.",
    "report-words": "What did you do, and what happened?",
    "report-words-note": "Names, telephone numbers and e-mail addresses that the record knows are blanked. Leave out "
    "what nobody else should read.",
    "report-put-in": "Put my words in",
    "report-all": "The whole report",
    "report-all-note": "Versions, pages without their names or numbers, and how the app answered. No reading, no name, "
    "no address, no photo.",
    "report-share": "Share it",
    "report-copy": "Copy it",
    "report-copied": "Copied.",
    "report-save": "Save it as a file",
}
