"""
What a system said of its display adapters, as facts: the same for every system, whoever read it.

Holds numbers and file names only: descriptions, serial parts and whatever else was pasted stay behind.
"""

from __future__ import annotations

from typing import NamedTuple

WORKS, STOPPED, LENT, UNTOLD = "works", "stopped", "lent", "untold"


class Adapter(NamedTuple):
    """
    One display adapter.

    vendor, device: PCI numbers in hexadecimal, '' where it sits on no PCI bus. driver: the package's or module's name,
    '' where none is in use or none is told. basic: it is told to run on the system's basic fallback, or on nothing.
    state: works, stopped, lent (handed to a virtual machine) or untold. problem: the system's problem number.
    candidates: further drivers that would serve it. version: the driver's version, where the list of adapters has it.
    placed: whether the list tells where it sits.
    """

    vendor: str
    device: str
    driver: str
    basic: bool
    state: str
    problem: int | None = None
    candidates: tuple[str, ...] = ()
    version: str = ""
    placed: bool = True

    @property
    def driver_known(self) -> bool:
        """Whether what was pasted tells this adapter's driver, or that it has none."""
        return bool(self.driver) or self.basic


class Package(NamedTuple):
    """A display driver in the system's store: its name there, the name it came with, its date and version."""

    name: str
    original: str
    date: str
    version: str


class Listing(NamedTuple):
    """
    Everything found in what was pasted.

    adapters: None where no list of devices was in it. packages, loaded: None where no such list was in it. gone: how
    many adapters the system remembers that are no longer connected.
    """

    system: str
    adapters: tuple[Adapter, ...] | None
    packages: tuple[Package, ...] | None = None
    loaded: frozenset[str] | None = None
    gone: int = 0
