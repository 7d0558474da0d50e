"""The content security policy that stands in every page: the site's own files, and nothing else.

Each exception has its reason. ``file:`` beside ``'self'``: browsers differ in what a page on a disk counts as its own.
A hash: one of the theme's three short inline scripts. ``'wasm-unsafe-eval'``: compiling Python's WebAssembly (it
allows no script). ``blob:`` for workers: from a disk a worker can only be made from a Blob. ``data:`` for images: the
theme's style sheet draws its arrows so. Connecting to the site itself: over http the theme's search fetches its index.
"""

from __future__ import annotations

import base64
import hashlib
import re

_INLINE_SCRIPT = re.compile(r"<script(?![^>]*\b(?:src|type)=)[^>]*>(.*?)</script>", re.S)
_HEAD = re.compile(r"<head[^>]*>")

POLICY = {
    "default-src": "'none'",
    "script-src": "'self' file: 'wasm-unsafe-eval' {hashes}",
    "worker-src": "'self' file: blob:",
    "connect-src": "'self'",
    "style-src": "'self' file:",
    "img-src": "'self' file: data:",
    "base-uri": "'none'",
    "form-action": "'none'",
}


def hashes(html: str) -> list[str]:
    """The sources that allow a page's inline scripts, each by its SHA-256, in the order of the page."""
    found = []
    for script in _INLINE_SCRIPT.findall(html):
        digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
        found.append(f"'sha256-{digest}'")
    return list(dict.fromkeys(found))


def with_policy(html: str) -> str:
    """The page with its policy as the first thing in its head. Raises ValueError if it has no head."""
    rules = "; ".join(f"{name} {sources}" for name, sources in POLICY.items())
    content = rules.format(hashes=" ".join(hashes(html))).replace(" ;", ";")
    meta = f'<meta http-equiv="Content-Security-Policy" content="{content}">'
    page, count = _HEAD.subn(lambda head: head[0] + meta, html, count=1)
    if not count:
        raise ValueError("a page without a head cannot carry its content security policy")
    return page
