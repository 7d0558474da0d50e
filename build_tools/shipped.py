"""What the site carries that others wrote: each piece with its version, its licence, and the licence's whole text.

The pieces stand in ``shared/pages/licences.toml``. A version is never written there: it comes from where it is locked.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cache
from importlib import metadata
from pathlib import Path
from typing import Any

from build_tools.lookup_block import ROOT, data

TEXTS = ROOT / "shared/pages/licences"
FOLDER = "licences"
"""Where the texts lie in the built site."""

_LICENCE_FILE = re.compile(r"licen[cs]e|copying|notice", re.I)


class NoLicenceText(ValueError):
    """A piece has no text of its licence; the words say which."""


@dataclass(frozen=True)
class Piece:
    """One piece of others' work in the site.

    part: ``engine``, ``look`` or ``pages``.
    version: as locked, or "with" the piece that it comes in.
    licence: an SPDX identifier.
    file: where its licence's text lies in the site.
    """

    name: str
    part: str
    does: str
    version: str
    licence: str
    file: str
    text: str


@cache
def pieces() -> tuple[Piece, ...]:
    """All pieces, in the order of the data. Raises NoLicenceText."""
    return tuple(_piece(entry) for entry in data("licences")["piece"])


def write_texts(site: Path) -> None:
    """Write the licence text of each piece into a built site."""
    (site / FOLDER).mkdir(exist_ok=True)
    for piece in pieces():
        (site / piece.file).write_bytes(piece.text.encode())


def _piece(entry: dict[str, Any]) -> Piece:
    text = _text(entry)
    if not text.strip():
        raise NoLicenceText(f"shared/pages/licences.toml: no text of a licence for {entry['name']!r}.")
    stem = re.sub(r"[^a-z0-9]+", "-", entry["name"].lower()).strip("-")
    return Piece(
        entry["name"], entry["on"], entry["does"], _version(entry), entry["licence"], f"{FOLDER}/{stem}.txt", text
    )


def _version(entry: dict[str, Any]) -> str:
    if "pip" in entry:
        return metadata.version(entry["pip"])
    if "npm" in entry:
        locked = json.loads((ROOT / "package-lock.json").read_text("utf-8"))["packages"]
        return str(locked[f"node_modules/{entry['npm']}"]["version"])
    if "pyodide" in entry:
        info = json.loads((ROOT / "node_modules/pyodide/pyodide-lock.json").read_text("utf-8"))["info"]
        return str(info[entry["pyodide"]]).removeprefix("emscripten_").replace("_", ".")
    if "table" in entry:
        source = (ROOT / "shared/tables" / entry["table"]).read_text("utf-8")
        return str(re.findall(rf"{re.escape(entry['name'])} ([\d.]+)", source)[0])
    return f"with {entry['inside']}"


def _text(entry: dict[str, Any]) -> str:
    """Every text of the piece's licence, one after the other."""
    files = [TEXTS / name for name in entry.get("texts", ())]
    # the theme's icons are files of its package
    theme = metadata.distribution("mkdocs-material")
    files = [Path(str(theme.locate_file(name))) for name in entry.get("packaged", ())] + files
    if not files and "pip" in entry:
        own = metadata.distribution(entry["pip"])
        files = [
            Path(str(own.locate_file(path)))
            for path in sorted(own.files or ())
            if path.parts[0].endswith(".dist-info") and _LICENCE_FILE.search(path.name)
        ]
    return "\n\n".join(_read(file) for file in files)


def _read(file: Path) -> str:
    return "\n".join(line.rstrip() for line in file.read_text("utf-8").strip("\n").splitlines()) + "\n"
