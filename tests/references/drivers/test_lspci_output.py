"""
What lspci really prints, read by drivers.which. Reference: lspci of pciutils, fed with a made-up bus by its option
-F, so that no display adapter need be in the machine.
"""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from calculators.drivers.which import read_list

PROGRAM = shutil.which("lspci", path="/usr/bin:/bin:/usr/sbin:/sbin")
if PROGRAM is None:
    pytest.skip("lspci is not installed here (Debian: pciutils)", allow_module_level=True)


def printed(*arguments: str) -> str:
    assert PROGRAM
    done = subprocess.run([PROGRAM, *arguments], capture_output=True, text=True, timeout=60, check=True)
    return done.stdout


def dump(slot: str, vendor: int, device: int, base: int, sub: int) -> str:
    """One device's first 64 bytes as lspci -x prints them. PCI Local Bus Specification, configuration header."""
    header = bytearray(64)
    header[0:2], header[2:4] = vendor.to_bytes(2, "little"), device.to_bytes(2, "little")
    header[10], header[11] = sub, base
    rows = [f"{i:02x}: " + " ".join(f"{b:02x}" for b in header[i : i + 16]) for i in range(0, 64, 16)]
    return "\n".join([f"{slot} made up", *rows, ""])


def test_a_made_up_bus_is_read_as_it_was_made(tmp_path: Path):
    bus = tmp_path / "bus.txt"
    parts = [
        dump("00:02.0", 0xB2B2, 0x0002, 3, 0),
        dump("00:1f.3", 0xB2B2, 0x0003, 4, 3),
        dump("01:00.0", 0xA1A1, 0x0001, 3, 2),
        dump("02:00.0", 0xA1A1, 0x0005, 3, 0x80),
    ]
    bus.write_text("\n".join(parts))
    said = read_list(printed("-F", str(bus), "-nn"))
    assert said.adapters is not None
    assert [(a.vendor, a.device) for a in said.adapters] == [("b2b2", "0002"), ("a1a1", "0001"), ("a1a1", "0005")]
    assert not any(a.driver_known for a in said.adapters), (
        "a list made without k says nothing of drivers, not even 'none'"
    )


def test_without_numbers_the_right_option_is_named(tmp_path: Path):
    bus = tmp_path / "bus.txt"
    bus.write_text(dump("01:00.0", 0xA1A1, 0x0001, 3, 0))
    with pytest.raises(ValueError, match="lspci -nnk"):
        read_list(printed("-F", str(bus)))


def test_the_list_of_this_machine_is_known_for_one():
    assert known(printed("-nnk"))


def known(text: str) -> bool:
    """Read as a list of devices: with a display adapter in it, or said to be without."""
    try:
        return bool(read_list(text).adapters)
    except ValueError as problem:
        return "none of them is a display adapter" in str(problem)
