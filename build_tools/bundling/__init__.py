"""
The bundling room: makes one script out of many modules.

It calls esbuild through Node.

May import: environment.
"""
