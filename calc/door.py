"""The only door: a request dict in, an answer dict out (JSON both ways), for page, prerenderer, terminal and tests.

A request names a calculator, or what is to be done with a record sheet (``record``), or several of them
(``class``, ``group_file``), or asks for a plan (``plan``) or for a kit as a file (``kit_file``, ``write_kit``),
or for a set of problems (``practice``).
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from calc.answer import answer as of_a_calculator
from calc.lab import pool, sheet
from calc.plan import door as plan_door
from calc.practice import practice


def answer(request: Mapping[str, Any]) -> dict[str, Any]:
    """Answer one request. Never raises for a dict of JSON values; what is wrong comes back as messages.

    The keys of request and answer are listed in the contributor's guide.
    """
    if "record" in request:
        return sheet.answer(request)
    if "class" in request or "group_file" in request:
        return pool.answer(request)
    if "plan" in request or "kit_file" in request or "write_kit" in request:
        return plan_door.answer(request)
    if "practice" in request:
        return practice.answer(request)
    return of_a_calculator(request)


def answer_json(text: str) -> str:
    """``answer`` for JSON text, for the browser engine. A text that is no JSON object gets the key message."""
    try:
        request = json.loads(text)
    except (ValueError, RecursionError):
        request = {}
    return json.dumps(answer(request if isinstance(request, dict) else {}), allow_nan=False)
