"""Remembers what was installed from which lock files, so that a second run need not install again."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from pathlib import Path


def of(root: Path, files: Iterable[Path], *facts: str) -> str:
    """A digest of the files' names below `root`, of their bytes, and of facts such as a version."""
    digest = hashlib.sha256()
    for fact in facts:
        digest.update(fact.encode() + b"\0")
    for file in files:
        digest.update(file.relative_to(root).as_posix().encode() + b"\0" + hashlib.sha256(file.read_bytes()).digest())
    return digest.hexdigest()


def matches(note: Path, fingerprint: str) -> bool:
    """Whether the note was left by a finished install of just this."""
    try:
        return note.read_text(encoding="ascii").strip() == fingerprint
    except (OSError, UnicodeDecodeError):
        return False


def forget(note: Path) -> None:
    """Takes the note away before an install starts: one that is interrupted leaves none."""
    if note.exists():
        note.unlink()


def remember(note: Path, fingerprint: str) -> None:
    """Leaves the note, once an install has finished."""
    note.write_text(fingerprint + "\n", encoding="ascii")
