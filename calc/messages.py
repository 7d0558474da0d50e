"""Every message of the calculators, from one table of words (``shared/messages.toml``)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from calc.library import table_of


@dataclass(frozen=True)
class Message:
    """One message: its code, the bold beginning, the rest, and a text that a button may put in the box."""

    code: str
    start: str
    words: str
    fill: str | None = None

    @property
    def text(self) -> str:
        """The whole message as one line."""
        return f"{self.start} {self.words}".strip()


def message(code: str, /, fill: str | None = None, **parts: Any) -> Message:
    """The message of a code with its parts filled in. Raises KeyError for an unknown code or a missing part."""
    entry = table_of("messages.toml")[code]
    start, words = (_capital(entry[part].format_map(parts)) for part in ("start", "words"))
    return Message(code, start, words, fill)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


class Refused(ValueError):
    """A typed text that cannot be used; carries the message for its box."""

    def __init__(self, code: str, /, fill: str | None = None, **parts: Any) -> None:
        self.message = message(code, fill, **parts)
        super().__init__(self.message.text)
