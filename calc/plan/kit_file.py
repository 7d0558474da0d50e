"""A kit as a small text file in TOML, read and written. The form of the file is told at its head.

Reading is forgiving: a line that is no TOML is named and passed over, a thing that can't be used is named by its line,
and the rest is used.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from typing import Any

from calc.measure import shortened
from calc.plan.kit import ITEM_KINDS, read_kit, things

LARGEST = 200_000
LONGEST_LINE = 1000
MOST_BAD_LINES = 20
MOST_SAID = 50
HEAD = """\
# A kit: what a lab owns, for planning a demonstration.
# units: what a number without a unit means, "us" (in, ft, lbf) or "si" (mm, m, N).
# Each [[plank]], [[rope]] and so on is one thing. A size is a text with its unit: "12 ft", "8' 6\\"", "50 lbf".
# A range is written "0.02 to 0.05". What is left out takes its default. rated: the maker's limit, and no other.
"""
_AT_LINE = re.compile(r"\(at line (\d+), column \d+\)")


@dataclass
class Opened:
    """What was in a file: the kit's name, its units, its things as texts, and what could not be used."""

    name: str = ""
    units: str = "us"
    rows: dict[str, list[dict[str, str]]] = field(default_factory=dict)
    problems: list[dict[str, Any]] = field(default_factory=list)

    def say(self, line: int, words: str) -> None:
        """Note a problem at a line; 0 for the whole file."""
        self.problems.append({"line": line, "words": words})


def opened(text: str) -> Opened:
    """Read a kit file. Never raises."""
    found = Opened()
    if len(text) > LARGEST:
        found.say(0, "This file is too large to be a kit.")
        return found
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    data = _parsed(text, found)
    for key, value in data.items():
        if key == "name":
            found.name = str(value)[:60] if isinstance(value, str | int | float) else ""
        elif key == "units":
            found.units = value if value in ("us", "si") else "us"
        elif (key not in ITEM_KINDS or not isinstance(value, list)) and len(found.problems) < MOST_SAID:
            found.say(_line_of(text, key, 0, ""), f"I do not know “{shortened(key)}”. It was passed over.")
    listed = {key: data[key] for key in data if key in ITEM_KINDS and isinstance(data[key], list)}
    for kind, _, row in things(listed):
        found.rows.setdefault(kind, []).append(row)
    unsaid = read_kit(found.rows, found.units)[1]
    for problem in unsaid[: MOST_SAID - len(found.problems)]:
        label = f"{problem.field}: " if problem.field else ""
        found.say(_line_of(text, problem.kind, problem.index, problem.field), label + problem.words)
    if len(found.problems) >= MOST_SAID:
        found.say(0, "There may be more that could not be used. Mend these first.")
    return found


def _parsed(text: str, found: Opened) -> dict[str, Any]:
    """The file as data, without those lines that are no TOML; each is named."""
    lines = text.split("\n")
    for at, line in enumerate(lines):
        if len(line) > LONGEST_LINE:
            if len(found.problems) < MOST_BAD_LINES:
                found.say(at + 1, f"This line is too long, and was passed over: {shortened(line.strip())}")
            lines[at] = ""
    for _ in range(MOST_BAD_LINES):
        try:
            return tomllib.loads("\n".join(lines))
        except (tomllib.TOMLDecodeError, RecursionError) as problem:
            place = _AT_LINE.search(str(problem))
            number = int(place[1]) if place else len(lines)
            while number > 1 and not lines[number - 1].strip():
                number -= 1
            if not lines[number - 1].strip():
                break
            what = lines[number - 1].strip()
            found.say(number, f"This line is not TOML, and was passed over: {shortened(what)}")
            lines[number - 1] = ""
    found.say(0, "This file is not a kit in TOML.")
    return {}


def _line_of(text: str, kind: str, index: int, name: str) -> int:
    """The line of a field of the index-th thing of a kind; that of the thing's head if the field is not there."""
    head, seen, at = 0, -1, 0
    for number, line in enumerate(text.split("\n"), 1):
        bare = line.strip()
        if bare.startswith("["):
            inside = bare.strip("[] \t").partition("#")[0].strip("] ") == kind
            seen += inside
            if inside and seen == index:
                head = number
            elif head:
                break
        elif not head and not name and re.match(rf"{re.escape(kind)}\s*=", bare):
            return number
        elif head and name and re.match(rf"\"?{re.escape(name)}\"?\s*=", bare):
            at = number
    return at or head


def written(rows: Any, name: str = "", units: str = "us") -> str:
    """The text of a kit file. What is read from it is what was written."""
    parts = [HEAD, f"name = {_quoted(name)}", f"units = {_quoted(units)}"]
    for kind, _, row in things(rows):
        parts += ["", f"[[{_key(kind)}]]", *(f"{_key(field)} = {_quoted(text)}" for field, text in row.items())]
    return "\n".join(parts) + "\n"


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else _quoted(name)


def _quoted(text: str) -> str:
    """A basic string of TOML: backslash and quote escaped, control characters by their number."""
    text = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + re.sub(r"[\x00-\x1f\x7f]", lambda ch: f"\\u{ord(ch[0]):04x}", text) + '"'
