"""Compresses what a good host would compress, for those who take it. Knows media types and gzip; knows no files."""

from __future__ import annotations

import gzip
import threading
from collections import OrderedDict

# By ending. What is compressed already (pictures, fonts, archives) would only grow.
PACKED = frozenset({".css", ".html", ".js", ".json", ".map", ".mjs", ".svg", ".txt", ".wasm", ".xml"})
SMALLEST = 600  # bytes; below, the head of the answer is most of it
LEVEL = 6  # gzip's own usual one, and most hosts'
KEPT = 96_000_000  # bytes of compressed files kept


def takes_gzip(accepted: str) -> bool:
    """
    Whether an Accept-Encoding header allows gzip.

    Args:
        accepted: The header's value, empty where there is none. [text]

    Returns:
        True if it does. [bool]

    Source:
        RFC 9110, as we remember it: a weight of 0 forbids, * stands for what is not named.

    Example:
        >>> takes_gzip("br, gzip;q=0.5"), takes_gzip("gzip;q=0"), takes_gzip("")
        (True, False, False)
    """
    weights = {}
    for part in accepted.lower().split(","):
        name, _, rest = part.partition(";")
        key, _, weight = rest.partition("=")
        try:
            weights[name.strip()] = float(weight) if key.strip() == "q" else 1.0
        except ValueError:
            weights[name.strip()] = 0.0
    return weights.get("gzip", weights.get("*", 0.0)) > 0


def packed(body: bytes) -> bytes:
    """The body compressed: the same bytes for the same body."""
    return gzip.compress(body, LEVEL, mtime=0)


class CompressedFiles:
    """Compressed files, so that each is compressed once. The ones not asked for longest go first."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._files: OrderedDict[tuple[str, str], bytes] = OrderedDict()
        self._size = 0

    def packed(self, name: str, tag: str, body: bytes) -> bytes:
        """The body of the file of that name and state, compressed."""
        with self._lock:
            if (name, tag) in self._files:
                self._files.move_to_end((name, tag))
                return self._files[name, tag]
        made = packed(body)
        with self._lock:
            if (name, tag) not in self._files:
                self._files[name, tag] = made
                self._size += len(made)
            while self._size > KEPT and len(self._files) > 1:
                self._size -= len(self._files.popitem(last=False)[1])
        return made
