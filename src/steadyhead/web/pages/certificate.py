"""The certificate of a sensor check: behind the door, as a page, as PDF, and as a file to be shared."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.documents.laid import Values
from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.papers.certificate import certificate
from steadyhead.service.papers.checked import check_of_record
from steadyhead.service.papers.kinds import certificate_in_words, look_of
from steadyhead.service.record.check_pages import CheckSeen, earlier_checks
from steadyhead.web.pages.papers import as_file, as_pdf, setting_asked, shown
from steadyhead.web.pages.sensor_check import think_of_check
from steadyhead.web.pages.shared import Shop


async def paper(shop: Shop, request: Request) -> Response:
    """Show the certificate of a sensor check."""
    seen = shop.check(request)
    address = f"/sensor-checks/{seen.id}"
    return shown(shop, request, await _laid(shop, seen, request), f"{address}/certificate", f"{address}/figures")


async def pdf(shop: Shop, request: Request) -> Response:
    """Return the certificate as PDF, or say that this home has none."""
    seen = shop.check(request)
    return await as_pdf(shop, request, await _laid(shop, seen, request), seen.id)


async def file(shop: Shop, request: Request) -> Response:
    """Return the certificate as one file that any browser opens."""
    return as_file(shop, await _laid(shop, shop.check(request), request))


async def _laid(shop: Shop, seen: CheckSeen, request: Request) -> Values:
    """Return the certificate in words.

    Raises
    ------
    NotFoundError
        Nothing can be told of the check yet: there is nothing to certify.
    """
    looked = (await think_of_check(shop, seen)).looked
    if looked is None:
        raise NotFoundError(message("paper-check-problems"))
    checked = check_of_record(seen, looked, earlier_checks(shop.given, seen.told.run.serial))
    made = certificate(checked)
    return certificate_in_words(made, checked, shop.manner, look_of(made, shop.manner, **setting_asked(shop, request)))
