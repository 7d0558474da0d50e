"""Requests to ``calc`` as pages write them: a calculator's key, and text for some of its boxes and choices."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import calc


class UnknownCalculatorError(ValueError):
    """A page names a calculator that does not exist."""


def request(
    key: str, given: Mapping[str, str] | None = None, units: str = "us", *, bare: bool = False
) -> dict[str, Any]:
    """The example of calculator ``key`` with ``given`` laid over it; if ``bare``, with these boxes alone.

    Choices that are not given stay the example's. Raises UnknownCalculatorError for an unknown key.
    """
    known = calc.keys()
    if key not in known:
        raise UnknownCalculatorError(f"There is no calculator {key!r}. There are: {', '.join(sorted(known))}.")
    example = calc.example(key, units)
    choices = {choice["symbol"] for choice in calc.describe(key)["choices"]}
    boxes = {symbol: text for symbol, text in (given or {}).items() if symbol not in choices}
    chosen = {symbol: text for symbol, text in (given or {}).items() if symbol in choices}
    kept = {} if bare else example["given"]
    return {**example, "given": {**kept, **boxes}, "choices": {**example["choices"], **chosen}}


def complaints(answer: Mapping[str, Any]) -> str:
    """What an answer complains of, in one line; empty if of nothing."""
    return "; ".join(str(error["text"]) for error in answer["errors"])
