"""Starts the commands. Written so that even a very old Python can read it and say what is missing."""

# ruff: noqa: UP031 - old Pythons know no other way to put a value into a text

import os
import sys

OLDEST = (3, 11)


def newer_python():
    """Name of a Python on the path that is new enough, or None. No search beyond the usual names."""
    for minor in (14, 13, 12, 11):
        name = "python3.%d" % minor
        for folder in os.environ.get("PATH", "").split(os.pathsep):
            if os.access(os.path.join(folder, name), os.X_OK):
                return name
    return None


if sys.version_info < OLDEST:
    found = newer_python()
    sys.stderr.write(
        "This is Python %d.%d, and Python 3.11 or newer is needed: %s\n"
        % (
            sys.version_info[0],
            sys.version_info[1],
            "run  %s -m build_tools %s" % (found, " ".join(sys.argv[1:]))
            if found
            else "install one, from python.org or your system's packages, and run this again with it.",
        )
    )
    sys.exit(1)

sys.path.insert(0, os.path.dirname(os.path.dirname(os.path.abspath(__file__))))

from build_tools.commands import main  # noqa: E402

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
