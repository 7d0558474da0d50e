"""A bar with its own weight and several loads on one pivot: where the hand must push or pull, and how hard.

Source: a body at rest has no net force and no net moment about any point (any statics text, e.g. Engineering Statics,
open textbook, ch. 4 and 5). Places are counted along the bar from one mark; moments anticlockwise count as plus.
"""

from __future__ import annotations

from dataclasses import replace

from calc.drawing import loaded_bar as loaded_bar_drawing
from calc.model import Calculator, Choice, Condition, Quantity, Relation, Rows, Sentence, when

_FAR = -304.8  # as far to the left of the mark as a length may lie to its right: 1000 ft
_BELOW_ZERO = -1e12

_LOADS = "sum(F[i]*(x_f - x[i]) for i in loads)"
_BAR = "w*(x_f - x_c)"
_ARM = {"down": "(x_E - x_f)", "up": "(x_f - x_E)"}
_SIGN = {"down": "+", "up": "-"}


def _place(symbol: str, label: str, us: str, si: str, hint: str, level: int = 1) -> Quantity:
    return Quantity(symbol, label, "length", us, si, level=level, low=_FAR, hint=hint)


def _effort(way: str) -> tuple[Relation, ...]:
    """The hand's force for one way of pushing, with and without the bar's weight, and what the pivot does."""
    arm, sign = _ARM[way], _SIGN[way]
    other = _ARM["up" if way == "down" else "down"]
    return when(
        {"direction": way},
        *when(
            {"view": "ideal"},
            Relation(f"E = ({_LOADS} + {_BAR})/{arm}", "The turning effects about the pivot balance."),
            Relation(f"E_0 = {_LOADS}/{arm}", "The same with the bar's own weight left out."),
        ),
        Relation(f"over = M/{other}", "What the bar overbalances by, at the hand's place."),
        Relation(f"V = sum(F[i] for i in loads) + w {sign} E", "All forces on the bar, down less up."),
    )


LOADED_BAR = Calculator(
    key="loaded-bar",
    title="Bar with several loads",
    choices=(Choice("direction", "The hand", (("down", "pushes down"), ("up", "pulls up"))),),
    quantities=(
        _place(
            "x_f",
            "Pivot's place",
            "24 in",
            "600 mm",
            "From the bar's left end, or from any one mark. Left of it is minus.",
        ),
        Quantity("B", "Bar length", "length", "96 in", "2400 mm", level=1, hint="From end to end."),
        Quantity(
            "w",
            "Bar's own weight",
            "force",
            "20 lbf",
            "90 N",
            level=1,
            low=0.0,
            role="load",
            hint="Weigh the empty bar.",
        ),
        replace(
            _place("x_c", "Bar's balance point", "in", "mm", "Where the empty bar balances on an edge.", level=2),
            default="B/2",
            default_note="Taken as the middle of the bar.",
        ),
        _place("x_E", "Effort's place", "96 in", "2400 mm", "Where the hand pushes or pulls."),
        Quantity(
            "E",
            "Effort",
            "force",
            "lbf",
            "N",
            level=1,
            role="effort",
            measured=True,
            hint="Leave it empty to find it. Or type what your scale read.",
        ),
        Quantity("E_0", "Effort without the bar's weight", "force", "lbf", "N", role="effort"),
        Quantity("helps", "The bar's weight helps by", "force", "lbf", "N"),
        Quantity("costs", "The bar's weight costs", "force", "lbf", "N"),
        Quantity("N", "Pivot force", "force", "lbf", "N"),
        Quantity("N_down", "Pivot holds down with", "force", "lbf", "N"),
        Quantity("over", "Overbalances by", "force", "lbf", "N"),
        Quantity("V", "Force on the pivot", "force", "lbf", "N", low=_BELOW_ZERO),
        Quantity("M", "Turning effect, anticlockwise", "torque", "lbf·in", "N·m", low=_BELOW_ZERO),
    ),
    rows=(
        Rows(
            "loads",
            "Load",
            (
                Quantity("F", "Load", "force", "lbf", "N", level=1, role="load"),
                _place("x", "Place of load", "in", "mm", ""),
            ),
            example=({"F": "40 lbf | 180 N", "x": "0 in | 0 mm"},),
            columns=("F", "x"),
            high=6,
        ),
    ),
    relations=(
        *_effort("down"),
        *_effort("up"),
        Relation(f"M = {_LOADS} + {_BAR}", "Loads and bar together turn the bar this way."),
        *when(
            {"view": "ideal"},
            Relation("helps = E_0 - E", "What the bar's weight saves."),
            Relation("costs = E - E_0", "What the bar's weight adds."),
        ),
        Relation("N = V", "The pivot pushes up with that."),
        Relation("N_down = -V", "Below zero the pivot must hold the bar down."),
    ),
    conditions=(
        Condition("(x_E - x_f)**2 > 0", "e-arm", at="x_E"),
        Condition("E >= 0", "e-noeq", at="E", withdraws=("E",)),
        Condition("M > 0", "n-anticlockwise", at="E", stop=False),
        Condition("M < 0", "n-clockwise", at="E", stop=False),
        Condition("E < E_0", "n-selfhelp", at="w", stop=False),
        Condition("V < 0", "n-helddown", at="x_f", stop=False),
    ),
    identities=(
        *when(
            {"view": "ideal", "direction": "down"},
            Relation("x_f = (sum(F[i]*x[i] for i in loads) + w*x_c + E*x_E)/(sum(F[i] for i in loads) + w + E)"),
        ),
        *when(
            {"view": "ideal", "direction": "up"},
            Relation("x_f = (sum(F[i]*x[i] for i in loads) + w*x_c - E*x_E)/(sum(F[i] for i in loads) + w - E)"),
        ),
    ),
    asks=("E", "x_E", "x_f", "F_1", "x_1"),
    shows=("E", "E_0", "helps", "costs", "N", "N_down", "over"),
    sentences=(
        Sentence("You read {E}, where balance alone needs {E@ideal}.", {"view": "measured"}),
        Sentence(
            "Push down {E}. Without the bar's own weight it would be {E_0}: the bar helps by {helps}.",
            {"direction": "down"},
        ),
        Sentence(
            "Push down {E}. Without the bar's own weight it would be {E_0}: the bar costs {costs}.",
            {"direction": "down"},
        ),
        Sentence("Push down {E} at {x_E}.", {"direction": "down"}),
        Sentence(
            "Pull up {E}. Without the bar's own weight it would be {E_0}: the bar helps by {helps}.",
            {"direction": "up"},
        ),
        Sentence(
            "Pull up {E}. Without the bar's own weight it would be {E_0}: the bar costs {costs}.", {"direction": "up"}
        ),
        Sentence("Pull up {E} at {x_E}.", {"direction": "up"}),
        Sentence("The bar already overbalances by {over} at the hand's place."),
    ),
    cautions=(
        "The bar can whip if it slips. Keep head and chin out of its path, and never sit or stand on it.",
        "Keep hands out from under the loads: set blocks as they rise.",
    ),
    draw=loaded_bar_drawing.draw,
)
