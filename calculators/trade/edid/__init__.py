"""The EDID parser: a display's declaration from pasted text to facts, block by block."""
