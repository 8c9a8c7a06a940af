"""What a route is, and routes that give a script of this room. Knows no other room."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from starlette.requests import Request
from starlette.responses import Response

from build_tools.serving.doorkeeper import only_read

PREFIX = "/_serving/"
# A worker has no page whose policy would bind it, so each script says for itself what it may do.
SCRIPT_HEADERS = {"Content-Security-Policy": "default-src 'none'; connect-src 'self'"}

Route = Callable[[Request], Awaitable[Response]]
_HERE = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Beside:
    """What is served beside the site, handed in by the command that starts both."""

    routes: Mapping[str, Route] = field(default_factory=dict)
    into_page: Callable[[bytes], bytes] = lambda page: page
    told: Callable[[str], str] = lambda address: ""  # a line for the terminal, of the server's address
    close: Callable[[], None] = lambda: None


def script(*names: str) -> Route:
    """A route that gives these scripts, one after the other, as one."""

    async def give(request: Request) -> Response:
        only_read(request)
        body = b"\n".join((_HERE / name).read_bytes() for name in names)
        return Response(body, media_type="text/javascript", headers=SCRIPT_HEADERS)

    return give
