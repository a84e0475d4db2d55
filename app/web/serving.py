"""The server: waitress, on 127.0.0.1 unless told otherwise, and the address in words."""

from __future__ import annotations

import gc
import ipaddress
import socket
from collections.abc import Sequence
from pathlib import Path

from waitress.server import create_server

from app.web.application import create_app
from app.web.security import LOOPBACK_HOSTS, host_name
from app.web.service import EXTENSION

THREADS = 4
# Above what the application itself refuses with a problem detail, so that a person gets that one; below what would
# hurt, since a body is taken in before the application sees it.
MAX_BODY_BYTES = 16 * 1024 * 1024


def serve(host: str, port: int, data_dir: Path, extra_hosts: Sequence[str] = ()) -> None:
    """Serve until interrupted (Ctrl+C), then return.

    Raises:
        OSError: the address cannot be bound or the folder not written.
    """
    app = create_app(data_dir, loopback=is_loopback(host), allowed_hosts=allowed_hosts(host, extra_hosts))
    server = create_server(
        app, host=host, port=port, threads=THREADS, max_request_body_size=MAX_BODY_BYTES, ident="rungwright"
    )
    bound = getattr(server, "effective_port", port)
    address = f"http://{_shown(host)}:{bound}"
    print(f"Rungwright serves on {address} (stop with Ctrl+C); jobs are kept in {data_dir}", flush=True)
    _collect_rarely()
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

    Bound to every address, it also answers to this machine's own name; other names are said with ``extra``.
    """
    names = {*LOOPBACK_HOSTS, *(host_name(name) for name in extra)}
    if host in ("0.0.0.0", "::", ""):
        names.add(socket.gethostname().lower())
    else:
        names.add(host_name(_shown(host)))
    return tuple(sorted(names))


def _shown(host: str) -> str:
    return f"[{host}]" if ":" in host and not host.startswith("[") else host
