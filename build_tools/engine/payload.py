"""Writes the engine's parts as script files, which a page may load from a disk as from a server."""

import base64
import gzip
import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

PROTOCOL = 1
"""Version of what page and worker say to each other; docs/assets/engine.js holds the same number."""

MANIFEST = "parts.js"

NEEDED_BY_SNAPSHOT = ("wasm", "code")
"""The parts that a memory snapshot fits: it can be restored with these very bytes only."""


def digest(content: bytes) -> str:
    """Return the short content hash that a part carries in its file name."""
    return hashlib.sha256(content).hexdigest()[:12]


def stem(name: str, content: bytes) -> str:
    """Return what the part calls itself, which is also its script's name without ".js"."""
    return f"{name}.{digest(content)}"


def write_payload(parts: Mapping[str, bytes], heap: int, out: Path) -> None:
    """Write each part (name -> content) and the manifest into `out`, and remove older parts.

    heap: the size in bytes of the memory in the snapshot.

    A part is one call with its name and a base64 text of its gzip; the manifest comes last, so that
    it never names a file that is not there.
    """
    out.mkdir(parents=True, exist_ok=True)
    rows = {}
    for name, content in parts.items():
        called = stem(name, content)
        script = out / f"{called}.js"
        if not script.exists():
            text = base64.b64encode(gzip.compress(content, 9, mtime=0)).decode()
            script.write_text(f'engine.part("{called}","{text}");\n', encoding="ascii")
        rows[name] = {"name": called, "size": len(content)}
    about = {"protocol": PROTOCOL, "heap": heap, "parts": rows}
    manifest = json.dumps(about, separators=(",", ":"))
    (out / MANIFEST).write_text(f"engine.manifest({manifest});\n", encoding="ascii")
    kept = {MANIFEST} | {f"{row['name']}.js" for row in rows.values()}
    for script in out.glob("*.js"):
        if script.name not in kept:
            script.unlink()


def read_manifest(out: Path) -> dict[str, dict[str, str | int]]:
    """Return what the manifest in `out` says of each part: part -> {"name": ..., "size": ...}."""
    text = (out / MANIFEST).read_text(encoding="ascii")
    parts: dict[str, dict[str, str | int]] = json.loads(text[text.index("(") + 1 : -3])["parts"]
    return parts


def read_part(out: Path, part: str) -> bytes:
    """Return the content of a part in `out`, unpacked.

    Raises OSError when the gzip inside is damaged.
    """
    script = out / f"{read_manifest(out)[part]['name']}.js"
    text = script.read_text(encoding="ascii").rsplit('"', 2)[1]
    return gzip.decompress(base64.b64decode(text))
