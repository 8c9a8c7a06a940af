"""Display modes: totals and pixel clocks by the standards, and modes as people type them."""
