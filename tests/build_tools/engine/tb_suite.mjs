// suite_in_pyodide.mjs: runs the calculators' own pytest suite in the page's Python runtime, under Node, and has it draw
// every card (tests/digests.py).
// Knows where the project, its pure test packages and those built for this runtime lie; knows no test.
import { writeFileSync } from "node:fs";
import { loadPyodide } from "pyodide";

const [project, packages, native, into, ...chosen] = process.argv.slice(2);
const env = { HOME: "/home/pyodide", PYTEST_DISABLE_PLUGIN_AUTOLOAD: "1", CI: process.env.CI ?? "", MORE: process.env.MORE ?? "" };
globalThis.T=(l)=>{const u=process.cpuUsage();console.error(l,((u.user+u.system)/1e6).toFixed(2))};T("begin");const python = await loadPyodide({ env });
for (const [place, folder] of Object.entries({ "/project": project, "/packages": packages, "/native": native })) {
  python.mountNodeFS(place, folder);
}
python.globals.set("chosen", python.toPy(chosen));
process.exitCode = python.runPython(`
import json, os, sys, js, time
js.T("loaded")

sys.dont_write_bytecode = True  # this Python's files have no place in the other one's folders
sys.path[:0] = ["/project", "/native", "/packages"]
os.chdir("/project")

import pytest

from tests import digests

with open("/digests.json", "w") as file:
    json.dump(digests.digests(("card",)), file)


js.T("digests")
class P:
    def pytest_collection_finish(self, session): js.T("collected %d"%len(session.items))
    def __init__(self): self.t={}
    def pytest_runtest_logreport(self, report):
        f=report.nodeid.split("::")[0]; a=self.t.setdefault(f,[0,0,0]); a[0]+=report.duration; a[1]+=report.when=="call"; a[2]+=report.duration*(report.when=="call")
    def pytest_sessionfinish(self, session):
        js.T("ran"); print("sum of durations",sum(v[0] for v in self.t.values()),"calls",sum(v[2] for v in self.t.values()))
        for f,v in sorted(self.t.items(),key=lambda x:-x[1][0])[:25]: print("%.2f %d %.2f %s"%(v[0],v[1],v[2],f))
int(pytest.main(["-q", "-o", "cache_dir=/tmp/pytest", "-p", "_hypothesis_pytestplugin", *chosen, *os.environ.get("MORE","").split()],plugins=[P()]))
`);
writeFileSync(into, python.FS.readFile("/digests.json"));
