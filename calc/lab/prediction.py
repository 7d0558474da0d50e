"""Predicting first in a lab: what the student thinks the scale will read, before the sheet says anything.

In the request: ``predict`` with ``on`` true if the sheet asks for it, ``made`` (``text``, and ``unit``, what the scale
showed then) and ``declined`` true if the student would rather not; ``invented`` true while the readings are the page's.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from calc.figures import plain
from calc.figures import shown as rounded
from calc.lab.cells import read_cell
from calc.lab.judge import Judged, several_loads
from calc.lab.scale import SCALE_UNITS
from calc.messages import Message, Refused
from calc.prediction import off

if TYPE_CHECKING:
    from calc.lab.sheet import Sheet

SYMBOL = "E"
"""What is predicted: the effort while the load moves."""


@dataclass(frozen=True)
class Predicted:
    """A prediction in newtons, or why it could not be read; whether the results wait for it."""

    effort: float | None = None
    problem: Message | None = None
    waiting: bool = False


def predicted(request: Mapping[str, Any], sheet: Sheet) -> Predicted:
    """What the request says of a prediction. Never raises."""
    asked = request.get("predict")
    if not isinstance(asked, Mapping) or asked.get("on") is not True:
        return Predicted()
    made = asked.get("made")
    made = made if isinstance(made, Mapping) else {}
    text, unit = str(made.get("text") or "").strip(), made.get("unit")
    if not text:
        return Predicted(waiting=asked.get("declined") is not True)
    column = next(column for column in sheet.lab.columns if column.symbol == SYMBOL)
    try:
        unit = unit if isinstance(unit, str) and unit in SCALE_UNITS else sheet.tools.unit
        return Predicted(read_cell(text, column, unit, sheet.system))
    except Refused as refused:
        return Predicted(problem=refused.message, waiting=asked.get("declined") is not True)


def told(effort: float, judged: Judged, sheet: Sheet, invented: bool) -> str:
    """How far off a prediction (newtons) was, in words."""
    size = SCALE_UNITS[sheet.tools.unit]

    def text_of(value: float) -> str:
        return f"{rounded(value / size)} {sheet.tools.unit}"

    typed = plain(float(f"{effort / size:.6g}"))
    yours = f"You predicted {typed} {sheet.tools.unit}"
    mean = judged.columns.get(SYMBOL)
    if invented:
        return f"{yours}. Now take your own readings: the gray ones are invented."
    if mean is None or not judged.trials:
        return f"{yours}. Fill in a trial to see how far off that is."
    if several_loads(judged.trials):
        pulls = [trial.effort for trial in judged.trials]
        ends = f"from {text_of(min(pulls))} to {text_of(max(pulls))}"
        return f"{yours}. Your loads differ, and so do your pulls: {ends}. Compare it with the pull of your load."
    count = "your pull" if mean.n == 1 else f"the mean of your {mean.n} pulls"
    return f"{yours}; {count} is {text_of(mean.mean)}.{off(effort, mean.mean, text_of)}"
