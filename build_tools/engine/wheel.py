"""
A pure wheel of one package: the same files give the same bytes, on every machine and every day.

Knows the wheel format (PyPA binary distribution format, versions 1.0 and 1.1) and zip files; knows no calculator.
"""

from __future__ import annotations

import base64
import hashlib
import io
import zipfile
from collections.abc import Iterator
from pathlib import Path

_EARLIEST = (1980, 1, 1, 0, 0, 0)  # the first moment that a zip entry can hold
_PLAIN_FILE = 0o100644 << 16  # a regular file that everyone may read, in the upper half of the zip attribute


def source_files(package: Path) -> Iterator[tuple[str, Path]]:
    """The files of a package that go to readers, as (name inside the wheel, path), sorted by name."""
    found = {
        f"{package.name}/{path.relative_to(package).as_posix()}": path
        for path in package.rglob("*")
        if path.is_file() and path.suffix in {".py", ".json"} and "__pycache__" not in path.parts
    }
    yield from sorted(found.items())


def make_wheel(package: Path, version: str) -> tuple[str, bytes]:
    """
    Pack one package folder.

    Args:
        package: The folder to pack; its name becomes the distribution's name.
        version: The distribution's version, in the form of PEP 440.

    Returns:
        The wheel's file name and its bytes.
    """
    stem = f"{package.name}-{version}"
    entries = [(name, path.read_bytes().replace(b"\r\n", b"\n")) for name, path in source_files(package)]
    info = f"{stem}.dist-info"
    entries.append((f"{info}/METADATA", f"Metadata-Version: 2.1\nName: {package.name}\nVersion: {version}\n".encode()))
    entries.append(
        (f"{info}/WHEEL", b"Wheel-Version: 1.0\nGenerator: build_tools\nRoot-Is-Purelib: true\nTag: py3-none-any\n")
    )
    record = "".join(f"{name},sha256={_digest(data)},{len(data)}\n" for name, data in entries)
    entries.append((f"{info}/RECORD", f"{record}{info}/RECORD,,\n".encode()))

    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        for name, data in entries:
            entry = zipfile.ZipInfo(name, _EARLIEST)
            entry.create_system = 3  # the same on every system: otherwise the byte tells where it was built
            entry.external_attr = _PLAIN_FILE
            # Stored, not deflated: zlib's output differs between its versions, and hosts compress what they send.
            entry.compress_type = zipfile.ZIP_STORED
            archive.writestr(entry, data)
    return f"{stem}-py3-none-any.whl", packed.getvalue()


def _digest(data: bytes) -> str:
    return base64.urlsafe_b64encode(hashlib.sha256(data).digest()).rstrip(b"=").decode()
