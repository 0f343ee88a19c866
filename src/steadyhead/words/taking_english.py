"""What is said in English where the app is made ready for a phone that takes it along."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "offline-step-parts": "Getting what the phone's app is made of.",
    "offline-step-compile": "Compiling it for the phone. This takes a minute.",
    "offline-step-lay-out": "Laying the folder out.",
    "offline-made": "{folder}: {sent} MB to fetch once, {whole} MB on the phone. Build {version}.",
    "offline-made-next": "Try it on this computer: steadyhead offline serve {folder}",
    "offline-no-tool": "{name} is not here, and the phone's app can't be made without it. Install Node.js, which "
    "brings node and npm, and pip; or make it on a computer that has them.",
    "offline-tool-failed": "{name} ended with an error ({code}): {said} Without a network, name folders with what it "
    "would fetch: --pyodide and --wheels.",
    "offline-part-missing": "{folder} lacks {name}.",
    "offline-part-other": "{name} in {folder} is not the one that this version is made of, or did not arrive whole.",
    "offline-folder-taken": "{folder} holds something else, which is left alone. Name a folder that is empty, or not "
    "there yet.",
    "offline-disk-full": "The disk is full. {folder} is as it was before.",
    "offline-cannot-write": "{folder} can't be written: {why}. It is as it was before.",
    "offline-no-site": "{folder} holds no app for a phone, or one that was changed since. Make it: "
    "steadyhead offline build {folder}",
    "offline-address": "The phone's app is handed out at {address} (Ctrl-C ends it)",
}
