"""Measures pages in Chromium: how long until a result, how many bytes, and what a reader notices meanwhile."""

from __future__ import annotations

from pathlib import Path
from statistics import median
from time import sleep
from typing import TYPE_CHECKING, Any

from build_tools.bench.host import Host

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

OURS = "answers/bench/one.html"
STICKS = "answers/bench/mix.html"  # the calculator of the page on adding larger sticks
KEYSTROKES = 120
# In which a browser ends what the page before has left; else a tenth is added to ours, and nothing to the plain one.
REST_S = 1.0

# Put into our page before its own scripts: records every long task (over 50 ms) of the main thread, and defines
# `touch`, which types a rate into the form and notes when the result for it stands in the page.
WATCH = """
window.tasks = [];
new PerformanceObserver(list => window.tasks.push(...list.getEntries().map(each => [each.startTime, each.duration])))
  .observe({ entryTypes: ["longtask"] });
window.touch = value => {
  const input = document.querySelector(".wa-calculator input[name=rate]");
  const out = document.querySelector(".wa-result");
  window.first = undefined;
  const wanted = new RegExp(`DDR\\\\d-${value}\\\\b`);
  return new Promise(resolve => {
    const see = new MutationObserver(() => {
      if (!wanted.test(out.querySelector(".wa-headline")?.textContent ?? "")) return;
      see.disconnect();
      window.first = performance.now();
      resolve(window.first);
    });
    see.observe(out, { childList: true, subtree: true, characterData: true });
    window.touched = performance.now();
    input.value = String(value);
    input.dispatchEvent(new Event("input", { bubbles: true }));
  });
};
"""
# The same for the plain page, which has one answer under way at a time.
TOUCH_PLAIN = """
window.touch = value => new Promise(resolve => {
  const input = document.querySelector("input");
  window.answered = () => resolve(performance.now());
  input.value = String(value);
  input.dispatchEvent(new Event("input", { bubbles: true }));
});
"""
# Types a rate as soon as the form is enabled. The plain page needs no such script: it asks for a result by itself.
AT_ONCE = """
new MutationObserver((_, watch) => {
  if (!document.querySelector(".wa-calculator fieldset:enabled input[name=rate]")) return;
  watch.disconnect();
  window.touch(3600);
}).observe(document, { childList: true, subtree: true, attributeFilter: ["disabled"] });
"""
# Waits for the first live result and gives its time, in ms from the start of the navigation.
SEEN = """
() => new Promise(resolve => {
  const look = () => window.first === undefined ? setTimeout(look, 20) : resolve(window.first);
  look();
})
"""
# Whatever the form asks first is given again, and all that its answer needs has come.
TOUCH_ANY = """
() => document.querySelector(".wa-calculator fieldset:enabled :is(input, select)")
  .dispatchEvent(new Event("input", { bubbles: true }))
"""
ALL_HERE = """
() => ["worker.js", "lean.wasm", "memory.bin", "memory.mix.bin"].every(name =>
  performance.getEntriesByType("resource").some(each => each.name.includes(name) && each.responseEnd))
"""
SAVES_DATA = "Object.defineProperty(navigator, 'connection', { value: { saveData: true } });"
LONGEST = "Math.max(0, ...tasks.filter(([at]) => at >= touched && at < first).map(each => each[1]))"
PHONE = {"viewport": {"width": 390, "height": 740}, "is_mobile": True, "has_touch": True}
# Three times in ms for each keystroke: until its result stands in the page, until the frame that shows it has been laid
# out and painted, and until that which shows the whole answer has (ours brings its details a frame later). A display of
# 60 Hz takes a frame every 16.7 ms, wherever the keystroke falls: the time between a frame and the keystroke behind it
# moves on from one to the next, until all of it is covered. A pause of 20 ms alone would put every keystroke 3.3 ms
# behind a frame, and nearly every result on the frame 13.3 ms later.
TYPING = """
async ([field, count]) => {
  const waits = [];
  const painted = () => new Promise(resolve => requestAnimationFrame(() => {
    const { port1, port2 } = new MessageChannel(); // its message comes when the frame is done
    port1.onmessage = () => resolve(performance.now());
    port2.postMessage("");
  }));
  document.querySelector(field).focus(); // nobody types where no cursor stands
  await new Promise(resolve => setTimeout(resolve, 300));
  for (let i = 0; i < count; i++) {
    const start = performance.now();
    const there = await window.touch(3000 + i);
    const times = [there - start, await painted() - start];
    const answer = document.querySelector(".wa-result");
    while (answer?.getAttribute("aria-busy") === "true") times[2] = await painted() - start;
    if (answer && times.length === 2) times[2] = await painted() - start; // what came meanwhile is in the next frame
    waits.push([...times, times[1]].slice(0, 3));
    await new Promise(resolve => setTimeout(resolve, 20 + (7 * i) % 16.7));
  }
  return waits;
}
"""
# A browser that draws whenever there is something to draw: so is measured what a page takes, and not the display.
NO_DISPLAY_CLOCK = ("--disable-frame-rate-limit", "--disable-gpu-vsync")


def _open(browser: Browser, address: str, *scripts: str, **options: Any) -> Page:
    sleep(REST_S)
    context = browser.new_context(service_workers="block", **options)
    for script in scripts:
        context.add_init_script(script)
    page = context.new_page()
    page.goto(address, wait_until="commit")
    return page


def _first(page: Page) -> float:
    return float(page.evaluate(SEEN))


def _slow(page: Page) -> None:
    """A line of 10 Mb/s with 40 ms there and back, and a processor four times slower."""
    session = page.context.new_cdp_session(page)
    line = {"offline": False, "latency": 40, "downloadThroughput": 10e6 / 8, "uploadThroughput": 10e6 / 8}
    session.send("Network.enable")
    session.send("Network.emulateNetworkConditions", line)
    session.send("Emulation.setCPUThrottlingRate", {"rate": 4})


def first_result(browser: Browser, host: Host, address: str) -> tuple[float, int]:
    """Milliseconds from navigation to the first live result, and the bytes sent until then; nothing is kept before."""
    host.count()
    page = _open(browser, address, WATCH, AT_ONCE)
    took = _first(page)
    page.context.close()
    return took, host.count()


def slow_line(browser: Browser, host: Host, runs: int) -> dict[str, list[float]]:
    """Navigation to first live result on a slow line and a slow processor, plain and ours in turn, cold."""
    times: dict[str, list[float]] = {"plain": [], "ours": []}
    addresses = {"plain": "/plain/index.html", "ours": f"/site/{OURS}"}
    for _ in range(runs):
        for name, address in addresses.items():
            page = _open(browser, "about:blank", *((WATCH, AT_ONCE) if name == "ours" else ()))
            _slow(page)
            page.goto(f"{host.address}{address}", wait_until="commit")
            times[name].append(_first(page))
            page.context.close()
    return times


def bytes_of_sticks(browser: Browser, host: Host) -> int:
    """What is sent until the page with the larger sticks has its first live result: until nothing more comes."""
    host.count()
    page = _open(browser, f"{host.address}/site/{STICKS}", SAVES_DATA)
    page.wait_for_load_state("load")
    page.evaluate(TOUCH_ANY)
    page.wait_for_function(ALL_HERE, timeout=60_000)
    page.context.close()
    return host.count()


def first_results(browser: Browser, host: Host, folder: Path, cold: int, warm: int) -> dict[str, Any]:
    """
    The times from navigation to the first live result: of the plain page, of ours, and of ours opened as a file.

    Measured in turn: `cold` times each with an empty cache; and then in `warm` browsers each, on the fourth, fifth and
    sixth visit, which gives three times a browser. With the bytes that each fetched when cold.
    """
    times: dict[str, list[float]] = {}
    sizes: dict[str, list[int]] = {}
    pages = {
        "plain": (f"{host.address}/plain/index.html", ()),
        "ours": (f"{host.address}/site/{OURS}", (WATCH, AT_ONCE)),
        "folder": ((folder / OURS).as_uri(), (WATCH, AT_ONCE)),
    }
    for name, (address, scripts) in [*pages.items()] * cold:
        host.count()
        page = _open(browser, address, *scripts)
        times.setdefault(f"{name} cold", []).append(_first(page))
        sizes.setdefault(name, []).append(host.count())
        page.context.close()
    for name, (address, scripts) in [*pages.items()] * warm:
        page = _open(browser, address, *scripts)
        _first(page)
        for visit in range(2, 7):  # a browser keeps compiled code from the second visit on
            page.wait_for_timeout(300)
            page.goto(address, wait_until="commit")
            took = _first(page)
            if visit >= 4:
                times.setdefault(f"{name} warm", []).append(took)
        page.context.close()
    return {"times": times, "bytes": {name: int(median(each)) for name, each in sizes.items() if name != "folder"}}


def reader(browser: Browser, host: Host, runs: int) -> dict[str, Any]:
    """
    What a reader notices of our page.

    The bytes fetched before the first input; the main thread's longest task between that and its result; the wait for
    a result after five idle seconds, and on a phone with a quarter of this processor's speed.
    """
    address = f"{host.address}/site/{OURS}"
    longest: list[float] = []
    after_idle: list[float] = []
    phone: list[float] = []
    weight: list[int] = []
    for _ in range(runs):
        host.count()
        page = _open(browser, address, WATCH, SAVES_DATA)
        page.wait_for_load_state("networkidle")
        page.wait_for_timeout(500)
        weight.append(host.count())
        page.evaluate("window.touch(3600)")
        longest.append(float(page.evaluate(LONGEST)))
        page.context.close()

        page = _open(browser, address, WATCH)
        page.wait_for_load_state("load")
        page.wait_for_timeout(5000)
        page.evaluate("window.touch(3600)")
        after_idle.append(float(page.evaluate("first - touched")))
        page.context.close()

        page = _open(browser, "about:blank", WATCH, SAVES_DATA, **PHONE)
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": 4})
        page.goto(address, wait_until="load")
        page.evaluate("window.touch(3600)")
        phone.append(float(page.evaluate("first - touched")))
        page.context.close()
    return {
        "weight": int(median(weight)),
        "longest task": longest,
        "after idle": after_idle,
        "phone": phone,
    }


def typing(browser: Browser, host: Host, runs: int) -> dict[str, list[float]]:
    """
    For each of many keystrokes, the engine running: ms until its result is in the page, until its frame is painted, and
    until that with the whole answer is.

    Of several visits, ours (`there`, `painted`, `whole`) and the plain page (`plain there` and so on) in turn, since
    what else the machine does falls on some of them. How much of it is the display's depends on the browser: see
    NO_DISPLAY_CLOCK.
    """
    times: dict[str, list[float]] = {}
    pages = {
        "": (f"/site/{OURS}", WATCH, ".wa-calculator input[name=rate]"),
        "plain ": ("/plain/index.html", TOUCH_PLAIN, "#rate"),
    }
    for name, (address, script, field) in [*pages.items()] * runs:
        page = _open(browser, f"{host.address}{address}", script)
        page.wait_for_load_state("load")
        if script == TOUCH_PLAIN:
            _first(page)
        page.evaluate("window.touch(2999)")
        page.wait_for_timeout(1000)
        waits = page.evaluate(TYPING, [field, KEYSTROKES])
        for which, what in enumerate(("there", "painted", "whole")):
            times.setdefault(f"{name}{what}", []).extend(each[which] for each in waits)
        page.context.close()
    return times
