"""What the toy project is asked, to see which functions of the WebAssembly its answers call."""

import json


def questions() -> str:
    """Return a JSON list of questions, each JSON text."""
    asked = [
        {"calculator": key, "m": 3.048, "turn": 12, "more": [None, True]}
        for key in ("word", "feet", "uncertain", "chance", "late")
    ]
    return json.dumps([json.dumps(question) for question in asked])
