"""
Shows the site on this machine while it is being written: serves, watches, rebuilds, reloads.

Nothing here is part of the built site. May import: environment, bundling, site. Guard: tests/build_tools/serving.
"""
