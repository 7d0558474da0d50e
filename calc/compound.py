"""The compound machine: simple machines in a row, where what leaves one stage enters the next.

Source: a stage multiplies force by its ideal advantage and its efficiency and divides travel by its ideal advantage, so
both multiply along the row (work in = work out + loss, stage by stage; OpenStax Physics, ch. 9, compound machines).
"""

from __future__ import annotations

from calc.block import EFFORT, IDENTITIES, MEASURED, RESULTS, WORK
from calc.drawing import chain as chain_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Fill, Quantity, Relation, Rows, Sentence, when

_PRACTICE = "Common practice, no source."
_TACKLE = "Tackle of 3 parts rove to advantage."
_TACKLE_LOSS = "(1 + 0.92 + 0.92 × 0.92)/3: each sheave passes on 92 %. Common practice, no source."


def _stages(*stages: tuple[str, str, str, str]) -> dict[str, Fill]:
    """Fills for stages from the hand to the load: advantage, where from, efficiency, where from."""
    fills = {}
    for i, (advantage, from_, efficiency, because) in enumerate(stages, 1):
        fills[f"IMA_{i}"] = Fill(advantage, note=from_)
        fills[f"eta_{i}"] = Fill(efficiency, note=because)
    return fills


_PRESETS = {
    "windlass-tackle": _stages(
        ("4.62", "Windlass: crank 15 in, rope's middle 3.25 in from the centre.", "85 %", _PRACTICE),
        ("3", _TACKLE, "92.2 %", _TACKLE_LOSS),
    ),
    "crank-gears-drum": _stages(
        ("10", "Crank 15 in on a pinion of 1.5 in radius.", "95 %", _PRACTICE),
        ("1.846", "Gear of 6 in radius on a drum, rope's middle 3.25 in from the centre.", "90 %", _PRACTICE),
    ),
    "vise": _stages(
        ("15", "Handle 5 in on a thread of 1/3 in mean radius.", "100 %", "All its friction is counted at the screw."),
        (
            "12.57",
            "One turn, π × 2/3 in, for a lead of 1/6 in (3/4-6 Acme).",
            "18.3 %",
            "From the screw's page, with friction 0.15 in the thread and 0.12 under the collar.",
        ),
    ),
    "tackle-ramp": _stages(
        ("3", _TACKLE, "92.2 %", _TACKLE_LOSS),
        ("4", "Ramp 8 ft long, 2 ft high.", "89.6 %", "A cart with rolling coefficient 0.03. " + _PRACTICE),
    ),
    "lopper": _stages(
        ("8", "Handle 16 in, link 2 in from the pin.", "95 %", _PRACTICE),
        ("2.5", "Link 2.5 in, branch 1 in from the blade's pin.", "90 %", _PRACTICE),
    ),
}
_OTHERS = tuple(name for name in _PRESETS if name != "vise")

CHAIN = Calculator(
    key="chain",
    title="Compound machine",
    choices=(
        Choice(
            "preset",
            "Machines in the chain",
            (
                ("windlass-tackle", "windlass hauling a tackle"),
                ("crank-gears-drum", "crank, gear pair and drum"),
                ("vise", "vise: handle and screw"),
                ("tackle-ramp", "tackle hauling a cart up a ramp"),
                ("lopper", "lopper: two levers in a row"),
                ("own", "my own: I fill in each stage"),
            ),
            fills=_PRESETS,
        ),
    ),
    quantities=(
        Quantity(
            "R", "Load", "force", "80 lbf", "360 N", level=1, role="load", hint="A rain barrel, part full, weighed."
        ),
        Quantity(
            "h", "Load distance", "length", "12 in", "300 mm", level=1, role="load", hint="How far the load goes."
        ),
        EFFORT,
        *RESULTS,
        Quantity("dR", "Load distance", "length", "in", "mm", role="load"),
        Quantity("dE", "Effort distance", "length", "in", "mm", role="effort"),
        Quantity("F_0", "Force of the hand", "force", "lbf", "N", role="effort"),
        Quantity("d_0", "Travel of the hand", "length", "in", "mm", role="effort"),
    ),
    rows=(
        Rows(
            "stages",
            "Stage",
            (
                Quantity("IMA", "Ideal advantage of stage", "ratio", level=1, low=1e-3, high=1e4),
                Quantity("eta", "Efficiency of stage", "efficiency", "%", "%", level=1, loss=True),
                Quantity("F", "Force passed on", "force", "lbf", "N"),
                Quantity("d", "Travel passed on", "length", "in", "mm"),
            ),
            example=({}, {}),
            columns=("IMA", "eta", "F", "d"),
            high=5,
        ),
    ),
    relations=(
        Relation("IMA = prod(IMA[i] for i in stages)", "The ideal advantages multiply along the chain."),
        *when({"view": "ideal"}, Relation("E = R/IMA", "Without friction the effort is load over ideal advantage.")),
        *when(
            {"view": "expected"},
            Relation(
                "AMA = prod(IMA[i]*eta[i] for i in stages)",
                "Each stage passes on its advantage times its efficiency.",
            ),
        ),
        *MEASURED,
        Relation("dR = h", "The load goes its own distance."),
        Relation("dE = h*IMA", "The hand goes the load's distance times the ideal advantage."),
        *WORK,
        *when({"view": ("ideal", "expected")}, Relation("F_0 = E", "The hand's force enters the first stage.")),
        *when({"view": "ideal"}, Relation("F[i] = F[i - 1]*IMA[i]", "It passes on this force.", each="stages")),
        *when(
            {"view": "expected"},
            Relation("F[i] = F[i - 1]*IMA[i]*eta[i]", "It passes on this force.", each="stages"),
        ),
        Relation("d_0 = dE", "The hand's travel enters the first stage."),
        Relation("d[i] = d[i - 1]/IMA[i]", "It passes on this travel.", each="stages"),
    ),
    conditions=(
        Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),
        Condition("IMA > 0", "n-cannottell", at="R", stop=False, when={"preset": (*_OTHERS, "own")}),
        Condition("IMA > 0", "n-viseholds", at="R", stop=False, when={"preset": "vise"}),
    ),
    identities=(
        *IDENTITIES,
        *when({"view": "expected"}, Relation("eta = prod(eta[i] for i in stages)")),
    ),
    asks=("E", "R", "IMA_1"),
    sentences=(
        Sentence(
            "You pulled {E} where an ideal chain needs {E@ideal}. Of the work you put in, {eta} moved the load.",
            {"view": "measured"},
        ),
        Sentence(
            "The hand needs {E} through {dE}. Without friction: {E@ideal}. All stages together return {eta}.",
            {"view": "expected"},
        ),
        Sentence("The hand needs {E}. All stages together return {eta}.", {"view": "expected"}),
        Sentence("Without friction the hand needs {E} through {dE} to move {R} through {h}."),
        Sentence("Without friction the hand needs {E} to move {R}."),
        Sentence("The chain has an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    cautions=(
        "The last stage carries the most force: check each rope, hook and anchor for its own load.",
        "Nobody under or beside a hanging load. Stay out of the line of a loaded rope.",
    ),
    draw=chain_drawing.draw,
    draw_work=work_drawing.draw,
)
