"""
The bundling room: makes one script out of many modules.

May import the standard library and build_tools.environment, and calls esbuild through Node.
"""
