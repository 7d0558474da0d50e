"""The graphs of a record sheet: its trials, its several loads with their line, its work in and out."""

from __future__ import annotations

from html import escape
from math import isfinite
from typing import TYPE_CHECKING, Any

from calc.drawing import trials, work
from calc.drawing.scene import NARROW, WIDE, Drawing, Scene
from calc.figures import shown
from calc.lab.judge import Judged, several_loads
from calc.lab.scale import SCALE_UNITS, of_reading
from calc.units import factor

if TYPE_CHECKING:
    from calc.lab.sheet import Sheet

_WIDTHS = {"wide": (WIDE,), "narrow": (NARROW,), "both": (WIDE, NARROW)}


def plots(judged: Judged, sheet: Sheet, asked: Any) -> dict[str, str]:
    """The SVGs asked for, with their captions; none while there is nothing to draw."""
    found: dict[str, str] = {}
    for width in _WIDTHS.get(str(asked), ()):
        name = "wide" if width == WIDE else "narrow"
        for picture, drawing in _drawings(judged, sheet, width).items():
            found[f"{picture}_{name}"] = drawing.svg
            found[f"{picture}_caption"] = escape(drawing.caption)
    return found


def _drawings(judged: Judged, sheet: Sheet, width: int) -> dict[str, Drawing]:
    if not judged.trials:
        return {}
    key, unit = sheet.lab.key, sheet.tools.unit
    size = SCALE_UNITS[unit]
    counted = {trial.number for trial in judged.good}
    doubt = 2 * of_reading("force", sheet.tools) / size
    points = [trials.Point(t.number, t.load / size, t.effort / size, doubt, t.number in counted) for t in judged.trials]
    if not all(isfinite(10 * value) for point in points for value in (point.load, point.effort, point.doubt)):
        return {}  # the axes' ends lie beyond the largest of them
    ima = judged.ima
    if several_loads(judged.trials):
        line = judged.line
        if line is None:
            return {}
        a_b = (line.a / size, line.b)
        return {"law": trials.law(f"{key}-law-{width}", width, points, a_b, ima[0] if ima else None, unit)}
    found = {}
    load = judged.columns.get("R")
    ideal = load.mean / ima[0] / size if load and ima else None
    effort = judged.columns.get("E")
    mean = (effort.mean / size, 2 * effort.u / size) if effort else None
    found["trials"] = trials.efforts(f"{key}-trials-{width}", width, points, ideal, mean, unit)
    areas = _work(judged, sheet, width)
    if areas is not None:
        found["work"] = areas
    return found


def _work(judged: Judged, sheet: Sheet, width: int) -> Drawing | None:
    """Work in and work out as areas, from the means."""
    wanted = {"dE", "dR", "Win", "Wout", "Wlost"}
    if not wanted <= judged.values.keys() or not {"R", "E"} <= judged.columns.keys():
        return None
    values = {symbol: judged.values[symbol][0] for symbol in wanted}
    values |= {"R": judged.columns["R"].mean, "E": judged.columns["E"].mean}
    force, length = ("lbf", "in") if sheet.system == "us" else ("N", "mm")
    energy = "ft·lbf" if sheet.system == "us" else "J"
    units = dict.fromkeys(("R", "E"), force) | dict.fromkeys(("dR", "dE"), length)
    units |= dict.fromkeys(("Win", "Wout", "Wlost"), energy)
    texts = {symbol: f"{shown(values[symbol] / factor(unit))} {unit}" for symbol, unit in units.items()}
    scene = Scene(sheet.lab.key, width, values, texts, {}, 0.5, (length, factor(length)), (force, factor(force)))
    return work.draw(scene)
