"""Lets a second run wait until the first has finished installing."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO


@contextmanager
def one_at_a_time(file: Path) -> Iterator[None]:
    """Holds the file's lock; the system lets go of it however the run ends."""
    file.parent.mkdir(parents=True, exist_ok=True)
    with open(file, "ab") as held:
        if not _taken(held):
            print("Another run is installing here: waiting for it to finish.", flush=True)
            while not _taken(held):
                time.sleep(0.2)
        yield


def _taken(held: BinaryIO) -> bool:
    try:
        if os.name == "nt":
            import msvcrt

            held.seek(0)
            msvcrt.locking(held.fileno(), msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined,unused-ignore]
        else:
            import fcntl

            fcntl.flock(held.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
