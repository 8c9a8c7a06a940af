"""
The page that ours is measured against: the unchanged runtime in a module worker, and the calculators as one wheel.

Frozen: it changes only with the runtime's release, so that figures from different days can be compared.
"""

from __future__ import annotations

import hashlib
import json
import shutil
from pathlib import Path

from build_tools.engine.wheel import make_wheel

PAGE = """<!doctype html><meta charset="utf-8"><title>plain</title>
<input id="rate" value="3600"><output id="out"></output>
<script>
const worker = new Worker("worker.mjs", { type: "module" });
const ask = () => worker.postMessage(document.getElementById("rate").value);
worker.onmessage = ({ data }) => {
  document.getElementById("out").innerHTML = data;
  window.first ??= performance.now();
  window.answered?.();
};
document.getElementById("rate").addEventListener("input", ask);
ask();
</script>
"""

WORKER = """import { loadPyodide } from "./pyodide.mjs";
const ready = loadPyodide({ packageBaseUrl: new URL("./", self.location.href).href, packages: ["calculators"] })
  .then(python => python.pyimport("calculators.door").answer);
self.onmessage = async ({ data }) => {
  const answer = await ready;
  self.postMessage(JSON.parse(answer("memory.rate", JSON.stringify({ rate: data }), "html", "p")).html);
};
"""


def write(project: Path, into: Path) -> None:
    """Write the page with all that it needs into a folder."""
    into.mkdir(parents=True, exist_ok=True)
    runtime, engine = project / "node_modules" / "pyodide", project / "docs" / "made" / "engine"
    for name in ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip"):
        shutil.copy(runtime / name, into / name)
    name, wheel = make_wheel(project / "calculators", "1")
    (into / name).write_bytes(wheel)
    lock = json.loads((engine / "pyodide-lock.json").read_text("utf-8"))
    lock["packages"]["calculators"] |= {"file_name": name, "sha256": hashlib.sha256(wheel).hexdigest()}
    (into / "pyodide-lock.json").write_text(json.dumps(lock), "utf-8")
    (into / "index.html").write_text(PAGE, "utf-8")
    (into / "worker.mjs").write_text(WORKER, "utf-8")
