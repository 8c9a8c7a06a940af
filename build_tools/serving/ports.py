"""Opens a port on the loopback address. Knows sockets; knows nothing of what is served."""

import errno
import os
import socket

from build_tools.environment.trouble import Trouble

HOST = "127.0.0.1"
FIRST = 8321
TRIES = 20


def ask_for(port: int) -> socket.socket:
    """
    A listening socket on that port of the loopback address.

    Raises:
        Trouble: Another program has it, or the system does not give it.
    """
    try:
        return _listen(port)
    except PermissionError as error:
        raise Trouble(f"This system keeps port {port} for itself: choose one above 1023 with --port.") from error
    except OSError as error:
        if error.errno != errno.EADDRINUSE:
            raise
        raise Trouble(
            f"Port {port} is taken by another program: choose another with --port, or leave --port out to "
            "take the first free one."
        ) from error


def first_free() -> socket.socket:
    """
    A listening socket on the first free port from FIRST on.

    Raises:
        Trouble: All that were tried are taken.
    """
    for port in range(FIRST, FIRST + TRIES):
        try:
            return _listen(port)
        except OSError:
            continue
    raise Trouble(f"The ports from {FIRST} to {FIRST + TRIES - 1} are all taken: choose another with --port.")


def _listen(port: int) -> socket.socket:
    opened = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        if os.name == "posix":  # elsewhere this would let two programs have the port at once
            opened.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        opened.bind((HOST, port))
        opened.listen(64)
    except OSError:
        opened.close()
        raise
    return opened
