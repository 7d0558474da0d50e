"""A stand-in for calc that can also misbehave: the engine's tests pack this one."""

import json
import random
from pathlib import Path

import pint
from uncertainties import ufloat

WORD = (Path(__file__).parent.parent / "shared" / "word.txt").read_text(encoding="utf-8").strip()
UNITS = pint.UnitRegistry(None)
UNITS.load_definitions(["meter = [length] = m", "foot = 0.3048 * meter = ft"])


def answer_json(question: str) -> str:
    """Answer by what the question's calculator says; both are JSON text."""
    request = json.loads(question)
    match request["calculator"]:
        case "forever":
            while True:
                pass
        case "broken":
            raise RuntimeError("broken on purpose")
        case "late":
            import colorsys

            answer = {"hue": colorsys.rgb_to_hsv(0, 1, 0)[0]}
        case "complex":
            answer = {"text": str(complex(3, 4) * complex(0, 1))}
        case "chance":
            answer = {"number": random.random()}
        case "feet":
            answer = {"feet": UNITS.Quantity(request["m"], "m").to("ft").magnitude}
        case "uncertain":
            answer = {"text": f"{ufloat(10, 1) * 2}"}
        case _:
            answer = {"word": WORD}
    return json.dumps(request | answer)


def keys() -> tuple[str, ...]:
    """The calculators that behave."""
    return ("word", "feet", "uncertain", "chance")


def example(key: str, units: str) -> dict[str, object]:
    """A question that the calculator answers."""
    return {"calculator": key, "units": units, "m": 3.048}
