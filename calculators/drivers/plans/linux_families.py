"""Four families of Linux systems: how each handles packages, as commands and in words. Knows no step."""

from __future__ import annotations

from typing import NamedTuple

ADAPTERS = "lspci -nnk"
IN_KERNEL = (
    "Most cards run on a driver that comes with the kernel: then kernel, firmware and graphics library are the "
    "packages in question, and nothing of the maker's is needed."
)


class Packages(NamedTuple):
    """How one family of systems handles packages, as commands; empty where the family is not known."""

    fetch: tuple[str, ...]
    snapshot: tuple[str, ...]
    install: tuple[str, ...]
    rehearse: tuple[str, ...]
    remove: tuple[str, ...]
    left_behind: str
    built: tuple[str, ...]
    rebuild: tuple[str, ...]
    signing_key: tuple[str, ...]
    owner: tuple[str, ...]
    administrators: str
    older: str = (
        "The kernels stand in the list, or below its advanced options: choose the next older number, without the word "
        "recovery. The entry holds for this one start."
    )
    third_leg: str = "the older kernel in the start menu is the third leg."
    which_line: str = ""
    other_kernel: str = "the older kernel"
    why_older: str = (
        "An update mostly brings a new kernel, and the old one stays beside it with the driver that fitted it."
    )
    undo: str = "Install the version noted before, or start the older kernel from the start menu."
    whole: str = ""
    first_whole: str = ""
    waits: str = (
        "Wait until the package manager has ended, then ask: the first line must name the kernel that you will start."
    )
    newer_kernel: str = "A newer kernel came with it? Then write -k and its version right after modinfo."

    @property
    def with_manager(self) -> str:
        """What else is to be said where no package manager is known. [text]"""
        return "" if self.install else " Use your own package manager's words for it."


FAMILIES = {
    "debian": Packages(
        fetch=("sudo apt-get update", "sudo apt-get install --download-only --reinstall NEW_PACKAGE"),
        snapshot=("dpkg --get-selections > ~/packages-before.txt",),
        install=("sudo apt-get install --reinstall NEW_PACKAGE",),
        rehearse=(
            "apt-get --simulate purge OLD_PACKAGE",
            "apt-get --simulate autoremove OLD_PACKAGE",
            "dpkg --get-selections",
        ),
        remove=("sudo apt-get purge OLD_PACKAGE LEFT_BEHIND",),
        left_behind=(
            "The second line is only to be read, never run without --simulate: it can list parts of the "
            "desktop, and the older kernel that you may still need. In it and in the third list look for "
            "what the old driver brought: its kernel module (a name that ends in -dkms), its support and "
            "its modprobe package, all with the driver's name in theirs. Note these as LEFT_BEHIND."
        ),
        built=("dkms status", "modinfo -F signer MODULE", "mokutil --sb-state"),
        rebuild=("sudo update-initramfs -u -k all",),
        signing_key=("sudo mokutil --import /var/lib/dkms/mok.pub",),
        owner=('dpkg -S "$(modinfo -n MODULE)"',),
        administrators="sudo",
        older="Choose the advanced options, and there the entry with the next older number, without the word recovery. "
        "The entry holds for this one start.",
    ),
    "fedora": Packages(
        fetch=("sudo dnf install --downloadonly NEW_PACKAGE", "sudo dnf reinstall --downloadonly NEW_PACKAGE"),
        snapshot=("rpm -qa > ~/packages-before.txt",),
        install=("sudo dnf install NEW_PACKAGE", "sudo dnf reinstall NEW_PACKAGE"),
        rehearse=("sudo dnf remove --assumeno OLD_PACKAGE", "rpm -qa"),
        remove=("sudo dnf remove OLD_PACKAGE LEFT_BEHIND",),
        left_behind="In the second list look for what else bears the old driver's name: its module (akmod-, kmod-) and "
        "its support packages. Note these as LEFT_BEHIND.",
        built=("modinfo -F version MODULE", "modinfo -F signer MODULE", "mokutil --sb-state"),
        rebuild=("sudo dracut --force --regenerate-all",),
        signing_key=("sudo mokutil --import /etc/pki/akmods/certs/public_key.der",),
        owner=('rpm -qf "$(modinfo -n MODULE)"',),
        administrators="wheel",
        older="The kernels stand in the list itself, the newest on top: choose the next older one, and not the one "
        "called rescue. The entry holds for this one start.",
        which_line=" The first line is for a package that is not there yet, the second for one that is.",
        waits="Here the module is built in the background after the package manager has ended, which takes some "
        "minutes: repeat the first line until it names the version that you installed.",
    ),
    "arch": Packages(
        fetch=("sudo pacman -Syuw NEW_PACKAGE",),
        snapshot=("pacman -Q > ~/packages-before.txt",),
        install=("sudo pacman -Syu NEW_PACKAGE",),
        rehearse=("pacman -R --print OLD_PACKAGE", "pacman -Q"),
        remove=("sudo pacman -R OLD_PACKAGE LEFT_BEHIND",),
        left_behind="In the second list look for what else bears the old driver's name, its -dkms package above all. "
        "Note these as LEFT_BEHIND.",
        built=("dkms status", "modinfo -F signer MODULE", "mokutil --sb-state"),
        rebuild=("sudo mkinitcpio -P",),
        signing_key=("sudo mokutil --import /var/lib/dkms/mok.pub",),
        owner=('pacman -Qo "$(modinfo -n MODULE)"',),
        administrators="wheel",
        older="Here an upgrade replaces the kernel, so the list has another one only if you installed a second kind, "
        "such as linux-lts: choose that, or one called fallback if there is one. It holds for this one start.",
        third_leg="no older kernel is kept here, so the packages of before in /var/cache/pacman/pkg are the third leg: "
        "sudo pacman -U and their files' names put them back.",
        other_kernel="another kernel, if you installed one",
        why_older="A driver is built for each kernel; another one has its own, which may still fit.",
        undo="Put the versions noted before back: sudo pacman -U and their files in /var/cache/pacman/pkg.",
        whole=" Here that is a full upgrade: one package alone, taken newer than the rest, can leave the system unable "
        "to start.",
        first_whole=" But install nothing by itself before the full upgrade below.",
        newer_kernel="The upgrade brought a newer kernel? Then modinfo finds nothing: write -k and its version right "
        "after it.",
    ),
    "other": Packages(
        (),
        (),
        (),
        (),
        (),
        "Look also for the kernel module, support and modprobe packages that bear the old driver's name.",
        ("modinfo -F version MODULE", "modinfo -F signer MODULE", "mokutil --sb-state"),
        (),
        (),
        (),
        "wheel",
    ),
}
