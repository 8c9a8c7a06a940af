"""The whole chain in a real browser: pages of other addresses, names that lead here, and drawings that are none."""

from __future__ import annotations

import functools
import http.server
import json
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from build_tools.environment import browsers
from build_tools.presenting import routes
from tests.build_tools.serving.conftest import SECRET, Served

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

# Names that an attacker owns; that they lead to this machine is what makes the attack.
NAMES = ("elsewhere.example", "rebound.example")
MARK = '{"episode": 1, "segment": 1, "at": 1000}'
ON_AIR = ("desk", "picture", "run")

# Everything that a page can do without asking anybody. Returns what it has got to read.
TRY_ALL = """async ({target, hidden, mark}) => {
  const got = [];
  const attempt = async (name, work) => {
    const ends = new Promise((done) => setTimeout(done, 1500));
    try { const text = await Promise.race([work(), ends]); if (text) got.push(`${name}: ${text}`); } catch {}
  };
  const reads = ["/%2Fetc/hostname", "/link.html", "/.hidden", "/index.html", "/on-air/desk", "/_serving/events"];
  for (const path of reads) {
    for (const mode of ["cors", "no-cors", "same-origin"]) {
      await attempt(`fetch ${path} ${mode}`, async () => (await fetch(target + path, {mode})).text());
    }
  }
  await attempt("json", async () => (await fetch(target + "/on-air/mark",
    {method: "POST", headers: {"Content-Type": "application/json"}, body: mark})).text());
  for (const type of ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data"]) {
    for (const body of [mark, hidden]) {
      for (const path of ["/on-air/mark", "/nowhere", "/on-air/take"]) {
        await attempt(`post ${type} ${path}`, async () => (await fetch(target + path,
          {method: "POST", mode: "no-cors", headers: {"Content-Type": type}, body})).text());
      }
    }
  }
  await attempt("beacon", async () => void navigator.sendBeacon(target + "/on-air/clear", new Blob(["{}"])));
  const load = (tag, set) => attempt(tag, () => new Promise((done, fail) => {
    const made = document.createElement(tag);
    made.onload = () => done(`${tag} loaded ${made.contentDocument?.body?.innerText ?? made.naturalWidth ?? ""}`);
    made.onerror = () => fail(new Error("refused"));
    set(made);
    document.body.append(made);
  }));
  await load("script", (made) => (made.src = target + "/big.js"));
  await load("img", (made) => (made.src = target + "/drawing.svg"));
  await load("link", (made) => { made.rel = "stylesheet"; made.href = target + "/style.css"; });
  await attempt("events", () => new Promise((done, fail) => {
    const events = new EventSource(target + "/_serving/events");
    events.onmessage = ({data}) => done(data);
    events.onerror = () => { events.close(); fail(new Error("refused")); };
  }));
  await attempt("socket", () => new Promise((done, fail) => {
    const opened = new WebSocket(target.replace("http", "ws") + "/_serving/events");
    opened.onopen = () => done("opened");
    opened.onerror = fail;
  }));
  return got;
}"""
FRAME = """async (address) => {
  const frame = document.createElement("iframe");
  frame.src = address;
  const loaded = new Promise((done) => (frame.onload = done));
  document.body.append(frame);
  await loaded;
}"""
SEND_FORM = """({address, hidden}) => {
  const form = document.createElement("form");
  Object.assign(form, {action: address, method: "post", enctype: "text/plain"});
  const field = document.createElement("textarea");
  field.name = hidden;
  form.append(field);
  document.body.append(form);
  form.submit();
}"""


@pytest.fixture(scope="module")
def attacker(browser: Browser) -> Iterator[Browser]:
    """A browser for which the attacker's names lead to this machine."""
    rules = ", ".join(f"MAP {name} 127.0.0.1" for name in NAMES)
    opened = browser.browser_type.launch(
        executable_path=browsers.find(), args=[*browsers.flags(), f"--host-resolver-rules={rules}"]
    )
    yield opened
    opened.close()


class Lair:
    """Another server on this machine: its port, and what it was asked for."""

    def __init__(self) -> None:
        self.port = 0
        self.asked: list[str] = []


@pytest.fixture
def lair(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lair]:
    """A server with a page of the attacker's."""
    made = Lair()
    folder = tmp_path_factory.mktemp("lair")
    (folder / "index.html").write_text("<!doctype html><title>Elsewhere</title><body>", "utf-8")

    class Quiet(http.server.SimpleHTTPRequestHandler):
        def log_message(self, format: str, *values: object) -> None:
            made.asked.append(self.path)

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=str(folder)))
    server.daemon_threads = True
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True).start()
    made.port = server.server_port
    yield made
    server.shutdown()
    server.server_close()


def hidden_mark(served: Served) -> str:
    """A request of our own as it would read, token and all, to be hidden in a body."""
    return served.head("/on-air/mark", "POST", {**served.own(), "Content-Length": str(len(MARK))}).decode() + MARK


def unharmed(served: Served, number: object) -> bool:
    """No mark was made, and the picture is the same."""
    return not served.on_air._read_marks({"episode": 1})["marks"] and served.on_air.picture.shown()["number"] == number


@pytest.mark.parametrize("origin", ["elsewhere.example", "127.0.0.1", "localhost", "file"])
def test_a_page_elsewhere_gets_nothing_and_changes_nothing(
    served: Served, attacker: Browser, lair: Lair, origin: str, tmp_path: Path
) -> None:
    (served.server.site / "drawing.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg"/>', "utf-8")
    (served.server.site / "style.css").write_text("p{}", "utf-8")
    number = served.on_air.picture.shown()["number"]
    context = attacker.new_context()
    page = context.new_page()
    (tmp_path / "page.html").write_text("<!doctype html><body>", "utf-8")
    home = (tmp_path / "page.html").as_uri() if origin == "file" else f"http://{origin}:{lair.port}/"
    target = served.server.address.rstrip("/")
    page.goto(home)
    got = page.evaluate(TRY_ALL, {"target": target, "hidden": hidden_mark(served), "mark": MARK})
    assert got == []
    for path in ("/", *(f"/on-air/{name}" for name in ON_AIR)):
        page.evaluate(FRAME, target + path)
    told = [text for frame in page.frames[1:] for text in [frame.locator("body").inner_text()]]
    assert [text for text in told if "index.html" in text or "Desk" in text] == []
    for path in ("/on-air/take", "/nowhere", "/on-air/mark"):
        page.goto(home)
        with page.expect_navigation(wait_until="load"):
            page.evaluate(SEND_FORM, {"address": target + path, "hidden": hidden_mark(served)})
        assert "answers its own pages only" in page.locator("body").inner_text()
    assert unharmed(served, number)
    context.close()


def test_a_link_elsewhere_leads_to_the_site_but_not_to_the_desk(served: Served, attacker: Browser, lair: Lair) -> None:
    page = attacker.new_page()
    for path, there in (("", True), ("on-air/desk", False), ("on-air/run", False), ("on-air/picture", False)):
        page.goto(f"http://elsewhere.example:{lair.port}/")
        with page.expect_navigation():
            page.evaluate("address => { location.href = address; }", served.server.address + path)
        assert ("index.html" in page.content()) is there
        assert served.on_air.token not in page.content()
    page.close()


def test_a_name_that_leads_here_is_refused_for_everything(served: Served, attacker: Browser) -> None:
    number = served.on_air.picture.shown()["number"]
    page = attacker.new_page()
    target = f"http://rebound.example:{served.port}"
    for path in ("/", "/on-air/desk", "/%2Fetc/hostname", "/_serving/events"):
        answer = page.goto(target + path)
        assert answer is not None
        assert (answer.status, SECRET in answer.text()) == (403, False)
    got = page.evaluate(TRY_ALL, {"target": target, "hidden": hidden_mark(served), "mark": MARK})
    assert [text for text in got if "loopback address only" not in text] == []
    assert served.on_air.token not in "".join(got)
    assert unharmed(served, number)
    page.close()


# The presenter's own pages


@pytest.fixture
def violations(context: BrowserContext) -> list[str]:
    """What the pages' policies have stopped."""
    found: list[str] = []
    context.expose_function("stopped", lambda what: found.append(what))
    context.add_init_script(
        "document.addEventListener('securitypolicyviolation', (e) => window.stopped(e.effectiveDirective))"
    )
    return found


@pytest.mark.parametrize("name", ON_AIR)
def test_nothing_foreign_runs_or_loads_on_the_presenters_pages(
    served: Served, context: BrowserContext, violations: list[str], lair: Lair, name: str
) -> None:
    page = context.new_page()
    page.goto(f"{served.server.address}on-air/{name}")
    page.evaluate(
        """(far) => {
          const box = document.createElement("div");
          document.body.append(box);
          box.innerHTML = `<svg xmlns="http://www.w3.org/2000/svg" onload="window.ran = 1">
            <script>window.ran = 2</script><image href="${far}a.png"/>
            <foreignObject><iframe src="${far}b"></iframe></foreignObject></svg>
            <img src="x:" onerror="window.ran = 3"><img src="${far}c.png">
            <p style="background: url(${far}d)">styled</p>
            <style>body { background: url(${far}e) }</style>
            <form action="${far}f"><button id="foreign">send</button></form>
            <object data="${far}g"></object><a id="script" href="javascript:window.ran = 4">go</a>`;
          const inline = document.createElement("script");
          inline.textContent = "window.ran = 5";
          document.body.append(inline);
          const script = document.createElement("script");
          script.src = `${far}h.js`;
          document.body.append(script);
          // later, since what the test itself evaluates may evaluate
          setTimeout(() => eval("window.ran = 6"), 0);
          setTimeout(() => new Function("window.ran = 7")(), 0);
          setTimeout("window.ran = 8", 0);
          fetch(`${far}i`).catch(() => 0);
          document.getElementById("script").click();
          document.getElementById("foreign").click();
          const base = document.createElement("base");
          base.href = far;
          document.head.append(base);
        }""",
        f"http://127.0.0.1:{lair.port}/",
    )
    page.wait_for_timeout(500)
    assert page.evaluate("() => window.ran") is None
    assert lair.asked == []
    assert page.evaluate("() => document.baseURI").startswith(served.server.address)
    expected = {"script-src-elem", "script-src-attr", "script-src", "style-src-elem", "style-src-attr", "img-src",
                "connect-src", "form-action", "base-uri", "object-src"}  # fmt: skip
    assert expected - set(violations) == set()


def test_the_presenters_pages_need_nothing_that_their_policy_stops(
    served: Served, context: BrowserContext, violations: list[str]
) -> None:
    faults: list[str] = []
    context.on("weberror", lambda fault: faults.append(str(fault.error)))
    desk, picture, run = (context.new_page() for _ in ON_AIR)
    for page, name in ((desk, "desk"), (picture, "picture"), (run, "run")):
        page.goto(f"{served.server.address}on-air/{name}")
    desk.locator("#frame img").wait_for()
    desk.locator("#take").click()
    picture.locator("img").wait_for()
    run.locator(".segment[aria-current]").wait_for()
    run.locator("#begin").click()
    run.locator("#state", has_text="Recording since").wait_for()
    assert (violations, faults) == ([], [])


FORGED = '<svg xmlns="http://www.w3.org/2000/svg" onload="fetch(1)"><script>1</script></svg>'


BODIES: tuple[dict[str, object], ...] = (
    {"svg": FORGED},
    {"svg": FORGED, "calculator": "memory.rate", "inputs": {}},
    {"frames": [{"svg": FORGED, "name": "x", "words": "x"}], "calculator": "memory.rate"},
    {"html": FORGED, "calculator": "memory.rate"},
    {},
    {"calculator": FORGED},
    {"calculator": "memory.rate", "inputs": {"rate": FORGED}},
    {"calculator": "memory.rate", "inputs": {"rate": "Infinity"}},
    {"calculator": "memory.rate", "inputs": {"rate": ["1"]}},
    {"calculator": "memory.rate", "inputs": [1]},
    {"calculator": "memory.rate", "frame": 99},
    {"calculator": "memory.rate", "frame": -1},
    {"calculator": "memory.rate", "frame": True},
    {"calculator": "memory.rate", "shape": FORGED},
    {"calculator": "memory.rate", "background": FORGED},
    {"calculator": "memory.rate", "question": "a" * 3000},
    {"calculator": "memory.rate", "question": {"svg": FORGED}},
    {"calculator": "memory.rate", "question": "\ud800"},
)


def test_the_picture_takes_no_drawing_and_no_card_that_cannot_be_drawn(served: Served) -> None:
    number = served.on_air.picture.shown()["number"]
    for body in BODIES:
        told = json.loads(served.post("take", json.dumps(body).encode()).body)
        assert told["errors"][0]["message"], body
        assert served.on_air.picture.shown() == {"number": number, "svg": "", "name": "", "words": ""}, body


def test_words_that_read_like_markup_are_words_on_the_picture(served: Served, context: BrowserContext) -> None:
    from xml.etree import ElementTree

    asked: list[str] = []
    context.on("request", lambda request: asked.append(request.url))
    picture: Page = context.new_page()
    picture.goto(f"{served.server.address}on-air/picture")
    words = '</text><script>window.ran=1</script><image href="http://elsewhere.example/x"/>'
    card = {"calculator": "memory.rate", "question": words, "address": f"http://a.example/{words}", "frame": 0}
    assert "number" in json.loads(served.post("take", json.dumps(card).encode()).body)
    picture.locator("img").wait_for()
    drawn = ElementTree.fromstring(str(served.on_air.picture.shown()["svg"]))
    kinds = {each.tag.rpartition("}")[2] for each in drawn.iter()}
    assert not kinds & {"script", "image", "foreignObject", "a", "use"}
    assert [address for address in asked if "elsewhere" in address] == []
    assert picture.evaluate("() => window.ran") is None


def test_what_is_taken_is_what_was_seen(served: Served) -> None:
    card = {"calculator": "memory.rate", "inputs": {"rate": "3600"}, "question": "Which?"}
    seen = json.loads(served.post("ask", json.dumps({"what": "card", **card}).encode()).body)["frames"]
    for number, frame in enumerate(seen):
        served.post("take", json.dumps({**card, "frame": number}).encode())
        assert served.on_air.picture.shown()["svg"] == frame["svg"]


def test_many_questions_at_once_are_answered_or_told_to_wait(served: Served, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(routes, "WAITING", 2)
    told: list[bytes] = []

    def ask() -> None:
        told.append(served.post("ask", b'{"what": "form", "calculator": "memory.rate"}', seconds=60).body)

    threads = [threading.Thread(target=ask) for _ in range(30)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len([body for body in told if b'"html"' in body]) >= routes.AT_ONCE + 2
    assert all(b'"html"' in body or b"must wait" in body for body in told)
