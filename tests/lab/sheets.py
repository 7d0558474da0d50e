"""Short ways to fill in a record sheet in a test."""

from typing import Any

import calc

LBF, INCH = 4.4482216152605, 0.0254

J47 = {"R": ("36", "36.5", "36", "35.5", "36"), "E": ("12.5", "13", "12.5", "12", "13")}
J35 = {"R": ("60", "60.5", "60", "59.5", "60"), "E": ("21", "21.5", "21", "20.5", "21.5")}
RAMP = {"L": "96", "h": "24"}


def rows(**columns: tuple[str, ...]) -> list[dict[str, str]]:
    """Rows from columns; an empty text is an empty cell."""
    return [
        {symbol: text for symbol, text in zip(columns, cells, strict=True) if text}
        for cells in zip(*columns.values(), strict=True)
    ]


def record(lab: str = "ramp-lab", given: list[Any] | None = None, **more: Any) -> dict[str, Any]:
    """The answer for a sheet: the lab's sizes and readings, or ``given`` rows, and whatever else is said of it."""
    sample = calc.sample_record(lab, more.get("units", "us"))
    return calc.answer({**sample, "rows": sample["rows"] if given is None else given, **more})


def codes(answer: dict[str, Any]) -> list[str]:
    """The codes of its verdicts."""
    return [verdict["code"] for verdict in answer["verdicts"]]


def doubled(answer: dict[str, Any], symbol: str, times: float = 1.0) -> list[float]:
    """A value and its expanded doubt (k = 2)."""
    value = answer["values"][symbol]
    return [value["si"] * times, 2 * value["u"] * times]
