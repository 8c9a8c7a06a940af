"""The place below a calculator's form where one pastes what a system prints. Hidden until the page's script runs."""

from __future__ import annotations

from calculators.asking.pasted import PLACES
from calculators.desk.svg import escape

TITLE = "Paste what your system prints"
KEPT = (
    "It is read here, in this page. Numbers and choices are all that is taken: serial numbers, addresses and names are "
    "dropped."
)


def paste_place(name: str, prefix: str) -> str:
    """The place as HTML; nothing where the calculator reads no listing."""
    place = PLACES.get(name)
    if place is None:
        return ""
    ways = "".join(f"<li><b>{escape(system)}</b>: {_way(how)}</li>" for system, how in place.systems)
    text = f"{prefix}-paste"
    return (
        f'<details class="wa-paste" hidden><summary>{TITLE}</summary>'
        f"<p>Takes {escape(place.what)}. How to get it:</p><ul>{ways}</ul>"
        f'<label for="{text}">Paste it here</label>'
        f'<textarea id="{text}" rows="3" autocomplete="off" spellcheck="false" aria-describedby="{text}-note">'
        "</textarea>"
        f'<p class="wa-note" id="{text}-note">{KEPT}</p>'
        '<p class="wa-paste-told" role="status"></p><div class="wa-paste-read"></div></details>'
    )


def _way(how: str) -> str:
    """'in a terminal: a command' with what is typed there set as such."""
    where, typed, command = how.partition("terminal: ")
    return escape(where + typed) + (f"<code>{escape(command)}</code>" if command else "")
