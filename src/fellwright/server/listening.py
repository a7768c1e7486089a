"""Take a port on this machine, and serve on it until a person stops it."""

import socket

import uvicorn
from starlette.applications import Starlette

from fellwright.errors import BadInput, Fault
from fellwright.words import say, system_words

__all__ = ["HOST", "listen", "serve"]

HOST = "127.0.0.1"
"""Nobody else's machine reaches it."""


def listen(port: int) -> socket.socket:
    """Take a port.

    Parameters
    ----------
    port : int
        The port; 0 takes any that is free.

    Returns
    -------
    socket
        Bound to this machine only; it takes callers from now on.

    Raises
    ------
    BadInput
        If the port is taken or not allowed.
    """
    taken = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        taken.bind((HOST, port))
        # A browser that is opened before the server is up waits instead of being refused.
        taken.listen()
    except OSError as error:
        taken.close()
        rule = say("rule.port_free", why=system_words(error))
        fault = Fault("serve", None, "port", str(port), rule, say("remedy.port_other"), "port")
        raise BadInput([fault]) from None
    return taken


def serve(site: Starlette, taken: socket.socket) -> None:
    """Serve a site on a port that is taken, until it is interrupted."""
    config = uvicorn.Config(site, log_level="warning", access_log=False, server_header=False)
    uvicorn.Server(config).run(sockets=[taken])
