"""
Makes site/ out of docs/, all or nothing: what is generated first, then the pages, then the checks, then the swap.

May import environment, engine, browser and checks. Guard: tests/build_tools/site.
"""
