"""Runs inside Pyodide while the engine is built: warms calc up, so that the snapshot holds it warm."""

import gc
import importlib
import json
import sys


def prepare() -> str:
    """Answer every calculator's example, and an empty form, in both unit systems; then tidy up. Return the answers."""
    importlib.invalidate_caches()  # the clock stands still, so a folder's date does not tell of new files
    calc = importlib.import_module("calc")
    engine_door = importlib.import_module("engine_door")
    keys: tuple[str, ...] = calc.keys()
    answers: list[str | None] = []
    for key in keys:
        for units in ("us", "si"):
            example = calc.example(key, units) | {"draw": "both"}
            for request in (example, example | {"given": {}}, example | {"given": {"?": "?"}}):
                answers.append(engine_door.answer(json.dumps(request)))
    text = json.dumps(answers)
    del answers
    sys.modules.pop(__name__)
    engine_door.hold_back_imports()
    gc.collect()
    gc.freeze()  # what is in the snapshot stays: no need to look through it again and again
    return text
