"""The elements and attributes that calc makes for requests as the pages send them: no other may ever come out."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

import calc
from calc.lab.plan import LABS
from calc.practice.families import MACHINES
from calc.registry import CALCULATORS
from tests.hostile.asked import KIT
from tests.hostile.fragments import Mark, fragments, marks


def _calculators() -> Iterator[dict[str, Any]]:
    for key, calculator in CALCULATORS.items():
        example = {**calc.example(key), "draw": "both"}
        yield example
        yield example | {"given": {}}
        for choice in calculator.choices:
            for option, _ in choice.options:
                yield example | {"choices": {**example["choices"], choice.symbol: option}}
        if calculator.measured:
            for pull in ("0.02", "11", "60", "4000"):  # more than possible, some loss, and very much
                yield example | {"given": {**example["given"], "E": pull}}
    yield calc.example("lever") | {"hide": ["E"]}
    yield calc.example("lever") | {"predicted": {"E": {"text": "12", "units": "us"}}}
    yield calc.example("lever") | {"given": {"R": "5 ft"}}


def _labs() -> Iterator[dict[str, Any]]:
    for key in LABS:
        sample = calc.sample_record(key) | {"draw": "both"}
        yield sample
        yield sample | {"rows": sample["rows"][:1]}
        yield sample | {"rows": [{**row, "E": "0.5"} for row in sample["rows"]]}
        yield sample | {"rows": [{**row, "R": str(9 * at)} for at, row in enumerate(sample["rows"], 1)]}
        yield sample | {
            "rows": [{**row, "R": str(20 * at), "E": str(7 * at)} for at, row in enumerate(sample["rows"], 1)]
        }


def _classes() -> Iterator[dict[str, Any]]:
    numbers = {"load": 36.0, "effort": 12.5, "ama": 2.8, "ama_doubt": 0.1, "ima": 4.0, "ima_doubt": 0.1}
    group = {"lab": "ramp-lab", "n": 5, "impossible": False, "eta_doubt": 0.02, **numbers}
    for etas in ((0.7,), (0.7, 0.72), (0.7, 0.71, 0.72, 0.7, 0.71, 0.2)):
        yield {"class": [{**group, "name": f"{at}", "eta": eta} for at, eta in enumerate(etas)]}
    yield {"class": [{**group, "name": "1", "eta": 1.2, "impossible": True}, {**group, "name": "2", "eta": 0.7}]}


def _plans() -> Iterator[dict[str, Any]]:
    for kit in (KIT, {}):
        for load, lift in (("60 lbf", "24 in"), ("36 lbf", "6 in"), ("20 lbf", "1 in"), ("250 lbf", "30 in")):
            for card in range(12):
                yield {"plan": {"R": load, "h": lift}, "kit": kit, "card": card}
    yield {"plan": {"R": "60 lbf", "h": "24 in", "moves": "person"}, "kit": KIT}
    yield {"plan": {}, "kit": KIT}


def _practice() -> Iterator[dict[str, Any]]:
    for machine in MACHINES:
        chosen = {"practice": {"families": [machine], "seat": 3, "count": 20}}
        yield chosen
        yield chosen | {"key": [1, 2]}
        yield chosen | {"sheets": [1, 2]}
        for question in range(1, 21):
            yield chosen | {"picture": question}
            yield chosen | {"mark": {"question": question, "typed": "1", "misses": 3}}


@cache
def known() -> frozenset[Mark]:
    """All marks of clean answers."""
    found: set[Mark] = set()
    for requests in (_calculators(), _labs(), _classes(), _plans(), _practice()):
        for request in requests:
            for fragment in fragments(calc.answer(request)):
                found |= marks(fragment)
    return frozenset(found)
