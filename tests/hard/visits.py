"""A visit to a page with calculators: what came of it, as a reader sees it."""

from __future__ import annotations

import json
import re
import time
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any
from urllib.parse import parse_qsl, urlencode

from playwright.sync_api import Error

from build_tools.markdown_blocks.blocks import calculator_html
from build_tools.site import policy
from calculators.catalogue import find, names
from calculators.door import answer
from tests.random_inputs import random_inputs

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

RIGHT, TOLD, WRONG, DEAD, BLANK = "right", "told", "wrong", "dead", "blank"
SURVIVED = (RIGHT, TOLD, BLANK)  # nothing on a page is no wrong number and no dead form
# How the script's sentences begin that say why there is no answer (build_tools/browser/shared/words.ts).
SAID = re.compile(
    "The calculator could not be loaded|The calculator did not start|This calculation took|Something in this calculator"
    "|This site's security|This browser cannot run"
)
# Live results are put into what stands there already, which changes the order of attributes and nothing else.
IN_ORDER = """
const inOrder = part => {
  for (const each of part.querySelectorAll("*")) {
    const given = [...each.attributes].map(({ name, value }) => [name, value]).sort();
    for (const [name] of given) each.removeAttribute(name);
    for (const [name, value] of given) each.setAttribute(name, value);
  }
  return part.innerHTML;
};
"""
SEE = """
name => {
  IN_ORDER
  const text = part => part?.checkVisibility({ visibilityProperty: true }) ? part.innerText.trim() : "";
  const section = document.querySelector(`section.wa-calculator[data-calculator="${name}"]`);
  const parts = section ? [...section.querySelectorAll(":scope > .wa-outcome .wa-result, :scope > .wa-details")] : [];
  return {
    blank: !document.querySelector("section.wa-calculator"),
    ended: document.readyState === "complete",
    said: [".wa-cut-off", ".wa-link-note", ".wa-state"].map(each =>
      text(each === ".wa-cut-off" ? document.querySelector(each) : section?.querySelector(each))),
    asleep: text(section?.querySelector(".wa-noscript")),
    enabled: Boolean(section?.querySelector("fieldset:enabled :is(input, select, textarea)")),
    pending: !section || section.matches(".wa-stale, .wa-waiting") ||
      section.querySelector(".wa-result")?.getAttribute("aria-busy") === "true",
    link: section?.dataset.link ?? "",
    html: parts.map(part => {
      const copy = part.cloneNode(true);
      for (const fold of copy.querySelectorAll("details[data-fold]")) fold.setAttribute("open", "");
      return inOrder(copy);
    }).join(""),
  };
}
""".replace("IN_ORDER", IN_ORDER)
AS_WRITTEN = """
html => {
  IN_ORDER
  const box = document.createElement("output");
  box.innerHTML = html;
  return inOrder(box);
}
""".replace("IN_ORDER", IN_ORDER)


def page_with(page: str, calculators: tuple[str, ...]) -> bytes:
    """A built page of one calculator with others in its place, each with a common case as its example."""
    sections = []
    for number, name in enumerate(calculators, 1):
        case = find(name).presets[0].inputs if find(name).presets else {}
        head, tail = calculator_html(find(name).run(dict(case)), prefix_of(name, number), ())
        sections.append(head + tail.replace("<!--wa-jumps-->", ""))
    start = page.index('<section class="wa-calculator"')
    end = page.index("</section>", page.rindex('class="wa-data"')) + len("</section>")
    page = re.sub(
        r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", page[:start] + "".join(sections) + page[end:]
    )
    return policy.with_policy(page, re.findall(r"<script>(.*?)</script>", page, re.S)).encode()


def prefix_of(name: str, number: int) -> str:
    return f"{name.replace('.', '-')}-{number}"


def others(name: str, seed: int) -> dict[str, str]:
    """Inputs that the calculator takes and that a link can carry; none where it asks for something private."""
    private = {each.key for each in find(name).inputs if each.private}
    for drawn in random_inputs(find(name), 200, seed):
        inputs = {key: str(value) for key, value in drawn.items() if key not in private and str(value).strip()}
        if inputs and "errors" not in json.loads(answer(name, json.dumps(inputs), "html", "p")):
            return inputs
    return {}


def all_names() -> tuple[str, ...]:
    return tuple(names())


def link(name: str, inputs: Mapping[str, str]) -> str:
    return f"#{name}:{urlencode(inputs)}"


def wanted(page: Page, name: str, prefix: str, shown: str) -> str:
    """What Python says for the inputs in a link, as a browser writes the markup out again."""
    inputs = dict(parse_qsl(shown.partition(":")[2], keep_blank_values=True))
    inputs.pop("made", None)
    html = json.loads(answer(name, json.dumps(inputs), "html", prefix)).get("html", "")
    written: str = page.evaluate(AS_WRITTEN, html)
    return written


def is_for(shown: str, inputs: Mapping[str, str]) -> bool:
    """Whether a result's own link carries these inputs."""
    return set(inputs.items()) <= set(parse_qsl(shown.partition(":")[2], keep_blank_values=True))


# How long a page must have been at its end with nothing on it, until it counts as blank.
BLANK_FOR_S = 2.0


def judge(page: Page, name: str, prefix: str, inputs: Mapping[str, str], longest_s: float) -> str:
    """What comes of a page that was opened with a link to these inputs, as soon as it is clear."""
    ends = time.monotonic() + longest_s
    at_end_since: float | None = None
    while True:
        try:
            seen: dict[str, Any] = page.evaluate(SEE, name)
            right = wanted(page, name, prefix, seen["link"]) if seen["link"] and not seen["pending"] else ""
        except Error:  # it has gone on to another page meanwhile
            seen, right = {"blank": True, "ended": False, "said": ["", "", ""], "pending": True}, ""
        cut_off, of_link, state = seen["said"]
        if cut_off or "This link carries numbers" in of_link or SAID.match(state):
            return TOLD
        if not seen["pending"] and not state:
            if seen["asleep"] and not seen["enabled"]:
                return TOLD
            if is_for(seen["link"], inputs):
                return RIGHT if seen["html"] == right else WRONG
        now = time.monotonic()
        at_end_since = (at_end_since or now) if seen["blank"] and seen["ended"] else None
        if at_end_since is not None and now - at_end_since > BLANK_FOR_S:
            return BLANK
        if now > ends:
            return BLANK if seen["blank"] else DEAD
        time.sleep(0.1)


def visit(
    context: BrowserContext, address: str, name: str, prefix: str, inputs: Mapping[str, str], longest_s: float
) -> str:
    """Opens a page with a link to these inputs, and sees what comes of it."""
    page = context.new_page()
    try:
        page.goto(address + link(name, inputs), wait_until="commit", timeout=longest_s * 1000)
        return judge(page, name, prefix, inputs, longest_s)
    except Error:
        return TOLD  # by the browser itself, in a page of its own
    finally:
        page.close()
