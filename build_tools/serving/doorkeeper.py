"""
Who may ask what: every rule about hosts, origins, tokens and bodies, as functions that refuse. Knows no route.

What is trusted, and why, stands in DEVELOPERS.md under 'What the served site trusts'. A refusal always ends its
connection: what the other side has sent behind a refused request is never read as a request of its own.
"""

from __future__ import annotations

import secrets
from typing import Any

from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response

from build_tools.serving.json_bodies import read_object

TOKEN = "Run-Token"
NAMES = ("127.0.0.1", "localhost")
# Enough of a refused body is read for the other side to hear the answer; the rest falls with the connection.
READ_AWAY = 65_536


class Refused(Exception):
    """A request that is not answered, with the status and the sentence that say why."""

    def __init__(self, status: int, sentence: str) -> None:
        super().__init__(sentence)
        self.status = status
        self.sentence = sentence


def hosts(port: int) -> frozenset[str]:
    """What the Host header of a request to us reads."""
    return frozenset(f"{name}:{port}" for name in NAMES) | (frozenset(NAMES) if port == 80 else frozenset())


def look_at(request: Request, port: int) -> None:
    """
    What every request must satisfy, whatever it asks for.

    Raises:
        Refused: A foreign host or origin, a page elsewhere that asks for more than to be led here, a body where none
            belongs or whose end is not told beforehand, or a method that nothing here knows.
    """
    given = request.headers
    host = given.getlist("host")
    # A name of somebody else's that leads to this machine is how a page elsewhere would get past the browser.
    if len(host) != 1 or host[0].lower() not in hosts(port):
        raise Refused(403, "This server answers on the loopback address only.")
    for origin in given.getlist("origin"):
        if origin.lower() != f"http://{host[0].lower()}":
            raise Refused(403, "This server answers its own pages only.")
    if request.method not in ("GET", "HEAD", "POST"):
        raise Refused(405, "Nothing here is done that way.")
    # One way to tell a body's length, so that nobody can take the end of one request for the beginning of another.
    if "transfer-encoding" in given:
        raise Refused(411, "A request must tell its length beforehand.")
    if request.method != "POST" and given.get("content-length", "0") != "0":
        raise Refused(400, "Only what is posted has a body.")
    if len(given.getlist("sec-fetch-site")) > 1 or not _may_come(request):
        raise Refused(403, "This server answers its own pages only.")


def _may_come(request: Request) -> bool:
    """A page elsewhere may lead a reader to a page of ours. It may not use our files, frame our pages or post here."""
    given = request.headers
    if given.get("sec-fetch-site", "none") in ("none", "same-origin"):
        return True
    leads = given.get("sec-fetch-mode") == "navigate" and given.get("sec-fetch-dest") == "document"
    return leads and request.method in ("GET", "HEAD")


def only_read(request: Request) -> None:
    """
    For what takes nothing.

    Raises:
        Refused: Something is posted to it.
    """
    if request.method == "POST":
        raise Refused(405, "Nothing here takes that.")


def must_be_own_page(request: Request) -> None:
    """
    For what only our own pages need.

    Raises:
        Refused: The browser does not say that one of our own pages asks.
    """
    if request.headers.get("sec-fetch-site") != "same-origin":
        raise Refused(403, "This server answers its own pages only.")


def must_be_typed_or_own(request: Request) -> None:
    """
    For pages that carry the run's token: opened by hand, by a mixing program, or from our own pages.

    Raises:
        Refused: A page elsewhere leads here, or the browser does not say who does.
    """
    came = request.headers.get("sec-fetch-site")
    if came != "same-origin" and not (came == "none" and request.headers.get("sec-fetch-mode") == "navigate"):
        raise Refused(
            403,
            "Open this page by typing its address: no page elsewhere may lead to it, and a browser must say who does.",
        )


def must_carry(request: Request, token: str) -> None:
    """
    For what changes something or shows what is the presenter's.

    Raises:
        Refused: It does not come from our own page by all three signs: origin, browser's word, token of this run.
    """
    must_be_own_page(request)
    if "origin" not in request.headers:  # which one it is was looked at already
        raise Refused(403, "This server answers its own pages only.")
    if not secrets.compare_digest(request.headers.get(TOKEN, "").encode(), token.encode()):
        raise Refused(403, "This page belongs to an earlier run of the server. Load it again.")


async def body_of(request: Request, largest: int) -> bytes:
    """
    What was posted.

    Raises:
        Refused: It is longer than the largest, or its length is not told.
    """
    length = request.headers.get("content-length", "")
    if not (length.isascii() and length.isdigit()):
        raise Refused(411, "A request must tell its length beforehand.")
    if len(length) > 12 or int(length) > largest:
        raise Refused(413, f"That is more than {largest} bytes.")
    try:
        return await request.body()
    except ClientDisconnect:
        raise Refused(400, "The request broke off.") from None


async def refuse(request: Request, refused: Refused) -> Response:
    """The answer to a refused request. Reads a little of what belongs to it, and ends the connection."""
    length = request.headers.get("content-length", "")
    if length.isascii() and length.isdigit() and len(length) < 8 and int(length) <= READ_AWAY:
        try:
            async for _ in request.stream():
                pass
        except (ClientDisconnect, RuntimeError):  # gone, or read already
            pass
    return Response(
        refused.sentence + "\n", refused.status, {"Connection": "close", "Cache-Control": "no-store"}, "text/plain"
    )


async def object_of(request: Request, largest: int) -> dict[str, Any]:
    """
    The JSON object that a request holds.

    Raises:
        Refused: It is said to be something else, too large, or not such an object.
    """
    if request.headers.get("content-type", "").partition(";")[0].strip().lower() != "application/json":
        raise Refused(415, "Only JSON is taken here.")
    try:
        return read_object(await body_of(request, largest))
    except ValueError as problem:
        raise Refused(400, f"{problem}.") from None
