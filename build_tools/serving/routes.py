"""What a route is, and routes that give a script of this room, bundled when it is first asked for. Knows no page."""

from __future__ import annotations

import hashlib
from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from build_tools.bundling.on_demand import OnDemand
from build_tools.environment import places
from build_tools.serving.doorkeeper import only_read

PREFIX = "/_serving/"
# A worker has no page whose policy would bind it, so each script says for itself what it may do.
SCRIPT_HEADERS = {"Content-Security-Policy": "default-src 'none'; connect-src 'self'"}

Route = Callable[[Request], Awaitable[Response]]
_PAGES = Path(__file__).with_name("pages")
_ENTRIES = ("listen", "reload", "sharing")


@dataclass(frozen=True, slots=True)
class Extension:
    """What is served beside the site, handed in by the command that starts both."""

    routes: Mapping[str, Route] = field(default_factory=dict)
    into_page: Callable[[bytes], bytes] = lambda page: page  # puts a script into each HTML page that is served
    announcement: Callable[[str], str] = lambda address: ""  # a line for the terminal, of the server's address
    close: Callable[[], None] = lambda: None


def script(name: str) -> Route:
    """A route that gives the script of this name."""

    async def give(request: Request) -> Response:
        only_read(request)
        body = await run_in_threadpool(_scripts().read, name)
        return Response(body, media_type="text/javascript", headers=SCRIPT_HEADERS)

    return give


@cache
def _scripts() -> OnDemand:
    room = _PAGES.relative_to(places.PROJECT).as_posix()
    return OnDemand("serving", {name: f"{room}/{name}.ts" for name in _ENTRIES}, _state)


def _state() -> str:
    """A digest of the scripts' sources and of what bundles them, by which a bundle is known to be out of date."""
    made_of = [places.PROJECT / "build_tools" / "bundling" / "bundle.mjs", *sorted(_PAGES.glob("*.ts"))]
    return hashlib.sha256(b"\0".join(path.read_bytes() for path in made_of)).hexdigest()[:20]
