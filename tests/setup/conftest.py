"""Programs that only pretend, and a folder that looks like a project."""

import stat
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from build_tools import python_finder

Program = Callable[[Path, str], Path]


@pytest.fixture
def program() -> Program:
    """Writes an executable shell script at a path."""

    def write(path: Path, script: str) -> Path:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("#!/bin/sh\n" + script + "\n")
        path.chmod(path.stat().st_mode | stat.S_IXUSR | stat.S_IXGRP | stat.S_IXOTH)
        return path

    return write


@pytest.fixture
def real_python() -> str:
    """A shell line that goes on as the Python that runs these tests."""
    return f'exec "{sys.executable}" "$@"'


@pytest.fixture
def here() -> str:
    """The version of the Python that runs these tests, as "3.13"."""
    return "{}.{}".format(*sys.version_info[:2])


@pytest.fixture(autouse=True)
def no_shared_folders(monkeypatch: pytest.MonkeyPatch) -> None:
    """Keeps the finder from finding what this machine happens to have."""
    monkeypatch.setattr(python_finder, "SHARED_FOLDERS", ())
