"""Runs inside Pyodide while the engine is built: what pages ask, to see which functions the answers call."""

import importlib
import json
from pathlib import Path
from typing import Any

UNREADABLE = ({}, {"?": "?"}, {"R": "1 2", "E": "-5 lbf ± 2"})
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
            asked += [example | {"given": given} for given in UNREADABLE]
        for key in calc.labs():
            asked += [calc.sample_record(key, units) | {"draw": "both"}, {"record": key, "units": units}]
        task = {box["symbol"]: box[units] for box in calc.describe_plan()["boxes"]}
        asked += [{"plan": plan, "kit": kit, "units": units, "card": 0} for plan in ({}, task)]
    for machine in calc.practice_machines():
        chosen = {"practice": {"families": machine, "seat": "7"}}
        typed = {"question": 1, "typed": "12.5 lbf", "misses": 3}
        asked += [chosen, chosen | {"picture": 1}, chosen | {"mark": typed}, chosen | {"key": ["7"]}]
    return json.dumps([json.dumps(question) for question in asked])
