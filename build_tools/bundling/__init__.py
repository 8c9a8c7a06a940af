"""
The bundling room: makes one script out of many modules.

It calls esbuild through Node; scripts that only a server gives are bundled when they are asked for.

May import: environment, files.
"""
