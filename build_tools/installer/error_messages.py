"""
Turns what uv, pip, venv and npm print when they fail into one sentence that says what to do.

Knows their messages; runs nothing. What is not recognised is quoted, with the log that has the rest.
"""

import errno
import platform
import re
from pathlib import Path

from build_tools.environment.logs import Log

_FULL = re.compile(
    r"No space left on device|(Errno|os error) 28\b|ENOSPC|"
    r"Disk quota exceeded|(Errno|os error) 122\b|EDQUOT|disk is full",
    re.I,
)
_OFFLINE = re.compile(
    r"Failed to establish a new connection|NewConnectionError|ConnectTimeout|NameResolutionError|getaddrinfo|"
    r"Temporary failure in name resolution|Connection refused|Network is unreachable|ConnectionError|"
    r"error sending request|dns error|tcp connect error|operation timed out|failed to lookup address|"
    r"ProxyError|Read timed out|ReadTimeoutError|Connection aborted|ConnectionResetError|"
    r"ECONNREFUSED|ENOTFOUND|EAI_AGAIN|ETIMEDOUT|ECONNRESET|ENETUNREACH|EHOSTUNREACH|ERR_SOCKET_TIMEOUT",
    re.I,
)
_CERTIFICATE = re.compile(
    r"CERTIFICATE_VERIFY_FAILED|invalid peer certificate|SELF_SIGNED_CERT|UNABLE_TO_(GET|VERIFY)|CERT_HAS_EXPIRED", re.I
)

FULL = "The disk is full: free about {room} in {folder} and run the same command again."
OFFLINE = "{what} cannot be reached: check the network connection or proxy and run the same command again."
CERTIFICATE = (
    "{what} answers with a certificate that this machine does not trust: check its clock and, behind a "
    "company's proxy, tell {tool} that proxy's certificate; then run the same command again."
)
DISAGREE = (
    "package.json and package-lock.json do not agree: after changing package.json run  python3 -m build_tools lock."
)
ROOM = "1.5 GB"
_NO_BUILD = re.compile(
    r"(?:Because (?:there is no version of |only )?|No matching distribution found for )"
    r"([A-Za-z0-9_-]+(?:\.[A-Za-z0-9_-]+)*)"
)


def _of_the_machine(printed: str, what: str, tool: str, log: Log) -> str | None:
    """What the disk or the network lacks, if that is what a program complains of."""
    if _FULL.search(printed):
        return FULL.format(room=ROOM, folder=log.project)
    if _CERTIFICATE.search(printed):
        return CERTIFICATE.format(what=what, tool=tool)
    return OFFLINE.format(what=what) if _OFFLINE.search(printed) else None


def of_installing(printed: str, version: str, log: Log) -> str:
    """Why uv, or the pip that fetches uv, failed."""
    if lack := _of_the_machine(printed, "The Python package index", "pip", log):
        return lack
    if "DO NOT MATCH THE HASHES" in printed or "Hash mismatch" in printed:
        return (
            "The package index sent a file that is not the one requirements.lock names. Nothing was installed "
            f"from it; run the same command again, and if this stays, see {log}."
        )
    missing = _NO_BUILD.search(re.sub(r"\s+", " ", printed))
    if missing:
        return (
            f"The package index has no {missing[1]} for Python {version} on {platform.system()} "
            f"{platform.machine()}: use a CPython from 3.11 to 3.14."
        )
    return f"Installing Python packages failed: {_last(printed)} (more in {log}). Run the same command again."


def of_venv(printed: str, version: str, log: Log) -> str:
    """Why the virtual environment could not be made."""
    if _FULL.search(printed):
        return FULL.format(room=ROOM, folder=log.project)
    if "ensurepip" in printed:
        return of_incomplete_python(printed, (int(version.split(".")[0]), int(version.split(".")[1])))
    return f"Python {version} could not make a virtual environment: {_last(printed)} (more in {log})."


def of_npm(printed: str, log: Log) -> str:
    """Why npm failed."""
    if lack := _of_the_machine(printed, "The npm registry", "npm (NODE_EXTRA_CA_CERTS)", log):
        return lack
    if "EINTEGRITY" in printed:
        return (
            "The npm registry sent a file that is not the one package-lock.json names. Nothing of it was "
            f"used; run the same command again, and if this stays, see {log}."
        )
    if "EUSAGE" in printed:
        return DISAGREE
    return f"npm failed: {_last(printed)} (more in {log}). Run the same command again."


def of_incomplete_python(printed: str, version: tuple[int, int]) -> str:
    """What to install when a Python lacks the parts that make environments."""
    short = f"{version[0]}.{version[1]}"
    part = next((name for name in ("ensurepip", "venv", "ssl") if f"'{name}'" in printed), "ensurepip")
    family = _family()
    if part == "ssl" or not family & {"debian", "ubuntu"}:
        how = "install a complete Python 3.11 or newer, from python.org or your system's packages"
        if family & {"fedora", "rhel", "centos"}:
            how = f"run  sudo dnf install python{short}"
        if family & {"suse", "opensuse"}:
            how = f"run  sudo zypper install python{short.replace('.', '')}-base"
    else:
        how = f"run  sudo apt install python{short}-venv"
    return f"This Python {short} lacks its {part} part: {how}, and then the same command again."


def of_error(error: OSError, folder: Path) -> str:
    """An error of the system's own, while files were being written."""
    if _FULL.search(f"Errno {error.errno} {error.strerror}"):
        return FULL.format(room=ROOM, folder=folder)
    where = f" ({error.filename})" if error.filename else ""
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return (
            f"The right to write or run files is missing here{where}: put the project into a folder of your own and "
            "run the same command again."
        )
    return f"The system refused: {error.strerror or error}{where}. Mend that and run the same command again."


def _family() -> set[str]:
    """The Linux distribution and those it is derived from, as it calls itself; nothing elsewhere."""
    try:
        system = platform.freedesktop_os_release()
    except OSError:
        return set()
    return {system.get("ID", ""), *system.get("ID_LIKE", "").split()} - {""}


def _last(printed: str) -> str:
    """The line that most likely holds the reason; of uv's chain of causes, the first and the last."""
    lines = [line.strip() for line in printed.splitlines() if line.strip()]
    marked = [line for line in lines if re.match(r"(ERROR|Error|error:|npm error|OSError)", line)]
    causes = [line.removeprefix("cause: ") for line in lines if line.startswith("cause: ")]
    words = marked[:1] + causes[-1:] if marked else (lines or ["it said nothing"])[-1:]
    return ": ".join(words)[:300]
