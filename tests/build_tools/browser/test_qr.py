"""
The QR code of the page: its library against another's modules. Reference: qrcode-generator, an independent program for
the same standard (ISO/IEC 18004). Each chooses among the standard's eight masks by itself, so the library is asked for
each, and one must equal the reference's code in every module.
"""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

from build_tools.environment import places

RUN = """
import { encode } from "uqr";
import qrcode from "qrcode-generator";
const { text } = JSON.parse(process.argv[1]);
const ours = [...Array(8).keys()].map(mask => encode(text, { ecc: "L", border: 0, maskPattern: mask }));
const theirs = qrcode((ours[0].size - 17) / 4, "L");
theirs.addData(text, "Byte");
theirs.make();
const side = [...Array(ours[0].size).keys()];
const differ = ours.map(({ data }) => side.flatMap(y => side.filter(x => theirs.isDark(y, x) !== data[y][x])).length);
const chosen = encode(text, { ecc: "L", border: 0 });
console.log(JSON.stringify({ differ, size: ours[0].size, chosen: chosen.data, mask: chosen.maskPattern }));
"""
LINK = "https://answers.example/answers/drivers/start-clean.html#drivers.reset:change=other_maker&trouble=none"


def codes(project: Path, text: str) -> dict[str, Any]:
    """What the page's library draws for a text, and in how many modules each mask differs from the reference."""
    command = [str(places.node(project)), "--no-warnings", "--input-type=module", "--eval", RUN]
    command.append(json.dumps({"text": text}))
    done = subprocess.run(command, cwd=project, capture_output=True, text=True, encoding="utf-8")
    assert done.returncode == 0, done.stderr
    found: dict[str, Any] = json.loads(done.stdout)
    return found


@pytest.mark.parametrize("text", ["a", "hello world", LINK, LINK + "&done=" + "abc123" * 12, "y" * 700, "z" * 1900])
def test_one_of_the_eight_masks_is_the_reference_in_every_module(project: Path, text: str) -> None:
    found = codes(project, text)
    assert found["differ"].count(0) == 1
    assert found["size"] >= 21
    assert 0 <= found["mask"] <= 7
