"""Links that carry numbers: the part of an address after '#', written and read.

``c=lever&v=1&u=us&R=40lbf&aR=6in&class=1``: the calculator, the version of this form, the units, every given box with
its unit, every choice; then ``level`` (which depths are open), ``hide`` (results that wait for the reader's own
number) and ``lock`` (boxes that can't be changed). Results are never written. A space is written as ``_``.
A link is somebody's text: reading one gives a request and raises nothing; what is unusable is said at its box.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Any
from urllib.parse import quote, unquote

VERSION = "1"
LONGEST = 2000
_PLAIN = "./:,'()+-±°"
_OWN = ("c", "v", "u", "level", "hide", "lock")


def write(
    request: Mapping[str, Any], levels: Iterable[int] = (), hide: Iterable[str] = (), lock: Iterable[str] = ()
) -> str:
    """The fragment, without '#', for a request whose given texts carry their units ("40 lbf")."""
    parts = [("c", str(request["calculator"])), ("v", VERSION), ("u", str(request.get("units", "us")))]
    parts += [(symbol, text) for symbol, text in request.get("given", {}).items() if text.strip()]
    parts += list(request.get("choices", {}).items())
    for name, values in (("level", levels), ("hide", hide), ("lock", lock)):
        if listed := ",".join(str(value) for value in values):
            parts.append((name, listed))
    return "&".join(f"{name}={_written(text)}" for name, text in parts)


@lru_cache(maxsize=256)
def _written(text: str) -> str:
    return quote(text.replace("_", "\x00"), safe=_PLAIN + " ").replace(" ", "_").replace("%00", "%5F")


def text_of_value(text: str) -> str:
    """What a value in a link says."""
    return unquote(text.replace("_", " "), errors="replace")


def read(fragment: str, choices: Iterable[str] = ()) -> dict[str, Any]:
    """The request in a fragment (with or without '#'). ``choices`` are the symbols that are choices, not boxes."""
    request: dict[str, Any] = {"calculator": "", "given": {}, "choices": {}, "units": "us", "version": VERSION}
    request |= {"level": [], "hide": [], "lock": []}
    for part in fragment[:LONGEST].removeprefix("#").split("&"):
        name, sign, text = part.partition("=")
        if not sign:
            continue
        text = text_of_value(text)
        if name in _OWN:
            key = {"c": "calculator", "v": "version", "u": "units"}.get(name, name)
            request[key] = [item for item in text.split(",") if item] if name in ("level", "hide", "lock") else text
        elif name in set(choices):
            request["choices"][name] = text
        elif name:
            request["given"][name] = text
    request["from_link"] = list(request["given"])
    return request
