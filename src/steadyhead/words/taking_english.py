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
    "take": "Take it with you",
    "take-note": "The whole app on the phone, for where there is no signal.",
    "take-what": "A phone can hold the whole app and work with no signal. It has a record of its own there; a visit "
    "goes from one to the other as a file.",
    "take-put": "Put it on this phone",
    "take-try": "Try it on this computer",
    "take-size": "{mb} MB come over once.",
    "take-step-open": "Tap the button and wait until the app has started.",
    "take-step-icon": "In the browser's menu choose Add to Home Screen, now: what is a tab alone may be erased after "
    "some days.",
    "take-step-try": "Open it from its icon once while you are here. Then switch to airplane mode and open it again: "
    "it must start.",
    "take-phones": "Phones put it on from {address}",
    "take-plain-head": "Not kept from this address",
    "take-plain": "A phone's browser keeps an app only from a secure address: one that begins with https, with a "
    "certificate that the phone trusts. This computer is reached by plain http, so the phone would lose the app as it "
    "leaves.",
    "take-ways": "What to do instead",
    "take-way-website": "A website of your own with https: put the folder's files there, and open its address on the "
    "phone. This is the easiest.",
    "take-way-certificate": "Whoever runs your network gives this computer a name and a certificate that your phones "
    "trust. Then stop the app, and start it with: steadyhead app --host --phone DIR --name NAME --certificate FILE "
    "--key FILE",
    "take-way-file": "Until then: work on this computer's app while the phone reaches it, and take a visit along as a "
    "file.",
    "take-none-head": "Not made ready yet",
    "take-none": "Somebody at the computer makes it once. It takes Node.js there, a network, and some minutes: "
    "steadyhead offline build phone",
    "take-none-start": "Then stop the app, and start it with: steadyhead app --host --phone phone",
    "take-is-here-head": "It is here already",
    "take-is-here": "This is the phone's own app. It needs no network.",
    "app-phone-address": "Phones keep the whole app from {address}",
    "app-phone-plain": "A phone will not keep the app from a plain http address. What to do: {page}",
    "app-secure-together": "--name, --certificate and --key go together, with --host: the name is the one that the "
    "certificate is made out to.",
    "app-secure-unusable": "The certificate and the key can't be used: {why}",
    "app-name-strange": "{got} is no name of a computer. It must be like pumps.example.com.",
    "offline-address": "The phone's app is handed out at {address} (Ctrl-C ends it)",
}
