"""Tries a command out: a name on PATH promises nothing until the program behind it has answered."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import tempfile
from collections.abc import Sequence

LONGEST_ANSWER = 100_000


def answer_of(command: Sequence[str], seconds: float = 10.0) -> str | None:
    """What the command prints, or None when it fails, hangs for longer than `seconds` or cannot be started."""
    # The answer goes to a file, not a pipe: a child that a killed shim leaves behind would hold a pipe open.
    with tempfile.TemporaryFile() as printed:
        try:
            process = subprocess.Popen(
                list(command),
                stdin=subprocess.DEVNULL,
                stdout=printed,
                stderr=subprocess.DEVNULL,
                start_new_session=os.name != "nt",
            )
        except (OSError, ValueError):
            return None
        try:
            code = process.wait(timeout=seconds)
        except subprocess.TimeoutExpired:
            _end(process)
            return None
        if code != 0:
            return None
        printed.seek(0)
        return printed.read(LONGEST_ANSWER).decode("utf-8", "replace").strip()


def _end(process: subprocess.Popen[bytes]) -> None:
    """Ends a program that hangs, and on POSIX whatever it started."""
    if os.name != "nt":
        with contextlib.suppress(ProcessLookupError):
            os.killpg(process.pid, signal.SIGKILL)
    process.kill()
    process.wait()
