"""
New things: complete, passing skeletons of an answer, an episode, a calculator, a whole knowledge base.

Never overwrites. May import: calculators, episodes, keeping, markdown_blocks.
Guarded by tests/build_tools/new.
"""
