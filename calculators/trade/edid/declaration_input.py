"""The input into which a viewer pastes a display's declaration. It is private: it never leaves the page."""

from __future__ import annotations

from calculators.desk.inputs import PrivateText
from calculators.trade.edid.pasted_text import Pasted, read_text


def _pasted_again(pasted: Pasted) -> str:
    """The declaration written in the one way that reads back the same: sixteen bytes a line, which fits a phone."""
    return "\n".join(pasted.data[i : i + 16].hex() for i in range(0, len(pasted.data), 16))


def declaration_input(
    *, key: str = "declaration", label: str = "The display's declaration", group: str = "", optional: bool = False,
    extra: bool = False, note: str = "It stays in this page, on this device",
) -> PrivateText:  # fmt: skip
    """The input for a declaration, pasted as any of the common programs print it."""
    return PrivateText(
        key=key,
        label=label,
        where=(
            "Your system keeps it: a file called edid on Linux, a registry value called EDID on Windows, a "
            "property called IODisplayEDID on many Macs."
        ),
        note=note,
        group=group,
        optional=optional,
        extra=extra,
        names=("edid",),
        example="00 FF FF FF FF FF FF 00 …",
        shape="what the system saved, as hexadecimal, base64 or a dump",
        parse=read_text,
        canonical=_pasted_again,
    )
