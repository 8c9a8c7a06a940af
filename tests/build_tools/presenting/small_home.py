"""What stands in the small project that the live pages are tried with, and the marks of its takes."""

from __future__ import annotations

import json
from pathlib import Path

PROJECT = Path(__file__).parents[3]
ANSWER = """---
title: What do the numbers mean?
---
# What do the numbers mean?

/// short-answer
It waits {= memory.rate rate=3200 cas=16 -> latency_ns =}.
///

/// calculator | memory.rate
///
"""
SHEET = """---
title: The first one
recorded: 2026-10-02
summary: A summary.
invented: true
segments:
  - question: What do the numbers mean?
    viewer: otter-7
    answer: memory/numbers
    inputs: {rate: 3600, cas: 18}
  - start: "9:59"
    question: What is that ringing?
    viewer: anonymous
    referred: {to: a hearing specialist, why: That is not ours to judge.}
---
# The first one
"""


def marked(home, take=0):
    return dict(json.loads((home / ".presenter/takes/001.json").read_text("utf-8"))["takes"][take]["marks"])
