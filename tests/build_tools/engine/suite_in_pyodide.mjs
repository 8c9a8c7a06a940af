// suite_in_pyodide.mjs: runs the calculators' own pytest suite in the page's Python runtime, under Node, and has it draw
// every card (tests/digests.py).
// Knows where the project, its pure test packages and those built for this runtime lie; knows no test.
import { writeFileSync } from "node:fs";
import { loadPyodide } from "pyodide";

const [project, packages, native, into, ...chosen] = process.argv.slice(2);
const env = { HOME: "/home/pyodide", PYTEST_DISABLE_PLUGIN_AUTOLOAD: "1", CI: process.env.CI ?? "" };
const python = await loadPyodide({ env });
for (const [place, folder] of Object.entries({ "/project": project, "/packages": packages, "/native": native })) {
  python.mountNodeFS(place, folder);
}
python.globals.set("chosen", python.toPy(chosen));
process.exitCode = python.runPython(`
import json, os, sys

sys.dont_write_bytecode = True  # this Python's files have no place in the other one's folders
sys.path[:0] = ["/project", "/native", "/packages"]
os.chdir("/project")

import pytest

from tests import digests

with open("/digests.json", "w") as file:
    json.dump(digests.digests(("card",)), file)

int(pytest.main(["-q", "-o", "cache_dir=/tmp/pytest", "-p", "_hypothesis_pytestplugin", *chosen]))
`);
writeFileSync(into, python.FS.readFile("/digests.json"));
