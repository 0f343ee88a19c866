"""What the pages say in English by which phones join over the local network."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "join": "Phones",
    "join-head": "Let a phone in",
    "join-scan": "Scan this with the phone's camera, or open the address there, and type the code.",
    "join-address": "Address",
    "join-code": "Code",
    "join-holds": "It lets one phone in, within {minutes} min.",
    "join-new-code": "New code",
    "join-no-tls": "Nothing is encrypted on the way: on a Wi-Fi that strangers use, one of them could read along, and "
    "do what the phone may do. Use your own phone's hotspot there.",
    "join-phones": "Phones that joined",
    "join-none": "None yet.",
    "join-nameless": "A phone without a name",
    "join-since": "since {when}, for {hours} h at most",
    "join-revoke": "Let {name} in no more",
    "join-off-head": "Phones can't join now",
    "join-off": "The app serves this computer alone. Stop it, and start it with: steadyhead app --host",
    "join-here-only-head": "Only at the computer itself",
    "join-here-only": "Who may join is seen and changed at the computer that the app runs on.",
    "join-ask-head": "Ask for the code",
    "join-ask": "Somebody at the computer that the app runs on can read it to you: Settings, then Phones.",
    "join-your-name": "Your name, for what you write down",
    "join-enter": "Join",
    "join-wrong": "That code does not let you in. Ask for a new one.",
    "join-this-phone": "This phone",
    "join-as": "It joined as {name}.",
    "join-as-nobody": "It joined without a name.",
    "join-leave": "Leave",
    "app-join-address": "Phones join at {address} with the code {code}, within {minutes} min. New codes: {page}",
    "app-join-no-tls": "Nothing is encrypted on the way: use a network that you trust, or your own hotspot.",
    "app-address-not-here": "This computer has no address {got} on a local network. One of its own must be named.",
    "app-no-address": "This computer is on no local network that it knows of. Where it is on one, name its address: "
    "steadyhead app --host --address 192.168.1.5",
    "app-address-is-all": "{got} is no single address. Name the one on which phones reach this computer.",
}
