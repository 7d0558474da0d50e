"""Writes the engine's parts as script files, which a page may load from a disk as from a server."""

import base64
import gzip
import hashlib
import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path

PROTOCOL = 2
"""Version of what page and worker say to each other, and of how parts are written; docs/assets/engine.js holds the same
number. It stands in the parts' names, so that no browser takes one from its cache that is written in another way."""

MANIFEST = "parts.js"

NEEDED_BY_SNAPSHOT = ("wasm", "code")
"""The parts that a memory snapshot fits: it can be restored with these very bytes only."""


@cache
def packed(content: bytes) -> bytes:
    """Return a part's content as it travels."""
    return gzip.compress(content, 9, mtime=0)


def stem(name: str, content: bytes) -> str:
    """Return what the part calls itself, which is also its script's name without ".js".

    It begins with the part's name and PROTOCOL, and ends in the first 12 hexadecimal digits of the SHA-256 of the part
    as it travels: the page looks whether what arrived is what was promised, while it is being unpacked.
    """
    return f"{name}.{PROTOCOL}.{hashlib.sha256(packed(content)).hexdigest()[:12]}"


BEFORE, AFTER = "()=>{/*\n", "*/}"
"""What stands round the base64 text in a part's script: a function whose text holds it as a comment. A browser runs
over a comment, the quickest behind a line break; a string it would copy, measure and enter in a table."""


def script(called: str, travels: bytes) -> str:
    """Return the text of a part's script: one call with its name and a function that holds what travels, in base64."""
    return f'engine.part("{called}",{BEFORE}{base64.b64encode(travels).decode()}{AFTER});\n'


def base64_in(script: str) -> str:
    """Return what the text of a part's script holds: base64 of what travels."""
    return script.partition(BEFORE)[2].rpartition(AFTER)[0]


def write_payload(parts: Mapping[str, bytes], heap: int, out: Path) -> None:
    """Write each part (name -> content) and the manifest into `out`, and remove older parts.

    heap: the size in bytes of the memory in the snapshot.

    The manifest comes last, so that it never names a file that is not there.
    """
    out.mkdir(parents=True, exist_ok=True)
    rows = {}
    for name, content in parts.items():
        called = stem(name, content)
        place = out / f"{called}.js"
        if not place.exists():
            place.write_text(script(called, packed(content)), encoding="ascii")
        rows[name] = {"name": called, "size": len(content)}
    about = {"protocol": PROTOCOL, "heap": heap, "parts": rows}
    manifest = json.dumps(about, separators=(",", ":"))
    (out / MANIFEST).write_text(f"engine.manifest({manifest});\n", encoding="ascii")
    kept = {MANIFEST} | {f"{row['name']}.js" for row in rows.values()}
    for place in out.glob("*.js"):
        if place.name not in kept:
            place.unlink()


def put_into_page_script(engine: Path, script: Path) -> None:
    """Put the list of parts and the code into the page's own script, and take the code's file away: one file less to
    wait for, before the worker can begin.

    Raises ValueError if the script has no place for them.
    """
    listed = (engine / MANIFEST).read_text(encoding="ascii")
    name = read_manifest(engine)["code"]["name"]
    code = base64_in((engine / f"{name}.js").read_text(encoding="ascii"))
    text = script.read_text(encoding="utf-8")
    for place, content in (
        ('LISTED = "null"', f"LISTED = '{listed[listed.index('(') + 1 : -3]}'"),
        ('CODE = ""', f'CODE = "{code}"'),
    ):
        if text.count(place) != 1:
            raise ValueError(f"{script} has no place {place}")
        text = text.replace(place, content)
    script.write_text(text, encoding="utf-8")
    (engine / f"{name}.js").unlink()


def exchange_part(out: Path, part: str, content: bytes) -> None:
    """Put another part in the place of the one that the manifest in `out` names."""
    row, called = read_manifest(out)[part], stem(part, content)
    (out / f"{called}.js").write_text(script(called, packed(content)), encoding="ascii")
    old, new = (f'"name":"{name}","size":{size}' for name, size in ((row["name"], row["size"]), (called, len(content))))
    for listing in (out / MANIFEST, out.with_suffix(".js")):  # the page's own script lies beside the folder
        if listing.exists():
            listing.write_text(listing.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")


def read_manifest(out: Path) -> dict[str, dict[str, str | int]]:
    """Return what the manifest in `out` says of each part: part -> {"name": ..., "size": ...}."""
    text = (out / MANIFEST).read_text(encoding="ascii")
    parts: dict[str, dict[str, str | int]] = json.loads(text[text.index("(") + 1 : -3])["parts"]
    return parts


def read_part(out: Path, part: str) -> bytes:
    """Return the content of a part in `out`, unpacked.

    Raises OSError when the gzip inside is damaged.
    """
    place = out / f"{read_manifest(out)[part]['name']}.js"
    return gzip.decompress(base64.b64decode(base64_in(place.read_text(encoding="ascii"))))
