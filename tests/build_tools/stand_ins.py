"""Stand-ins for programs that a machine may have."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

posix = pytest.mark.skipif(os.name != "posix", reason="the stand-ins are shell scripts")


def script(file: Path, text: str) -> Path:
    """A program that is a shell script."""
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(f"#!/bin/sh\n{text}\n", "utf-8")
    file.chmod(0o755)
    return file
