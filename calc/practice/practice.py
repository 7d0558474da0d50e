"""Practice's part of the door: the questions of a seat, the marking of one answer, the teacher's key.

Request: ``practice``: the set (``set``, ``families``, ``level``, ``count``, ``units``, ``seat``; or ``link``, the end
of an address). Alone it gives the questions; ``picture`` the drawing of one of them, its number. ``mark``: ``question``
(from 1), ``typed``, and ``misses`` before it; ``hint`` instead asks for the first lines. ``sheets`` or ``key``: a list
of seats, for paper; the key has the working of the set's own seat with it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from calc.practice import key
from calc.practice.draw import Draw, drawn, worded
from calc.practice.families import MACHINES, Family
from calc.practice.mark import mark
from calc.practice.physics import picture
from calc.practice.prompts import prompts
from calc.practice.sets import Settings, questions, settings
from calc.practice.solution import as_list, steps

OPEN_AFTER = 3
"""The miss that opens the worked solution."""


def answer(request: Mapping[str, Any]) -> dict[str, Any]:
    """Answer one request about practice. Never raises for a dict of JSON values."""
    chosen = settings(request.get("practice"))
    result: dict[str, Any] = {
        "practice": chosen.as_answer(),
        "problems": [{"code": it.code, "text": it.text} for it in chosen.problems],
    }
    if "mark" in request:
        return result | {"mark": _marked(chosen, request["mark"])}
    if "picture" in request:
        found = _asked(chosen, request["picture"])
        return result | {"html": dict(picture(*found)) if found else {}}
    if "key" in request:
        html = key.printed(chosen, key.seats(request["key"]))
        return result | {"html": html | ({"worked": key.worked(chosen, chosen.seat)} if chosen.seat else {})}
    if "sheets" in request:
        return result | {"html": key.sheets(chosen, key.seats(request["sheets"]))}
    machines = list(dict.fromkeys(asked.machine for asked in questions(chosen)))
    return result | {
        "questions": _questions(chosen) if chosen.seat else [],
        "machines": [MACHINES[machine] for machine in machines],
        "prompts": [{"machine": MACHINES[machine], "prompts": prompts(machine)} for machine in machines],
    }


def _questions(chosen: Settings) -> list[dict[str, Any]]:
    found = []
    for number, asked in enumerate(questions(chosen), 1):
        draw = drawn(asked.id, chosen.code, number, chosen.seat)
        found.append(
            {
                "question": number,
                "family": asked.id,
                "machine": MACHINES[asked.machine],
                "level": asked.level,
                "text": worded(asked, draw),
                "wanted": asked.name,
                "unit": asked.unit,
                "picture": asked.picture,
            }
        )
    return found


def _marked(chosen: Settings, given: Any) -> dict[str, Any]:
    """What is said of one answer. Misses open the working line by line, the third one all of it."""
    told: Mapping[str, Any] = given if isinstance(given, Mapping) else {}
    found = _asked(chosen, told.get("question"))
    if found is None:
        return {"state": "unread", "start": "", "words": "", "misses": 0, "html": ""}
    asked, draw = found
    said = mark(asked, draw, str(told.get("typed") or ""))
    misses = told.get("misses")
    misses = min(misses, OPEN_AFTER) if isinstance(misses, int) and misses > 0 else 0
    if told.get("hint") is True:
        return {"state": "hint", "start": "", "words": "", "misses": misses, "html": as_list(steps(asked, draw)[:2])}
    misses += said.missed
    lines = steps(asked, draw)
    if said.state == "right" or misses >= OPEN_AFTER:
        html = as_list(lines)
    elif said.state == "unknown":
        html = as_list(lines[:misses])
    else:
        html = ""
    message = said.message
    return {
        "state": said.state,
        "code": message.code,
        "start": message.start,
        "words": message.words,
        "misses": misses,
        "open": misses >= OPEN_AFTER,
        "html": html,
    }


def _asked(chosen: Settings, number: Any) -> tuple[Family, Draw] | None:
    listed = questions(chosen)
    if not isinstance(number, int) or isinstance(number, bool) or not 1 <= number <= len(listed) or not chosen.seat:
        return None
    asked = listed[number - 1]
    return asked, drawn(asked.id, chosen.code, number, chosen.seat)
