"""What can be wrong with a stick, in words for the person who holds it."""

from __future__ import annotations

import errno
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

FULL = {errno.ENOSPC, errno.EFBIG, *(getattr(errno, name) for name in ("EDQUOT",) if hasattr(errno, name))}
READ_ONLY = {errno.EROFS, errno.EACCES, errno.EPERM}


class StickTrouble(Exception):
    """The stick cannot be copied to, or read; the words say what is wrong and what would mend it."""


@contextmanager
def told(folder: Path) -> Iterator[None]:
    """Turns what the system says into plain words. Raises StickTrouble."""
    try:
        yield
    except OSError as error:
        raise StickTrouble(_words(error, folder)) from error


def _words(error: OSError, folder: Path) -> str:
    at = f" It stopped at {error.filename}." if error.filename else ""
    mend = "What was copied so far is whole; the same command goes on from there."
    if error.errno in FULL:
        return f"The stick at {folder} is full.{at} Make room on it. {mend}"
    if error.errno in READ_ONLY:
        return (
            f"Nothing can be written to {folder}: it is read-only, or yours only to read.{at} "
            "Look for a small switch on the stick, or take another one."
        )
    if not folder.exists():
        return f"The stick at {folder} is gone.{at} Plug it in again. {mend}"
    return (
        f"The stick at {folder} cannot be used: {error.strerror or error}.{at} Try again, or take another stick. {mend}"
    )


def size(count: int) -> str:
    """A number of bytes as a reader says it: 22.4 MB (a million bytes each, as sticks are sold)."""
    return f"{count / 1e6:.1f} MB"
