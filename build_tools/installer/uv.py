"""
Brings uv, which installs everything else, and runs it. Knows pip's settings; knows no package but uv.

A bare Python has venv and, in it, pip: those install the one uv that requirements.lock names, hash and all. Everything
after that is uv's work. It takes packages from where pip on this machine takes them.
"""

import ast
import functools
import os
import re
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from build_tools.environment import children, locks, places, stamps
from build_tools.environment.logs import Log
from build_tools.environment.progress import Progress
from build_tools.environment.trouble import Trouble
from build_tools.installer import error_messages, locking, pythons

GROUP = "installer"
STAMP = "made-from.json"

# uv's variable for each of pip's settings. Where one holds several values, pip separates them by spaces.
_SETTINGS = {
    "index-url": "UV_DEFAULT_INDEX",
    "extra-index-url": "UV_INDEX",
    "find-links": "UV_FIND_LINKS",
    "no-index": "UV_NO_INDEX",
    "trusted-host": "UV_INSECURE_HOST",
    "keyring-provider": "UV_KEYRING_PROVIDER",
    "cert": "SSL_CERT_FILE",
    "client-cert": "SSL_CLIENT_CERT",
    "proxy": "ALL_PROXY",
    "timeout": "UV_HTTP_TIMEOUT",
    "default-timeout": "UV_HTTP_TIMEOUT",
    "no-cache-dir": "UV_NO_CACHE",
}
_PARTED_BY_COMMAS = frozenset({"find-links"})
_SWITCHES = frozenset({"no-index", "no-cache-dir"})
_OFF = frozenset({"", "0", "false", "no", "off"})


def folder(project: Path) -> Path:
    """The small environment that holds uv alone."""
    return places.cache(project) / "installer"


def program(project: Path) -> Path:
    """The path of the uv program, once it is installed."""
    return places.scripts(folder(project)) / ("uv.exe" if os.name == "nt" else "uv")


def _origin(project: Path) -> dict[str, object]:
    wanted = locking.sections((project / locking.FILE).read_text("utf-8"))[GROUP]
    return {"uv": stamps.digest(wanted), "python": list(sys.version_info[:3]), "folder": str(folder(project))}


def is_installed(project: Path) -> bool:
    """Whether the uv that requirements.lock names is installed."""
    return program(project).is_file() and stamps.read(folder(project) / STAMP) == _origin(project)


def install(project: Path, progress: Progress) -> None:
    """
    Installs uv with venv and pip, unless it is installed already.

    Raises:
        Trouble: This Python lacks a part, or uv cannot be had; the sentence says what to do.
    """
    if is_installed(project):
        return
    with locks.lock(folder(project).with_suffix(".lock"), progress) as held:
        if not is_installed(project):  # the command that we waited for may have done this
            with progress.step("Fetching uv, which installs the rest"):
                _install(project, [held])


def _install(project: Path, held: Sequence[int]) -> None:
    interpreter, into = pythons.this_interpreter(), folder(project)
    interpreter.look_for_parts()
    (into / STAMP).unlink(missing_ok=True)
    log = Log(project, "installer")
    status, printed = children.run([interpreter.path, "-I", "-m", "venv", "--clear", into], project, held=held)
    log.keep(printed)
    if status != 0:
        raise Trouble(error_messages.of_venv(printed, interpreter.version, log))
    listed = into / "wanted.txt"
    listed.write_text(locking.sections((project / locking.FILE).read_text("utf-8"))[GROUP], "utf-8")
    command: list[str | Path] = [places.python_of(into), "-I", "-m", "pip", "install", "--requirement", listed]
    command += ["--require-hashes", "--only-binary", ":all:", "--no-deps", "--no-input", "--progress-bar", "off"]
    command += ["--disable-pip-version-check", "--no-warn-script-location", "--retries", "1"]
    status, printed = children.run(command, project, held=held)
    log.keep(printed)
    if status != 0:
        raise Trouble(error_messages.of_installing(printed, interpreter.version, log))
    stamps.write(into / STAMP, _origin(project))


def run(project: Path, arguments: Sequence[str | Path], held: Sequence[int] = ()) -> tuple[int, str]:
    """Runs uv, which must be installed, and returns its exit status and what it printed."""
    return children.run([program(project), *arguments], project, variables=variables(project), held=held)


def run_by_the_index(project: Path, arguments: Sequence[str | Path]) -> tuple[int, str]:
    """
    Runs uv on the main index alone, for locking.

    A further index or a folder of this machine may hold one file of a package where the main index has one for every
    Python: the lock file would then name that one, and no other Python could install it.
    """
    known = {name: value for name, value in variables(project).items() if name not in ("UV_INDEX", "UV_FIND_LINKS")}
    return children.run([program(project), *arguments], project, variables=known)


def variables(project: Path) -> dict[str, str]:
    """The variables that uv is started with: pip's settings put in uv's words, unless uv has settings of its own."""
    fixed = {
        # As pip does: any index may have a package. Which file is taken is decided by its hash.
        "UV_INDEX_STRATEGY": "unsafe-best-match",
        "UV_SYSTEM_CERTS": "1",  # as pip does
        "UV_NO_PROGRESS": "1",
        "UV_PYTHON_DOWNLOADS": "never",
        "UV_HTTP_RETRIES": "1",
    }
    return {**fixed, **_cache(project), **from_pip(_listed(folder(project))), **children.clean_environment()}


@functools.cache
def _listed(environment: Path) -> str:
    """pip's settings, as it lists them."""
    command: list[str | Path] = [places.python_of(environment), "-I", "-m", "pip", "config", "list"]
    return children.run(command, environment)[1]


def from_pip(listed: str) -> dict[str, str]:
    """
    uv's variables for what `pip config list` prints.

    Args:
        listed: Lines such as `global.index-url='…'`. A setting from an environment variable wins over one for `pip
            install`, and that over one for all of pip's commands.
    """
    settings: dict[str, str] = {}
    for section in ("global", "install", ":env:"):
        for match in re.finditer(rf"^{section}\.([a-z-]+)=(.+)$", listed, re.MULTILINE):
            name, value = match[1], str(ast.literal_eval(match[2])).strip()
            if name not in _SETTINGS or (name in _SWITCHES and value.lower() in _OFF):
                settings.pop(_SETTINGS.get(name, ""), None)
            elif name in _SWITCHES:
                settings[_SETTINGS[name]] = "1"
            elif value:
                settings[_SETTINGS[name]] = (" ", ",")[name in _PARTED_BY_COMMAS].join(value.split())
            else:
                settings.pop(_SETTINGS[name], None)
    return settings


def _cache(project: Path, given: Mapping[str, str] = os.environ) -> dict[str, str]:
    """uv's cache folder: the user's own, by no variable; where that cannot be written, one of the project's."""
    if os.name != "posix":
        return {}
    place = Path(given.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "uv"
    while not place.exists() and place != place.parent:
        place = place.parent
    return {} if os.access(place, os.W_OK) else {"UV_CACHE_DIR": str(places.cache(project) / "uv")}
