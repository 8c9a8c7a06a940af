"""Picture and sound in step: how fast sound travels, and how far apart the two may be."""
