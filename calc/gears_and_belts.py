"""Gears, chains and belts: wheels and axles in a row, each pair trading speed for torque.

Sources: at the point where two pitch circles touch both rims run at one speed, so turning speed goes inversely with
size and torque with it (any machine design text); power is torque times turning speed. An efficiency of 95 % a pair is
common practice, no source.
"""

from __future__ import annotations

from calc.drawing import gears as gears_drawing
from calc.model import Calculator, Choice, Condition, Fill, Quantity, Relation, Rows, Sentence, when

_TOOTHED = {"drive": ("gears", "chain")}
_BELTED = {"drive": ("belt", "crossed")}

PAIRS = Rows(
    "pairs",
    "Pair",
    (
        Quantity("N_a", "Driver teeth", "count", level=1, low=5, high=400, when=_TOOTHED),
        Quantity("N_b", "Driven teeth", "count", level=1, low=5, high=400, when=_TOOTHED),
        Quantity("D_a", "Driver diameter", "length", "4 in", "100 mm", level=1, when=_BELTED),
        Quantity("D_b", "Driven diameter", "length", "12 in", "300 mm", level=1, when=_BELTED),
        Quantity("eta", "Efficiency of pair", "efficiency", "95 %", "95 %", level=1),
        Quantity("ratio", "Ratio", "ratio"),
        Quantity("T", "Torque after it", "torque"),
        Quantity("rpm", "Speed after it", "speed"),
    ),
    example=({"N_a": "12", "N_b": "48"}, {"N_a": "15", "N_b": "45"}),
    columns=("N_a", "N_b", "D_a", "D_b", "ratio", "T", "rpm"),
    high=5,
)

GEARS_AND_BELTS = Calculator(
    key="gears-and-belts",
    title="Gears, chains and belts",
    choices=(
        Choice(
            "drive",
            "Drive",
            (
                ("gears", "gears, teeth outside"),
                ("chain", "chain"),
                ("belt", "open belt"),
                ("crossed", "crossed belt"),
            ),
            fills={belt: {"s": Fill("0 %", note="Taken as no slip.")} for belt in _BELTED["drive"]},
        ),
    ),
    quantities=(
        Quantity(
            "T_in",
            "Torque in",
            "torque",
            "20 lbf·in",
            "2 N·m",
            level=1,
            role="effort",
            hint="What the hand or the motor gives to the first shaft.",
        ),
        Quantity(
            "rpm_in", "Speed in", "speed", "360 rpm", "360 rpm", level=1, hint="Turns a minute of the first shaft."
        ),
        Quantity("T_out", "Torque out", "torque", "lbf·in", "N·m", level=1, role="load", hint="At the last shaft."),
        Quantity("rpm_out", "Speed out", "speed", "rpm", "rpm", level=1, hint="Turns a minute of the last shaft."),
        Quantity(
            "idlers",
            "Idlers",
            "count",
            "0",
            "0",
            level=3,
            low=0,
            high=6,
            when={"drive": "gears"},
            hint="Gears between a pair that only pass the turning on.",
        ),
        Quantity(
            "s",
            "Belt slip",
            "efficiency",
            level=3,
            low=0.0,
            high=0.5,
            when=_BELTED,
            hint="Speed lost at each pair. 1 to 2 % is common.",
        ),
        Quantity("ratio", "Ratio", "ratio"),
        Quantity("eta", "Efficiency of all pairs", "efficiency"),
        Quantity("P_in", "Power in", "power", role="effort"),
        Quantity("P_out", "Power out", "power", role="load"),
        Quantity("turnabouts", "Changes of way", "count", low=0),
        Quantity("T_0", "Torque in", "torque"),
        Quantity("rpm_0", "Speed in", "speed"),
    ),
    rows=(PAIRS,),
    relations=(
        *when(_TOOTHED, Relation("ratio[i] = N_b[i]/N_a[i]", "Driven teeth over driver teeth.", each="pairs")),
        *when(_BELTED, Relation("ratio[i] = D_b[i]/D_a[i]", "Driven diameter over driver diameter.", each="pairs")),
        Relation("ratio = prod(ratio[i] for i in pairs)", "The ratios of the pairs multiply."),
        Relation("eta = prod(eta[i] for i in pairs)", "The efficiencies of the pairs multiply."),
        Relation("T_out = T_in*ratio*eta", "Torque grows with the ratio, less what rubs away."),
        *when(_TOOTHED, Relation("rpm_out = rpm_in/ratio", "Speed falls as the ratio grows.")),
        *when(
            _BELTED,
            Relation(
                "rpm_out = rpm_in/ratio*prod(1 - s for i in pairs)", "Speed falls as the ratio grows, and by slip."
            ),
        ),
        Relation("P_in = T_in*rpm_in", "Power in is torque times speed of turning."),
        Relation("P_out = T_out*rpm_out", "Power out is torque times speed of the last shaft."),
        Relation("T_0 = T_in"),
        Relation("rpm_0 = rpm_in"),
        Relation("T[i] = T[i - 1]*ratio[i]*eta[i]", "Torque after this pair.", each="pairs"),
        *when(_TOOTHED, Relation("rpm[i] = rpm[i - 1]/ratio[i]", "Speed after this pair.", each="pairs")),
        *when(_BELTED, Relation("rpm[i] = rpm[i - 1]/ratio[i]*(1 - s)", "Speed after this pair.", each="pairs")),
        *when(
            {"drive": "gears"},
            Relation(
                "turnabouts = sum(1 for i in pairs) + idlers", "Where two gears touch, the way of turning changes."
            ),
        ),
        *when(
            {"drive": "crossed"},
            Relation("turnabouts = sum(1 for i in pairs)", "Each crossed belt changes the way of turning."),
        ),
        *when(
            {"drive": ("chain", "belt")}, Relation("turnabouts = 0", "Chains and open belts keep the way of turning.")
        ),
    ),
    conditions=(
        Condition("turnabouts <= 2*floor(turnabouts/2)", "n-sameway", at="rpm_out", stop=False),
        Condition("turnabouts > 2*floor(turnabouts/2)", "n-otherway", at="rpm_out", stop=False),
    ),
    shows=("ratio", "eta", "rpm_out", "T_out", "P_in", "P_out"),
    asks=("T_out", "rpm_out", "T_in", "rpm_in", "N_a_1", "N_b_1"),
    sentences=(
        Sentence("The last shaft turns at {rpm_out} with {T_out}. The first turns at {rpm_in} with {T_in}."),
        Sentence("The last shaft turns at {rpm_out}. Fill in a torque to find the other."),
        Sentence("The last shaft has {T_out}. Fill in a speed to find the other."),
        Sentence("The ratio of all pairs is {ratio}. Fill in torque and speed of one shaft."),
    ),
    cautions=(
        "No loose sleeves, cords, long hair or gloves near gears, chains or belts. Guard every pair.",
        "Stop it and take the power off before you touch a belt or a gear.",
    ),
    draw=gears_drawing.draw,
)
