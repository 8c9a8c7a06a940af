"""Starts the commands. Written so that even a very old Python can read it and say what is missing."""

import os
import sys

if sys.version_info < (3, 11):
    newer = [
        name
        for name in ("python3.14", "python3.13", "python3.12", "python3.11")
        for folder in os.environ.get("PATH", "").split(os.pathsep)
        if folder and os.access(os.path.join(folder, name), os.X_OK)
    ]
    how = "install one, from python.org or your system's packages, and run the same command with it."
    if newer:
        how = "run  %s -m build_tools %s" % (newer[0], " ".join(sys.argv[1:]))
    sys.stderr.write("This is Python %d.%d, and Python 3.11 or newer is needed: %s\n" % (sys.version_info[:2] + (how,)))
    sys.exit(1)

sys.path.insert(0, os.path.dirname(os.path.dirname(os.path.abspath(__file__))))

from build_tools.commands import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
