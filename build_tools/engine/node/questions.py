"""Runs inside Pyodide while the engine is built: what pages ask, to see which functions the answers call."""

import importlib
import json
from pathlib import Path
from typing import Any

FORMS: tuple[dict[str, str], ...] = ({}, {"?": "?"}, {"R": "1 2", "E": "-5 lbf ± 2"})
"""What may stand in a form beside a calculator's example: nothing, what no box has, what cannot be."""

TEXTS = (
    *("1/2", "½", "3 ft 4 1/2 in", "1e3 N", "12,5", "1 000", "5 ± 2 %", "5 +/- 0.2", "5 kg", "five", "0", "-1", "9e99"),
    *("1e-40", "10 m/s", "2*3", "5 lbf lbf", "٣", "5 \u200b", "5 ± ", "°", "1.2.3", "-", ".", "5.", ".5", "1e", "(5)"),
)
"""What readers type, and mistype."""
GARDEN = "shared/kits/garden.toml"


def questions() -> str:
    """Return a JSON list of questions, each JSON text: of every calculator, record sheet, practice, and of a plan."""
    importlib.invalidate_caches()  # the clock stands still, so a folder's date does not tell of new files
    calc: Any = importlib.import_module("calc")
    garden = Path(str(calc.__file__)).parents[1] / GARDEN
    asked: list[dict[str, Any]] = [{"practice": {"link": ""}}, {"group_file": "?", "name": "one.csv"}, {"class": []}]
    kit = calc.answer({"kit_file": garden.read_text(encoding="utf-8")})["kit"]
    for units in ("us", "si"):
        for key in calc.keys():  # noqa: SIM118 - no dictionary
            example = calc.example(key, units) | {"draw": "both"}
            asked += [example, *(example | {"only": part} for part in ("numbers", "working", "pictures"))]
            asked += [example | {"given": given} for given in FORMS]
        for key in ("lever", "ramp"):
            example = calc.example(key, units)
            asked += [example | {"given": example["given"] | {"R": text}, "only": "numbers"} for text in TEXTS]
        for key in calc.labs():
            asked += [calc.sample_record(key, units) | {"draw": "both"}, {"record": key, "units": units}]
        asked += [{"plan": plan, "kit": kit, "units": units, "card": 0} for plan in _tasks(calc.describe_plan(), units)]
    for machine in calc.practice_machines():
        chosen = {"practice": {"families": machine, "seat": "7"}}
        typed = {"question": 1, "typed": "12.5 lbf", "misses": 3}
        asked += [chosen, chosen | {"picture": 1}, chosen | {"mark": typed}, chosen | {"key": ["7"]}]
    return json.dumps([json.dumps(question) for question in asked])


def _tasks(form: dict[str, Any], units: str) -> list[dict[str, str]]:
    """What a plan is asked for: nothing, all boxes filled, load and height alone, and these with each choice."""
    boxes = {box["symbol"]: box[units] for box in form["boxes"]}
    short = {symbol: boxes[symbol] for symbol in ("R", "h")}
    options = [(choice["symbol"], option) for choice in form["choices"] for option, _ in choice["options"]]
    return [{}, boxes, short, *(short | {symbol: option} for symbol, option in options)]
