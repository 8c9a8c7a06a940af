"""
The tags of a step: what machines read of it, so that rules can be held against every plan.

A tag is a word, or a kind and a thing with a colon between. Here stands what each means; nothing here knows
a system or a plan.
"""

from __future__ import annotations

from collections.abc import Iterable

from calculators.desk.answer import Step

MEANING = {
    "tries": "a short action that may be all that is needed, with a way back",
    "moves:cables": "changes only an outside cable, a socket or what the display itself is set to",
    "goes_back": "puts back what was there before",
    "reads": "only looks; nothing changes, so there is nothing to undo",
    "needs:admin": "asks for an administrator's rights",
    "needs:console": "typed in a console, so one must have been opened since the last start",
    "needs:at_machine": "asks for hands or eyes at the machine itself",
    "needs:driver_file": "the new driver must be on this machine's disk before",
    "needs:old_package": "the old driver must be saved to a folder before",
    "needs:restore_point": "a restore point, or what stands in for it, must be confirmed before",
    "needs:password": "an administrator's password must have been tried before",
    "needs:power_off": "mains off, unplugged and discharged before",
    "gives:backup": "files that must not be lost are on another disk",
    "gives:key": "the disk's recovery key can be read away from this machine",
    "gives:photos": "the firmware's settings are photographed, the disk mode among them",
    "gives:driver_file": "the new driver is on this machine's disk, its signature checked",
    "gives:old_package": "the old driver is saved to a folder",
    "gives:restore_point": "there is a restore point, or what stands in for it",
    "gives:password": "an administrator's password has been tried and works",
    "gives:extra_account": "there is an administrator's account made for this repair",
    "gives:suspended": "the disk's protection is suspended for a counted number of restarts",
    "gives:held_off": "the system cannot install a driver by itself",
    "gives:safe_start": "the system runs in its safe start",
    "gives:safe_start_repeats": "every start is a safe start until that is switched off",
    "gives:power_off": "mains off, unplugged and discharged",
    "gives:enrolment_asked": "the next start asks at the screen to enrol a signing key",
    "gives:enrolment": "the signing key is enrolled",
    "ends:extra_account": "the account made for this repair is gone again",
    "ends:suspended": "the disk's protection is on again",
    "ends:held_off": "the system may install drivers by itself again",
    "ends:safe_start": "the system starts as usual",
    "ends:safe_start_repeats": "no start is a safe start unless asked for",
    "ends:power_off": "the machine is under power again",
    "matches:key": "the recovery key is compared with its key number",
    "installs:driver": "puts a driver in place",
    "removes:driver": "takes a driver away",
    "removes:settings": "moves hand-made display settings out of the way",
    "sets:display": "changes a display setting, which the system takes back unless confirmed",
    "sets:defaults": "puts tuned settings back to their defaults",
    "touches:card": "hands inside the machine, on the card or its leads",
    "touches:disk": "hands inside the machine, on a disk",
    "restarts": "the system starts anew: once for each step that says so",
    "takes_picture": "the picture may go away",
    "takes_network": "the network goes away",
    "asks_for_key": "with an encrypted disk, the next start may ask for the recovery key",
    "starts:elsewhere": "starts from another medium than the system's disk",
    "asks:second_device": "says how to come by a second device or a password before going on without",
    "last_resort": "only when every other way is closed",
    "checks:card": "which card is there",
    "checks:driver": "which driver it runs on",
    "checks:module": "that a kernel module is built, and signed where secure boot asks for it",
    "checks:makers_page": "what the machine's own maker offers for it",
    "checks:version": "which version of that driver",
    "checks:logo": "whether the firmware's logo is seen",
    "checks:restore_point": "that the restore point is really there",
    "checks:protection": "that the disk's protection is on",
    "notes:key_number": "one line to note the key's number by hand, never the key",
    "notes:package": "one line to note the package's name by hand",
    "notes:version": "one line to note the driver's version by hand",
    "notes:restore_point": "one line to note the restore point's name by hand",
    "notes:account": "one line to note the account's name by hand, never its password",
    "reports": "what to tell those who can help further",
}


def restarts(steps: Iterable[Step]) -> int:
    """
    How often the system starts anew in these steps.

    Args:
        steps: Steps in any order. [list]

    Returns:
        The count. [1]

    Source:
        Arithmetic: a count of tags.

    Example:
        >>> restarts([Step(key="a", title="Restart", do=("Restart.",), tags=("restarts",))])
        1
    """
    return sum("restarts" in step.tags for step in steps)


def minutes(steps: Iterable[Step]) -> tuple[float, float]:
    """
    The least and the most time that these steps take together.

    Args:
        steps: Steps in any order; one without a time counts nothing. [list]

    Returns:
        Least and most. [min], [min]

    Source:
        Arithmetic: sums. Each step's own times are common practice, no source.

    Example:
        >>> minutes([Step(key="a", title="Wait", do=("Wait.",), minutes=(1, 3))])
        (1, 3)
    """
    spans = [step.minutes for step in steps if step.minutes]
    return sum(low for low, _ in spans), sum(high for _, high in spans)
