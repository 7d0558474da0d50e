"""Requests that once broke the door, each with what went wrong: found by the long run or by reading, now answered."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import calc
from tests.hostile.asked import KIT

Request = dict[str, Any]


def _lever(**given: str) -> Request:
    return calc.example("lever") | {"given": given}


def _lab(**parts: Any) -> Request:
    return {"record": "wheel-lab", "units": "us", "rows": [{"R": "30", "E": "7.5"}], "draw": "both", **parts}


def _wedge(length: str) -> Request:
    given = {"R": "20", "ell": length, "t": "3", "F_x": "0.001182"}
    choices = {"kind": "single", "wedge": "work", "surfaces": "start", "faces": "one", "guide": "guided"}
    return calc.example("wedge-with-friction") | {"given": given, "choices": choices, "draw": "both"}


def _path(**given: str) -> Request:
    return calc.example("work-and-power") | {"given": {"F": "65", "d": "1.2", "t": "5", **given}}


def _wrapped(**given: str) -> Request:
    return calc.example("wrap-test", "si") | {"given": given}


def _predicted(key: str, symbol: str, text: str) -> Request:
    return calc.example(key) | {"hide": [symbol], "predicted": {symbol: {"text": text, "units": "us"}}}


def _group(**parts: Any) -> Request:
    names = ("load", "effort", "ama", "ama_doubt", "ima", "ima_doubt", "eta", "eta_doubt")
    numbers = dict.fromkeys(names, 1.0)
    group = {"name": "1", "lab": "ramp-lab", "n": 3, "impossible": False, **numbers}
    return {"class": [{**group, **parts}, group]}


FOUND: list[tuple[str, Callable[[], Request]]] = [
    ("a zero with a huge exponent", lambda: _lever(R="0e9999", aR="6 in", aE="0e-9999")),
    ("a list where a symbol is wanted", lambda: calc.example("lever") | {"hide": [["E"], {"E": 1}, None]}),
    ("a whole number too long for Python", lambda: {"kit_file": "a = " + "1" * 5000}),
    ("the same written by sixteens", lambda: {"kit_file": "[[plank]]\nlength = 0x" + "f" * 5000}),
    ("a name with a superscript", lambda: _group(name="a²")),
    ("efficiencies whose sum has no end", lambda: _group(eta=1e308)),
    ("a key of very many parts", lambda: {"kit_file": "a" + ".a" * 90_000 + " = 1"}),
    ("very many unknown keys", lambda: {"kit_file": "".join(f"a{i} = 1\n" for i in range(18_000))}),
    ("very many unknown sizes", lambda: {"kit_file": "[[plank]]\n" + "".join(f"a{i} = 1\n" for i in range(18_000))}),
    ("a head of very many spaces", lambda: {"record": "", "open": "trial,R (" + " " * 100_000 + "\n1,2"}),
    ("a head of very many columns", lambda: {"record": "", "open": "trial" + ",R" * 900_000 + "\n1,2"}),
    ("a doubt whose square has no end", lambda: _lever(R="40", aR="6", aE="24 ± 1e200")),
    ("a scale as wrong as a number can be", lambda: _lab(tools={"unit": "lbf", "accuracy": 1e308})),
    ("a long wedge with a doubt in its label", lambda: _wedge("9000 ± 0.1")),
    ("a predicted angle with sixty zeros", lambda: _predicted("ramp", "theta", "1e60")),
    ("a hook heavier than a number can be", lambda: _lab(tools={"hook": 1e308, "position": "up"})),
    ("a bar held up by more than a number can be", lambda: _lab(record="lever-lab", tare="1e308")),
    ("work next to nothing", lambda: _path(W="5e-324")),
    ("so little work that no float has its angle", lambda: _path(W="1e-29")),
    ("a force next to nothing along the path", lambda: _path(F_d="9e-249")),
    ("a doubt in the thirteenth figure", lambda: _wrapped(B="0.28", H="50000 ± 0.1", d="25")),
    ("a card of a load like a feather", lambda: {"plan": {"R": "0.06 lbf", "h": "0.024 in"}, "kit": KIT, "card": 10}),
]
