"""A file server that compresses like a good host does, keeps no one waiting for it, and counts what it sends."""

from __future__ import annotations

import gzip
import threading
from collections.abc import Mapping
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from build_tools.serving.site_server import TYPES

_PACKED = frozenset({".png", ".webp", ".woff2", ".zip", ".gz", ".bin", ".whl"})
CACHE = "max-age=3600"  # the same for everything that is measured


class Host:
    """Serves folders under prefixes, such as "/site/". Files are read and compressed once, before the clock runs."""

    def __init__(self, folders: Mapping[str, Path]) -> None:
        self.sent = 0
        self.lock = threading.Lock()
        self._files = {
            f"{prefix}{path.relative_to(folder).as_posix()}": self._packed(path)
            for prefix, folder in folders.items()
            for path in folder.rglob("*")
            if path.is_file()
            and "packed" not in path.parts
            and path.name not in ("site.zip", "offline.js", "offline.json")
        }
        host = self

        class Handler(BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"
            # As hosts do: head and body go out together, and nothing waits 40 ms for the last packet to be confirmed.
            disable_nagle_algorithm = True
            wbufsize = 1 << 16

            def do_GET(self) -> None:
                file = host._files.get(self.path.partition("?")[0])
                body, headers = file if file else (b"", {})
                self.send_response(200 if file else 404)
                for name, value in {**headers, "Content-Length": str(len(body)), "Cache-Control": CACHE}.items():
                    self.send_header(name, value)
                self.end_headers()
                self.wfile.write(body)
                self.wfile.flush()
                with host.lock:
                    host.sent += len(body)

            def log_message(self, format: str, *args: object) -> None:
                """Requests are no news."""

        class Server(ThreadingHTTPServer):
            def handle_error(self, request: object, client_address: object) -> None:
                """A browser that has heard enough hangs up; that is no fault."""

        self._server = Server(("127.0.0.1", 0), Handler)
        self._server.daemon_threads = True
        self.address = f"http://127.0.0.1:{self._server.server_port}"
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    def count(self) -> int:
        """The bytes of the bodies sent since the last call."""
        with self.lock:
            sent, self.sent = self.sent, 0
        return sent

    def close(self) -> None:
        """End serving."""
        self._server.shutdown()
        self._server.server_close()

    @staticmethod
    def _packed(path: Path) -> tuple[bytes, dict[str, str]]:
        data = path.read_bytes()
        headers = {"Content-Type": TYPES.get(path.suffix, "application/octet-stream")}
        if path.suffix in _PACKED:
            return data, headers
        return gzip.compress(data, 9), {**headers, "Content-Encoding": "gzip"}
