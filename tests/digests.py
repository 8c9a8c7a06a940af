"""
A digest of every calculator's answers: what each Python, and the page's runtime, must give byte for byte.

Needs the standard library alone, so that any Python can run it: python3 tests/digests.py
"""

from __future__ import annotations

import hashlib
import json
import sys
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))  # as a script it sees its own folder alone

from calculators.catalogue import find, names
from calculators.door import answer
from tests.random_inputs import random_inputs

BY_CHANCE, SEED = 10, 20261126  # so many random inputs a calculator
RENDERINGS = "html,text,json,link"


def digests(wanted: tuple[str, ...] = (RENDERINGS, "card")) -> dict[str, str]:
    """For every common case and some random inputs the SHA-256 of each rendering asked for."""
    return {
        f"{name} {inputs} as {each}": hashlib.sha256(answer(name, inputs, each).encode()).hexdigest()
        for name in names()
        for inputs in _asked(name)
        for each in wanted
    }


def _asked(name: str) -> Iterator[str]:
    calculator = find(name)
    for inputs in (*(each.inputs for each in calculator.presets), *random_inputs(calculator, BY_CHANCE, SEED)):
        yield json.dumps(dict(inputs))


if __name__ == "__main__":
    print(json.dumps(digests()))
