"""The mark of a build: in each page, in the addresses of its scripts, and in the engine's list of parts.

A server's new version must never meet an old page half way. A script's address carries the mark, so that no cache gives
an old one to a new page; each script carries it too, and does nothing on a page that asked for another build's; the
engine compares its page's mark with the list's. Where two differ the reader is asked to load the page again.
"""

from __future__ import annotations

import re
from pathlib import Path

SETTING = "SITE_BUILD_MARK"
"""The environment variable that tells the page builder the mark: a file may change while it builds."""

FIRST = "whole.js"
"""The script that tells the reader: it alone goes on in a page of another build."""

_GUARD = (
    'const script=document.currentScript;if(script.src.includes("?")&&!script.src.endsWith("?%s"))'
    '{script.dataset.other="";dispatchEvent(new Event("other-version"));%s}'
)
_STOP = 'throw new Error("This script is of another version than its page.")'

_IN_PAGE = re.compile(r'<meta name="build" content="([^"]*)">')

_OWN = re.compile(r'((?:src|href)="(?:\.\./)*assets/(?:engine/)?[\w-]+\.(?:js|css))"')


def mark(inputs: str, edition: str) -> str:
    """The mark of an edition made from inputs with this digest."""
    return f"{inputs[:12]}-{edition}"


def of_page(html: str) -> str:
    """The mark that a built page carries; "" for none."""
    found = _IN_PAGE.search(html)
    return found[1] if found else ""


def in_addresses(html: str, mark: str) -> str:
    """The page with the mark in the address of each script and style of ours; a disk passes over what follows "?"."""
    return _OWN.sub(rf'\1?{mark}"', html)


def in_list_of_parts(parts: Path, mark: str) -> None:
    """Puts the mark into the engine's list of parts."""
    text = parts.read_text("ascii")
    if "engine.manifest({" not in text:
        raise ValueError(f"{parts} is not a list of parts")
    parts.write_text(text.replace("engine.manifest({", f'engine.manifest({{"build":"{mark}",', 1), "ascii")


def in_scripts(assets: Path, mark: str) -> None:
    """Puts a guard before each page script: it compares the mark in the script's address with the script's own."""
    for script in sorted(assets.glob("*.js")):
        guard = _GUARD % (mark, "" if script.name == FIRST else _STOP)
        text = script.read_text("utf-8").removeprefix('"use strict";')
        script.write_text(f'"use strict";{{{guard}}}\n{text.lstrip()}', "utf-8")
