"""The viewer's situation: the inputs of drivers.reset, with the few questions that plan and diagnosis ask of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

SYSTEMS = ("windows", "linux")
FAMILIES = ("debian", "fedora", "arch", "other")
CHANGES = ("same_maker", "other_maker", "moved_card", "moved_system", "none")
TROUBLES = ("none", "no_picture", "crashes", "wrong_settings", "installer_fails")
YES_NO_UNSURE = ("yes", "no", "unsure")
YES_NO = ("yes", "no")
MACHINES = ("desktop", "two_chips", "laptop")
CARDS = ("same_maker", "other_maker", "moved_card")  # changes of a card, as against of a disk or of nothing

# Every input with every value it can take, in the order of the form: the tests walk through all combinations.
ANSWERS = {
    "system": SYSTEMS,
    "family": FAMILIES,
    "change": CHANGES,
    "trouble": TROUBLES,
    "logo": YES_NO_UNSURE,
    "other_picture": YES_NO,
    "encrypted": YES_NO_UNSURE,
    "secure_boot": YES_NO_UNSURE,
    "password": YES_NO,
    "network": YES_NO,
    "at_the_machine": YES_NO,
    "admin": YES_NO,
    "machine": MACHINES,
}


class Situation(NamedTuple):
    """One value for each input, as it was understood."""

    system: str
    family: str
    change: str
    trouble: str
    logo: str
    other_picture: str
    encrypted: str
    secure_boot: str
    password: str
    network: str
    at_the_machine: str
    admin: str
    machine: str = "desktop"

    @property
    def windows(self) -> bool:
        """Whether the system is the one with the drive letters."""
        return self.system == "windows"

    @property
    def locked_disk(self) -> bool:
        """Whether to reckon with an encrypted disk: 'not sure' counts as yes."""
        return self.encrypted != "no"

    @property
    def sees(self) -> bool:
        """Whether there is a picture of the running system to work with."""
        return self.other_picture == "yes" or (self.trouble != "no_picture" and self.logo != "no")

    @property
    def laptop(self) -> bool:
        """Whether it is a machine whose card is not one to change."""
        return self.machine == "laptop"

    @property
    def shows_after_all(self) -> bool:
        """Whether no logo is said to be seen, though what goes wrong can be seen only on a picture."""
        return self.logo == "no" and self.trouble != "no_picture" and not self.idle and not self.refuses_a_card

    @property
    def dark_from_the_start(self) -> bool:
        """Whether no picture comes at all, not even the firmware's."""
        return self.logo == "no" and self.trouble == "no_picture"

    @property
    def idle(self) -> bool:
        """Whether nothing changed and nothing is wrong."""
        return self.change == "none" and self.trouble == "none"

    @property
    def opens_the_case(self) -> bool:
        """Whether card or disk is still to be moved: a change without trouble lies ahead, one with trouble behind."""
        return self.change != "none" and self.trouble == "none"

    @property
    def refuses_a_card(self) -> bool:
        """Whether a card is to be changed in a machine that is not made for it."""
        return self.laptop and self.trouble == "none" and self.change in CARDS

    @property
    def enrols(self) -> bool:
        """Whether a signing key may have to be enrolled at the screen: modules that the system's maker did not sign."""
        return not self.windows and self.secure_boot != "no"


def situation(values: Mapping[str, str]) -> Situation:
    """The situation in the values of the form."""
    return Situation(*(values[key] for key in Situation._fields))
