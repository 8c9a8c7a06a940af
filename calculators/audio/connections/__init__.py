"""Plugs, sockets and adapters: contacts, wiring, chains, and their drawing."""
