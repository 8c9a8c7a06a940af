"""
The same few things in Chromium, in Firefox and in WebKit, each as Debian has it.

`python3 -m build_tools browsers` installs and tries all three; an ordinary run tries Chromium this way alone, since the
others take a minute more and are not on every machine.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import time
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from build_tools.installer.testing import OTHER_BROWSERS
from calculators.door import answer
from tests.browser import other_browsers
from tests.browser.conftest import Host

PAGE = "answers/bench/one.html"
SAVING_S = 60
LAST_OF_A_PNG = b"IEND\xaeB`\x82"
# For every script: waits until something is seen; puts a rate in as somebody types it; what the first calculator shows.
HELPERS = """
const wait = async (what, see) => {
  const end = Date.now() + 90_000;
  for (;;) {
    const seen = see();
    if (seen) return seen;
    const says = document.body.innerText.slice(0, 600);
    if (Date.now() > end) throw new Error(`waited in vain for ${what}; the page says: ${says}`);
    await new Promise(resolve => setTimeout(resolve, 50));
  }
};
const section = document.querySelector("section.wa-calculator");
// The card stands in a tree of its own, which a plain search does not enter.
const all = (wanted, within = document) => [...within.querySelectorAll("*")].flatMap(each =>
  [...(each.matches(wanted) ? [each] : []), ...(each.shadowRoot ? all(wanted, each.shadowRoot) : [])]);
const headline = () => section.querySelector(".wa-headline").textContent;
const settled = text => wait(text, () => headline().includes(text) && !section.classList.contains("wa-stale") &&
  section.querySelector(".wa-result").getAttribute("aria-busy") !== "true");
const put = async value => {
  const input = await wait("the form", () => document.querySelector("fieldset:enabled input[name=rate]"));
  input.value = String(value);
  input.dispatchEvent(new Event("input", { bubbles: true }));
  await settled(String(value));
};
const shown = () => [...section.querySelectorAll(":scope > .wa-outcome .wa-result, :scope > .wa-details")].map(part => {
  const copy = part.cloneNode(true);
  for (const fold of copy.querySelectorAll("details[data-fold]")) {
    fold.removeAttribute("open");
    fold.setAttribute("open", "");
  }
  return copy.innerHTML;
}).join("");
const written = html => { const box = document.createElement("output"); box.innerHTML = html; return box.innerHTML; };
"""


@pytest.fixture(scope="module", params=["chromium", *other_browsers.OTHERS])
def other(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[other_browsers.Other]:
    name = request.param
    if name != "chromium" and not os.environ.get(OTHER_BROWSERS):
        pytest.skip("python3 -m build_tools browsers  tries this one")
    work = tmp_path_factory.mktemp(name)
    if name == "chromium":
        opening = other_browsers.chromium(work, request.getfixturevalue("browser").browser_type)
    else:
        opening = other_browsers.opened(name, work)
    with opening as opened:
        yield opened


@pytest.fixture(scope="module")
def own_folder(bench_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that a reader has after unpacking site.zip."""
    into = tmp_path_factory.mktemp("unpacked")
    with zipfile.ZipFile(bench_folder / "site.zip") as archive:
        archive.extractall(into)
    return into / "worked-answers"


def is_pythons(browser: other_browsers.Other, rate: str) -> None:
    """What stands in the page after typing is what Python makes here, to the byte."""
    html = json.loads(answer("memory.rate", json.dumps({"rate": rate, "cas": "16"}), "html", "memory-rate-1"))["html"]
    found = browser.run(f"{HELPERS} await put({rate}); return [shown(), written({json.dumps(html)})];")
    assert found[0] == found[1]


def test_a_live_result_over_http_is_python_s(other: other_browsers.Other, host: Host) -> None:
    other.go(host.address + PAGE)
    is_pythons(other, "3600")


def test_a_link_restores_its_numbers(other: other_browsers.Other, host: Host) -> None:
    other.go(f"{host.address}answers/bench/two.html#memory.rate:rate=5600&cas=40")
    other.run(f"{HELPERS} await settled('5600');")


def test_a_card_is_saved(other: other_browsers.Other, host: Host) -> None:
    other.go(host.address + PAGE)
    other.run(f"""{HELPERS}
      await put(3600);
      const named = text => all("button").find(each => each.textContent === text && !each.disabled);
      (await wait("its button", () => named("Put on screen"))).click();
      await wait("the card", () => all(".stage svg").length);
      (await wait("saving", () => named("Save PNG"))).click();
    """)
    until = time.monotonic() + SAVING_S
    while not (whole := [data for data in map(Path.read_bytes, files_in(other.saved)) if data.endswith(LAST_OF_A_PNG)]):
        assert time.monotonic() < until, "nothing was saved"
        other.run("await new Promise(resolve => setTimeout(resolve, 200));")
    assert whole[0][:8] == b"\x89PNG\r\n\x1a\n"
    assert (int.from_bytes(whole[0][16:20]), int.from_bytes(whole[0][20:24])) == (1920, 1080)


def files_in(folder: Path) -> list[Path]:
    return [path for path in folder.rglob("*") if path.is_file()]


def test_a_live_result_in_a_folder_is_python_s(other: other_browsers.Other, own_folder: Path) -> None:
    other.go((own_folder / PAGE).as_uri())
    is_pythons(other, "3601")


def test_once_seen_it_is_there_without_a_network(
    other: other_browsers.Other, bench_folder: Path, tmp_path: Path
) -> None:
    """After the folder's pages, in the same window: what is kept belongs to an address, not to a window."""
    host = Host(Path(shutil.copytree(bench_folder, tmp_path / "site")))
    other.go(f"{host.address}index.html")
    said = other.run(
        f"{HELPERS} return wait('the site to be kept', () => {{ "
        "const said = document.querySelector('.wa-offline').textContent; "
        "return /ready|could not|not kept|no room/.test(said) && said; });"
    )
    assert re.search(r"Read offline: ready.*MB", said), said
    host.close()
    other.go(host.address + PAGE)
    is_pythons(other, "3602")
