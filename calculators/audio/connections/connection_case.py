"""What is to be joined: a device with its plug, a socket, and how output and input are wired. Words nothing."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.audio.connections.adapter_catalogue import Adapter
from calculators.audio.connections.connectors import CONNECTORS
from calculators.audio.connections.contact_wiring import BALANCED, SINGLE_ENDED, is_balanced
from calculators.audio.connections.line_leads import End

SENDS = ("microphone", "source")  # the devices that give sound; all others take it
LINE = ("speakers", "line", "source")


@dataclass(frozen=True, slots=True)
class Case:
    """What is to be joined, with nothing left open: output and input each single-ended or balanced."""

    device: str
    plug: str
    socket: str
    output: str
    input_: str
    pinout: str
    one: bool

    @property
    def at_socket(self) -> str:
        """How the socket is wired, as given: it is the input where the device gives sound, else the output."""
        return self.input_ if self.device in SENDS else self.output

    @property
    def wiring(self) -> str:
        """How socket and plug are wired for the search: a socket that cannot be balanced leaves it to the plug."""
        if is_balanced(self.socket, self.at_socket):
            return self.at_socket
        own = self.output if self.device in SENDS else self.input_
        return own if self.device in LINE else SINGLE_ENDED

    @property
    def ends(self) -> tuple[End, End]:
        """The output and the input of a line connection."""
        socket = "3.5-3" if self.socket == "3.5-pair" and self.device != "source" else self.socket
        keys = (self.plug, socket) if self.device in SENDS else (socket, self.plug)
        first, second = (
            End(key, key == "xlr-3" or (is_balanced(key, said_) and CONNECTORS[key].poles == 3))
            for key, said_ in zip(keys, (self.output, self.input_), strict=True)
        )
        return first, second


def may_supply(case: Case, adapters: tuple[Adapter, ...]) -> bool:
    """Whether a microphone input that may feed phantom power is in the way."""
    if any((adapter.socket == "xlr-3" and adapter.active) or adapter.plug == "xlr-3" for adapter in adapters):
        return case.device in SENDS
    if case.device in SENDS:
        return case.socket == "xlr-3" or (case.input_ == BALANCED and is_balanced(case.socket, BALANCED))
    return case.device in ("line", "headset") and "xlr-3" in (case.plug, case.socket)
