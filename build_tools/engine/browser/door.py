"""The one door between the worker and calc: a question as JSON text in, its answer as JSON text out.

In a memory snapshot most of the standard library is not there yet. What needs more of it is held back:
the import raises NotHereYet, the worker brings the library, calls `settle`, and asks again.
"""

import importlib
import random
import sys
import tempfile

import calc


class NotHereYet(BaseException):
    """An import outside the snapshot; not an Exception, so that nobody takes it for a missing module."""


class _HoldBack:
    """Stands first in the import system: the finders behind it would look into files that are not there."""

    @staticmethod
    def find_spec(name: str, path: object = None, target: object = None) -> None:
        """Raise NotHereYet for any module."""
        raise NotHereYet(name)


def answer(question: str) -> str | None:
    """Return calc's answer to the question, both JSON text; None if it needs the whole library."""
    try:
        words: str = calc.answer_json(question)
    except NotHereYet:
        return None
    return words


def hold_back_imports() -> None:
    """Make every import outside the snapshot raise NotHereYet, until `settle`."""
    sys.meta_path.insert(0, _HoldBack)


def restart_chance() -> None:
    """Give a restored snapshot its own random numbers: all copies of it were made with the same."""
    random.seed()
    vars(tempfile)["_name_sequence"] = None  # where tempfile keeps its random names


def settle() -> None:
    """Let imports happen again, once the files are there."""
    sys.meta_path.remove(_HoldBack)
    importlib.invalidate_caches()
