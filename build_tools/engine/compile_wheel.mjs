// compile_wheel.mjs: has pyodide-build write a wheel's lock file and byte-compile the wheel, in the page's own Python under
// Node. So the byte code fits the page's Python, and the result is the same whichever Python builds the site.
// Knows the two commands and where things lie; knows nothing of what is in the wheel.
import { loadPyodide } from "pyodide";

const { tools, folder, wheel } = JSON.parse(process.argv[2]);
const env = {
  HOME: "/home/pyodide",
  SOURCE_DATE_EPOCH: "315532800", // the first moment that a zip entry can hold, for every entry
};
const python = await loadPyodide({ env, args: ["-OO"] }); // no docstrings and no assertions, as in the kept memory
python.mountNodeFS("/tools", tools);
python.mountNodeFS("/wheels", folder);
python.globals.set("wheel", wheel);
const commands = `
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, "/tools")

from pyodide_build.cli.py_compile import main as py_compile
from pyodide_lock.cli import main as lockfile

lock = "/wheels/pyodide-lock.json"
# What the commands are called with in a terminal: pyodide lockfile add-wheels, pyodide py-compile.
lockfile(["add-wheels", f"/wheels/{wheel}", "--input", lock, "--output", lock], standalone_mode=False)
# Deflated by the runtime's own zlib, which is the same machine code everywhere.
py_compile(["--silent", "--compression-level", "9", "/wheels"], standalone_mode=False)
`;
try {
  python.runPython(commands);
} catch (error) {
  console.error(error.message); // Node itself would print the whole of the runtime's program, which is one line
  process.exitCode = 1;
}
