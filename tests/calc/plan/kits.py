"""Kits for tests: in plain numbers (lbf, in) drawn by a seed, and the same as texts for the planner."""

from __future__ import annotations

from random import Random
from typing import Any

from calc.plan.kit import Kit, read_kit
from calc.plan.rig import Bench
from calc.plan.task import Task, read_task

UNITS = {
    "capacity": "lbf",
    "weight": "lbf",
    "rated": "lbf",
    "side": "lbf",
    **dict.fromkeys(
        [
            "length",
            "width",
            "thickness",
            "diameter",
            "arm",
            "height",
            "crank",
            "drum",
            "handle",
            "collar",
            "travel",
            "cheek",
        ],
        "in",
    ),
}


def some_kit(draw: Random, most: int = 2) -> dict[str, list[dict[str, Any]]]:
    """A kit with up to ``most`` things of each kind."""
    make = {
        "scale": lambda: {"capacity": draw.choice([5, 10, 25, 50, 100])},
        "plank": lambda: {
            "length": draw.choice([36, 48, 72, 96, 120, 144, 192]),
            "width": draw.choice([5.5, 7.25, 9.25, 11.25]),
            "thickness": draw.choice([0.75, 1.5, 1.5, 2.5]),
        },
        "prop": lambda: {"rated": draw.choice([50, 150, 500])},
        "rope": lambda: {
            "length": 12 * draw.choice([8, 15, 25, 50, 100]),
            "diameter": draw.choice([0.25, 0.5, 0.75]),
            "rated": draw.choice([20, 60, 150, 300]),
        },
        "block": lambda: {
            "count": draw.choice([1, 2]),
            "sheaves": draw.choice([1, 2, 3]),
            "weight": draw.choice([1, 2, 5]),
            "diameter": draw.choice([1.5, 2.5, 4]),
            "keeps": draw.choice([(0.8, 0.85), (0.9, 0.94), (0.95, 0.97)]),
            "rated": draw.choice([40, 100, 300, 600]),
        },
        "anchor": lambda: {
            "rated": draw.choice([60, 150, 400, 800]),
            **draw.choice([{}, {"side": 60}, {"side": 150}, {"side": 400}]),
        },
        "bar": lambda: {
            "length": draw.choice([24, 36, 54, 72, 96]),
            "weight": draw.choice([3, 8, 15]),
            "arm": draw.choice([3, 6, 12, 20]),
            "efficiency": draw.choice([(0.95, 1.0), (0.9, 0.95)]),
        },
        "packing": lambda: {"height": draw.choice([2, 6, 12])},
        "cart": lambda: {
            "weight": draw.choice([10, 25, 40]),
            "rolling": draw.choice([(0.01, 0.03), (0.02, 0.05), (0.05, 0.1)]),
            "rated": draw.choice([40, 100, 300]),
        },
        "windlass": lambda: {
            "crank": draw.choice([8, 12, 15]),
            "drum": draw.choice([3, 6, 10]),
            "width": draw.choice([2, 4, 8, 16]),
            "efficiency": draw.choice([(0.8, 0.95), (0.6, 0.8)]),
            "rated": draw.choice([30, 80, 150]),
            **draw.choice([{}, {"cheek": 0.8}, {"cheek": 1.3}, {"cheek": 2.6}]),
        },
        "wedge": lambda: {
            "length": draw.choice([6, 9, 12]),
            "thickness": draw.choice([1, 1.5, 2.5]),
            "friction": draw.choice([(0.1, 0.2), (0.2, 0.5)]),
        },
        "screw": lambda: {
            "thread": draw.choice(["3/4-6-Acme", "1/2-10-Acme"]),
            "handle": draw.choice([1.25, 3, 5]),
            "collar": draw.choice([0.8, 1.1]),
            "travel": draw.choice([1, 4, 12]),
            "friction": draw.choice([(0.1, 0.2), (0.15, 0.3)]),
            "rated": draw.choice([50, 200, 500]),
        },
    }
    return {
        kind: [{"name": f"{kind} {i}", **thing()} for i in range(draw.choice(range(most + 1)))]
        for kind, thing in make.items()
    }


def some_task(draw: Random) -> dict[str, Any]:
    """A task whose load and lift no limit of ``some_kit`` meets exactly."""
    return {
        "R": draw.choice([7.3, 18.7, 33.1, 59.3, 88.7, 133.3]),
        "job": draw.choice(["raise", "raise", "level"]),
        "h": draw.choice([0.93, 1.43, 3.7, 7.9, 11.7, 23.3, 37.1]),
        "d": draw.choice([43.0, 101.0, 239.0, 467.0]),
        "pull": draw.choice([12.3, 25.7, 40.1]),
        "hang": 12.0,
        "most": 100.0,
        "room": draw.choice([None, None, 101.3, 187.7, 260.3, 500.3]),
        "mu_s": draw.choice([None, (0.15, 0.25), (0.4, 0.75)]),
        "mu_k": (0.1, 0.2),
        "people": draw.choice(["one", "one", "two"]),
    }


def as_kit(kit: dict[str, list[dict[str, Any]]]) -> Kit:
    """The same kit, read by the planner from texts."""
    rows = {kind: [{name: _text(name, value) for name, value in thing.items()} for thing in kit[kind]] for kind in kit}
    read, problems = read_kit(rows)
    assert not problems, problems
    return read


def _text(name: str, value: Any) -> str:
    if isinstance(value, tuple):
        unit = " %" if value[1] > 0.55 else ""
        return " to ".join(f"{end * (100 if unit else 1):g}{unit}" for end in value)
    return value if isinstance(value, str) else f"{value!r} {UNITS.get(name, '')}".strip()


def as_task(task: dict[str, Any]) -> Task:
    """The same task, read by the planner from texts."""
    units = {"R": "lbf", "h": "in", "d": "in", "pull": "lbf", "hang": "in", "most": "lbf", "room": "in"}
    given = {symbol: f"{task[symbol]!r} {unit}" for symbol, unit in units.items() if task[symbol] is not None}
    own = {"surfaces": "no"}
    if task["mu_s"]:
        own = {"surfaces": "own", **{s: " to ".join(map(repr, task[s])) for s in ("mu_s", "mu_k")}}
    read, errors = read_task({**given, **own, "people": task["people"], "job": task["job"]}, "us")
    assert read is not None, errors
    return read


def bench(kit: dict[str, list[dict[str, Any]]], task: dict[str, Any]) -> Bench:
    """Both together."""
    return Bench(as_kit(kit), as_task(task))
