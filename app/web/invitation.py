"""What is printed for whoever comes with a tablet: the address as words and as a QR code, the key, and what plain HTTP
does not protect.
"""

from __future__ import annotations

import io
from typing import TextIO
from urllib.parse import quote

import segno

QUIET_MODULES = 2
BLOCKS = "█▀▄"
# White on black whatever the terminal's own colours are, since the code is drawn in its light places.
WHITE_ON_BLACK, USUAL = "\x1b[97;40m", "\x1b[0m"

NOT_PROTECTED = (
    "This is plain HTTP: whoever can listen on this network can read the jobs, the key and the cookie, and change\n"
    "what passes by. Use it in a network that you trust. At such an address browsers keep no page that opens without\n"
    "the server, and do not keep the screen awake."
)


def invitation(address: str, key: str, out: TextIO) -> str:
    """Return what to print on ``out`` for somebody who is to reach ``address`` with ``key``."""
    return "\n".join(
        (
            f"Others in this network: open {address}/key or scan this, and give the key once.",
            "",
            f"    Key: {key}",
            "",
            # Behind the # the key stays in the browser; it is in no log of any server.
            qr_code(f"{address}/key#{quote(key)}", out),
            NOT_PROTECTED,
        )
    )


def qr_code(text: str, out: TextIO) -> str:
    """Return a QR code for a terminal, or a sentence where the terminal has not got the characters."""
    try:
        BLOCKS.encode(out.encoding or "ascii")
    except UnicodeEncodeError:
        return "(This terminal cannot show the QR code.)\n"
    drawn = io.StringIO()
    segno.make(text, error="m", micro=False).terminal(drawn, border=QUIET_MODULES, compact=True)
    lines = drawn.getvalue().splitlines()
    if out.isatty():
        lines = [f"{WHITE_ON_BLACK}{line}{USUAL}" for line in lines]
    return "\n".join(lines) + "\n"
