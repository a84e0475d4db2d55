"""The server: waitress, on 127.0.0.1 unless told otherwise, and the address in words."""

from __future__ import annotations

import gc
import ipaddress
import logging
import socket
import sys
from collections.abc import Sequence
from pathlib import Path

from waitress.server import create_server

from app.web.access import Access, kept_key
from app.web.application import create_app
from app.web.invitation import invitation
from app.web.security import LOOPBACK_HOSTS, host_name
from app.web.service import EXTENSION

THREADS = 8
"""More than the six connections that a browser opens to one server."""
# Above what the application itself refuses with a problem detail, so that a person gets that one; below what would
# hurt, since a body is taken in before the application sees it.
MAX_BODY_BYTES = 16 * 1024 * 1024
EVERY_ADDRESS = ("0.0.0.0", "::", "")


def serve(host: str, port: int, data_dir: Path, extra_hosts: Sequence[str] = (), *, renew_key: bool = False) -> None:
    """Serve until interrupted (Ctrl+C), then return.

    Where others than this machine can reach the address, they have to give a key, which is printed here.

    Raises:
        OSError: the address cannot be bound or the folder not written.
    """
    loopback = is_loopback(host)
    access = None if loopback else Access(kept_key(data_dir, renew=renew_key))
    app = create_app(data_dir, loopback=loopback, allowed_hosts=allowed_hosts(host, extra_hosts), access=access)
    # A reply need not say what answers: a page asks for two hundred files, and each would say it.
    server = create_server(app, host=host, port=port, threads=THREADS, max_request_body_size=MAX_BODY_BYTES, ident="")
    bound = getattr(server, "effective_port", port)
    address = f"http://{_shown(_reached_by(host))}:{bound}"
    print(f"Rungwright serves on {address} (stop with Ctrl+C); jobs are kept in {data_dir}", flush=True)
    if access is not None:
        print(invitation(address, access.key, sys.stdout), flush=True)
    _collect_rarely()
    # That a request waits for a thread is no news for whoever started the server. Where nobody reads what is printed,
    # a line for each of them would in the end fill the pipe, and the server would stand still.
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    try:
        server.run()
    finally:
        server.close()
        app.extensions[EXTENSION].close()


def _collect_rarely() -> None:
    """Let the collector of reference cycles pass by less often.

    One reply for a large job makes a hundred thousand short-lived objects and hardly a cycle; at Python's own
    thresholds the collector then walks the whole program several times a request, which was seen as pauses of 100 ms.
    """
    gc.freeze()
    gc.set_threshold(50_000, 10, 10)


def is_loopback(host: str) -> bool:
    """Return whether only this machine can reach ``host``."""
    if host.lower() == "localhost":
        return True
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return False


def allowed_hosts(host: str, extra: Sequence[str]) -> tuple[str, ...]:
    """Return the names to which a server bound to ``host`` answers, sorted.

    Bound to every address, it also answers to this machine's own name and to its address in the network; other names
    are said with ``extra``.
    """
    names = {*LOOPBACK_HOSTS, *(host_name(name) for name in extra)}
    if host in EVERY_ADDRESS:
        names.add(socket.gethostname().lower())
    names.add(host_name(_shown(_reached_by(host))))
    return tuple(sorted(names))


def _reached_by(host: str) -> str:
    """Return the address at which others reach a server that is bound to ``host``."""
    if host not in EVERY_ADDRESS:
        return host
    # Nothing is sent: only the way to an address of the documentation range (RFC 5737) is asked for.
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(("192.0.2.1", 9))
            return str(asking.getsockname()[0])
        except OSError:
            return "127.0.0.1"


def _shown(host: str) -> str:
    return f"[{host}]" if ":" in host and not host.startswith("[") else host
