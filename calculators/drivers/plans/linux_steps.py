"""
Steps under Linux, for four families of systems: what to do, why, what to see, and how to go back. One step a key.

Written for Debian 12 and 13, Fedora 41 to 43 and Arch of 2026, with their standard start menu and service
manager; 'other' gets the same steps without package commands. Commands: from their manual pages, listed in
tests/check_values/linux_commands.toml and run in tests/references/drivers where a container allows it; the rest
from memory. Last checked 2026-11-24.
NEW_PACKAGE, OLD_PACKAGE and LEFT_BEHIND stand for names that the reader fills in, MODULE for the driver's module.
"""

from __future__ import annotations

from calculators.desk.answer import Step
from calculators.drivers.plans.linux_families import FAMILIES
from calculators.drivers.plans.linux_looking import looking
from calculators.drivers.plans.linux_packages import packages
from calculators.drivers.plans.linux_starting import starting
from calculators.drivers.plans.shared_steps import SHARED, table


def linux_steps(family: str) -> dict[str, Step]:
    """
    The steps for one family of systems.

    Args:
        family: debian, fedora, arch or other. [text]

    Returns:
        The steps by key; the same keys and tags for every family. [mapping]

    Raises:
        KeyError: There is no such family.

    Source:
        Manual pages named in tests/check_values/linux_commands.toml; the rest from memory.

    Example:
        >>> linux_steps("debian")["remove"].commands[0]
        'sudo apt-get purge OLD_PACKAGE LEFT_BEHIND'
    """
    own = FAMILIES[family]
    return SHARED | table((*looking(own), *packages(own), *starting(own)))
