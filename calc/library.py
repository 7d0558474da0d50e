"""The project's own data files: texts that a teacher or a machinist can check, kept apart from the code."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).resolve().parent.parent / "shared"


@cache
def text_of(name: str) -> str:
    """The text of one file in ``shared/``. Raises FileNotFoundError if the project does not have it."""
    return (FOLDER / name).read_text(encoding="utf-8")


@cache
def table_of(name: str) -> dict[str, Any]:
    """A TOML file in ``shared/`` as a dict."""
    return tomllib.loads(text_of(name))
