"""Photos of a visit: add one, all of them, one of them with what it shows, and its bytes.

Rules
-----
1. A photo is taken by the phone's own camera, which the person opens: nothing here asks for a permission.
2. Where scripts run, the browser makes a photo small before it sends it; where not, it comes as it is. Either way only
   the picture is kept (`steadyhead.service.photos.cleaned`).
3. A picture is served as what its first bytes said, is never taken for anything else, and runs nothing.
4. A photo is as found until a repair was made, unless the form says otherwise.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.photos import add_photo, correct_photo, photo_bytes, remove_photo
from steadyhead.service.record.views import Beside, VisitSeen
from steadyhead.visit.check_keys import STAGES
from steadyhead.visit.fact_kinds import AS_FOUND, AS_LEFT, SHOWS
from steadyhead.visit.nearest import shown
from steadyhead.web.forms import Form, read_file, read_form
from steadyhead.web.pages.shared import Shop, go_to, local_whole, says
from steadyhead.web.pages.storage import room_here
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

#: What a photo's file is called, by its type.
ENDINGS = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp"}
#: Words of a form that leads on elsewhere than to the photos, and where.
ONWARD = {"first-minute": "first-minute?at=fault", "plate": "plate"}


async def every(shop: Shop, request: Request) -> Response:
    """Show the photos of a visit, and the form for one more."""
    seen = shop.visit(request)
    asked = request.query_params
    typed = {"shows": asked.get("shows", ""), "stage": asked.get("stage", ""), "says": ""}
    values = _values(shop, seen, typed, asked.get("then", ""))
    return shop.page(request, "photos.html", shop.speaker_for(seen), values)


async def keep(shop: Shop, request: Request) -> Response:
    """Keep a photo, or say why not."""
    seen, sent = shop.visit(request), await read_file(request)
    typed = _typed(sent.form)
    of = seen.system_id if typed["shows"] == "plate" else None
    try:
        add_photo(shop.given, seen.id, sent.table, of=of, preview=sent.preview, token=sent.form.fact(), **typed)
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**_values(shop, seen, typed, sent.form.text("then")), "problem": says(error, speaker)}
        return shop.refused(request, "photos.html", speaker, values)
    return go_to(f"/visits/{seen.id}/{ONWARD.get(sent.form.text('then'), 'photos')}")


async def one(shop: Shop, request: Request) -> Response:
    """Show one photo, large, with what it shows."""
    seen = shop.visit(request)
    photo = _photo(seen, request)
    values = _one(shop, seen, photo, {key: str(photo.body.get(key, "")) for key in ("shows", "stage", "says")})
    return shop.page(request, "photo.html", shop.speaker_for(seen), values)


async def correct(shop: Shop, request: Request) -> Response:
    """Keep other words for a photo, or erase it."""
    seen, form = shop.visit(request), await read_form(request)
    photo = _photo(seen, request)
    if form.text("out"):
        remove_photo(shop.given, seen.id, photo.id)
        return go_to(f"/visits/{seen.id}/photos")
    typed = _typed(form)
    try:
        correct_photo(shop.given, seen.id, photo.id, typed, token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**_one(shop, seen, photo, typed), "problem": says(error, speaker)}
        return shop.refused(request, "photo.html", speaker, values)
    return go_to(f"/visits/{seen.id}/photos")


async def picture(shop: Shop, request: Request) -> Response:
    """Return a photo's bytes, as what they are."""
    visit, photo = str(request.path_params["visit"]), str(request.path_params["photo"])
    blob = photo_bytes(shop.given, visit, photo, small=bool(request.query_params.get("small")))
    name = f"photo-{photo}.{ENDINGS[blob.media_type]}"
    headers = {"Content-Disposition": f'inline; filename="{name}"'}
    return Response(blob.data, media_type=blob.media_type, headers=headers)


def photo_lines(seen: VisitSeen, speaker: Speaker) -> list[dict[str, str]]:
    """Return the photos of a visit as a list shows them, the last first."""
    return [photo_line(seen.id, seen.zone, photo, speaker) for photo in reversed(seen.photos)]


def photo_line(visit: str, zone: str, photo: Beside, speaker: Speaker) -> dict[str, str]:
    """Return a photo of a visit as a list shows it."""
    at = local_whole(photo.at, zone, speaker)
    here = f"/visits/{visit}/photos/{photo.id}"
    what = caption(photo.body, speaker)
    return {
        "href": here,
        "picture": f"{here}/picture",
        "small": f"{here}/picture?small=yes",
        "what": what or speaker.tell("photos-alt-nothing"),
        "alt": speaker.tell("photos-alt", what=what) if what else speaker.tell("photos-alt-nothing"),
        "when": speaker.tell("photos-taken-by", at=at, author=photo.author) if photo.author else at,
    }


def caption(body: Mapping[str, Any], speaker: Speaker) -> str:
    """Return what is said of a photo: its few words, what it shows, before or after; empty where nothing is."""
    shows, stage = str(body.get("shows", "")), str(body.get("stage", ""))
    parts = (
        speaker.printable(str(body.get("says", ""))),
        speaker.name("shows", shows) if shows in SHOWS else "",
        speaker.name("stage", stage) if stage in STAGES else "",
    )
    return sentence(", ".join(part for part in parts if part))


def _typed(form: Form) -> dict[str, str]:
    return {key: form.text(key) for key in ("shows", "stage", "says")}


def _photo(seen: VisitSeen, request: Request) -> Beside:
    """Return the photo that an address names.

    Raises
    ------
    NotFoundError
        The visit has none of that id.
    """
    id_ = str(request.path_params["photo"])
    found = next((photo for photo in seen.photos if photo.id == id_), None)
    if found is None:
        raise NotFoundError(message("entity-unknown", got=shown(id_)))
    return found


def _values(shop: Shop, seen: VisitSeen, typed: Mapping[str, str], then: str) -> dict[str, Any]:
    speaker = shop.speaker_for(seen)
    usual = AS_LEFT if seen.actions else AS_FOUND
    held = {**typed, "stage": typed["stage"] or usual}
    return {
        "seen": seen, "title": shop.name_of(seen), "photos": photo_lines(seen, speaker), "problem": "",
        "room": room_here(shop), "then": then if then in ONWARD else "",
        **_asked(held, speaker),
    }  # fmt: skip


def _one(shop: Shop, seen: VisitSeen, photo: Beside, typed: Mapping[str, str]) -> dict[str, Any]:
    speaker = shop.speaker_for(seen)
    line = photo_line(seen.id, seen.zone, photo, speaker)
    return {"seen": seen, "title": shop.name_of(seen), "photo": line, "problem": "", **_asked(typed, speaker)}


def _asked(typed: Mapping[str, str], speaker: Speaker) -> dict[str, Any]:
    """Return what a form asks of a photo, with what was chosen."""
    return {
        "says": typed["says"],
        "shows": [(word, sentence(speaker.name("shows", word)), word == typed["shows"]) for word in SHOWS],
        "stages": [(word, sentence(speaker.name("stage", word)), word == typed["stage"]) for word in STAGES],
    }
