"""
A process that answers desks and run sheets, one line of JSON each way, until its input ends. Knows no request.

    python -m build_tools.presenting.worker

What it has read of calculators and tools stays read: workers.py ends it once a file of theirs has changed.
"""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path


def main() -> None:
    """Answers until the input ends, or until a request meets a fault that may lie in what has been read."""
    with os.fdopen(os.dup(sys.stdout.fileno()), "w", encoding="utf-8") as replies:
        os.dup2(sys.stderr.fileno(), sys.stdout.fileno())  # whatever prints meanwhile is no reply
        for line in sys.stdin:
            try:
                from build_tools.presenting.answers import reply

                answer, whole = reply(Path.cwd(), json.loads(line)), True
            except Exception as fault:  # a calculator that is being written may fail in any way
                answer = {"errors": [{"input": "", "message": f"This could not be worked out: {fault!r}."}]}
                whole = False
            replies.write(json.dumps(answer, ensure_ascii=True) + "\n")
            replies.flush()
            if not whole:
                return


if __name__ == "__main__":
    main()
