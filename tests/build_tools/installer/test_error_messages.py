"""What uv, pip, venv and npm print when they fail, and the one sentence that is made of it."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from build_tools.environment.logs import Log
from build_tools.installer import error_messages

LOG = Log(Path("/home/me/answers"), "uv")
FULL = "The disk is full: free about 1.5 GB in /home/me/answers and run the same command again."
NO_INDEX = (
    "The Python package index cannot be reached: check the network connection or proxy and run the same command again."
)
# As uv 0.13 printed them, with other names.
UV = "error: Request failed\n  cause: Failed to fetch: http://index.example/a/\n  cause: {}\n  cause: {}\n"
UV_UNSOLVED = "error: No solution found when resolving dependencies\n  cause: Because {}, we can conclude that ...\n"
NO_REGISTRY = NO_INDEX.replace("Python package index", "npm registry")


@pytest.mark.parametrize(
    ("printed", "sentence"),
    [
        ("ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device\n", FULL),
        ("OSError: [Errno 122] Disk quota exceeded: '/home'", FULL),
        (
            (
                "WARNING: Retrying after connection broken by "
                "'NewConnectionError(... [Errno 111] Connection refused')'\n"
                "ERROR: No matching distribution found for mkdocs==1.6.1\n"
            ),
            NO_INDEX,
        ),
        ("NameResolutionError: Failed to resolve: Temporary failure in name resolution", NO_INDEX),
        ("ReadTimeoutError: Read timed out. (read timeout=15)", NO_INDEX),
        ("ProxyError('Cannot connect to proxy.')", NO_INDEX),
        (
            "ERROR: No matching distribution found for scipy==1.17.1\n",
            "The package index has no scipy for Python 3.15.0 on ",
        ),
        (
            (
                "SSLCertVerificationError(1, '[SSL: CERTIFICATE_VERIFY_FAILED] certificate verify failed')\n"
                "NewConnectionError"
            ),
            "The Python package index answers with a certificate that this machine does not trust: ",
        ),
        (
            "ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE.",
            "The package index sent a file that is not the one requirements.lock names.",
        ),
        (UV.format("tcp connect error", "Connection refused (os error 111)"), NO_INDEX),
        (UV.format("dns error", "failed to lookup address information: Name or service not known"), NO_INDEX),
        (
            UV.format("client error (Connect)", "invalid peer certificate: UnknownIssuer"),
            "The Python package index answers with a certificate that this machine does not trust: ",
        ),
        (UV.format("failed to write to file", "No space left on device (os error 28)"), FULL),
        (
            "error: Failed to download `a==1`\n  cause: Hash mismatch for `a==1`\n\n   Expected:\n     sha256:00\n",
            "The package index sent a file that is not the one requirements.lock names.",
        ),
        (
            UV_UNSOLVED.format("there is no version of lone==1.0 and you require lone==1.0"),
            "The package index has no lone for Python 3.15.0 on ",
        ),
        (
            UV_UNSOLVED.format("numpy==2.4.6 has no usable wheels and you require numpy==2.4.6"),
            "The package index has no numpy for Python 3.15.0 on ",
        ),
        (
            UV_UNSOLVED.format("ruamel.yaml was not found in the provided package locations and you require it"),
            "The package index has no ruamel.yaml for Python 3.15.0 on ",
        ),
        (
            UV.format("one thing", "the last thing"),
            f"Installing Python packages failed: error: Request failed: the last thing (more in {LOG}).",
        ),
        (
            "Collecting x\nERROR: something new\n  more of it\n",
            f"Installing Python packages failed: ERROR: something new (more in {LOG}).",
        ),
        ("", f"Installing Python packages failed: it said nothing (more in {LOG})."),
    ],
)
def test_uv_and_the_pip_that_fetches_it(printed: str, sentence: str) -> None:
    told = error_messages.of_installing(printed, "3.15.0", LOG)
    assert told.startswith(sentence)
    assert "\n" not in told


@pytest.mark.parametrize(
    ("printed", "sentence"),
    [
        ("npm error code ENOSPC\nnpm error nospc There appears to be insufficient space", FULL),
        ("npm error code ECONNREFUSED\nnpm error network request failed", NO_REGISTRY),
        ("npm error code ENOTFOUND", NO_REGISTRY),
        ("npm error code EAI_AGAIN", NO_REGISTRY),
        ("npm error code SELF_SIGNED_CERT_IN_CHAIN", "The npm registry answers with a certificate"),
        ("npm error code EINTEGRITY", "The npm registry sent a file that is not the one package-lock.json names."),
        ("npm error code EUSAGE", "package.json and package-lock.json do not agree: "),
        ("npm error code EOTHER\nnpm error more", f"npm failed: npm error code EOTHER (more in {LOG})."),
    ],
)
def test_npm(printed: str, sentence: str) -> None:
    told = error_messages.of_npm(printed, LOG)
    assert told.startswith(sentence)
    assert "\n" not in told


@pytest.mark.parametrize(
    ("family", "how"),
    [
        ({"debian"}, "run  sudo apt install python3.12-venv, and"),
        ({"ubuntu", "debian"}, "run  sudo apt install python3.12-venv, and"),
        ({"fedora"}, "run  sudo dnf install python3.12, and"),
        ({"opensuse", "suse"}, "run  sudo zypper install python312-base, and"),
        (set(), "install a complete Python 3.11 or newer, from python.org or your system's packages, and"),
    ],
)
def test_a_python_without_ensurepip(monkeypatch: pytest.MonkeyPatch, family: set[str], how: str) -> None:
    monkeypatch.setattr(error_messages, "_family", lambda: family)
    told = error_messages.of_incomplete_python("ModuleNotFoundError: No module named 'ensurepip'", (3, 12))
    assert told == f"This Python 3.12 lacks its ensurepip part: {how} then the same command again."


def test_a_python_without_ssl_is_not_mended_by_a_venv_package(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(error_messages, "_family", lambda: {"debian"})
    told = error_messages.of_incomplete_python("ModuleNotFoundError: No module named '_ssl' ... 'ssl'", (3, 12))
    assert told.startswith("This Python 3.12 lacks its ssl part: install a complete Python 3.11 or newer")


@pytest.mark.parametrize(
    ("error", "sentence"),
    [
        (OSError(errno.ENOSPC, "No space left on device"), "The disk is full: free about 1.5 GB in /p and run"),
        (
            PermissionError(errno.EACCES, "Permission denied", "/p/site"),
            "The right to write or run files is missing here (/p/site): put the project into a folder of your own",
        ),
        (
            OSError(errno.EROFS, "Read-only file system", "/p/.cache"),
            "The right to write or run files is missing here (/p/.cache): ",
        ),
        (OSError(errno.EIO, "Input/output error", "/p/site"), "The system refused: Input/output error (/p/site). Mend"),
    ],
)
def test_the_systems_own_errors(error: OSError, sentence: str) -> None:
    assert error_messages.of_error(error, Path("/p")).startswith(sentence)
