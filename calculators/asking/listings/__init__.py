"""
The parts of `calculators.asking.pasted`: each recognises one kind of what systems print.

Memory modules (`memory_modules`), display modes (`display_modes`), and what a calculator's own private input takes
(`private_inputs`). `listing` holds what a recognised listing is.
"""
