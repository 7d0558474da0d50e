"""The shortest ramp on which a pull limit is enough.

Source: the pull up a ramp, R (sin theta + mu cos theta), from the balance of forces (any statics text, e.g.
Engineering Statics, open textbook, ch. 9), written with the angle of friction phi = arctan mu as
R sqrt(1 + mu^2) sin(theta + phi), so that it can be turned round for the angle.
"""

from __future__ import annotations

from dataclasses import replace

from calc.drawing import shortest_ramp as fan_drawing
from calc.inclined_plane import INSIDE_TRIANGLE, SHAPE, SLOPE_ANGLE, TRIANGLE
from calc.model import Calculator, Choice, Condition, Quantity, Relation, Sentence, when

COMPARED = (("1", "0.75", "3/4 as long"), ("2", "1.5", "1-1/2 times as long"), ("3", "2", "twice as long"))
"""The other ramps of the fan: their index, their length in shortest lengths, in numbers and in words."""


def _case(moves: str, load: str, mu: str, words: str) -> tuple[Relation, ...]:
    """The relations for a load that slides or rolls: the limit on the shortest ramp, the pulls on the others."""
    pull = f"({load})" if "+" in load else load
    found = [Relation(f"E_max = {pull}*sqrt(1 + {mu}**2)*sin(theta + atan({mu}))", words)]
    found += [
        Relation(
            f"E_{i} = {pull}*(h/L_{i} + {mu}*sqrt(1 - (h/L_{i})**2))",
            f"Slope and friction together, on a ramp {times}.",
        )
        for i, _, times in COMPARED
    ]
    return when({"moves": moves}, *found)


def _limits(moves: str, load: str, mu: str) -> tuple[Condition, ...]:
    """Which pull limits ask for a ramp at all. The first two look at the boxes as they are typed ("given")."""
    return (
        Condition(f"E_max < {load}", "e-straight", at="E_max", when={"moves": moves, "view": "given"}),
        Condition(f"E_max > {mu}*({load})", "e-noramp", at="E_max", when={"moves": moves, "view": "given"}),
        Condition(f"E_max >= {load}", "n-straight", at="E_max", stop=False, when={"moves": moves, "view": "plain"}),
    )


SHORTEST_RAMP = Calculator(
    key="shortest-ramp",
    title="Shortest ramp",
    choices=(Choice("moves", "The load", (("slides", "slides on the plank"), ("rolls", "rolls on a cart"))),),
    quantities=(
        Quantity("R", "Load", "force", "60 lbf", "270 N", level=1, role="load", hint="A half barrel of rain water."),
        Quantity(
            "w", "Cart weight", "force", "25 lbf", "110 N", level=1, when={"moves": "rolls"}, hint="The empty cart."
        ),
        SHAPE[1],
        Quantity(
            "E_max",
            "Pull limit",
            "force",
            "20 lbf",
            "90 N",
            level=1,
            role="effort",
            hint="The most that one student pulls steadily, or 80 % of the scale's end.",
        ),
        Quantity(
            "mu",
            "Friction coefficient",
            "friction",
            "0.10",
            "0.10",
            level=1,
            when={"moves": "slides"},
            hint="Crate on plank, while it moves. Waxed runners can come near 0.1: measure yours.",
        ),
        Quantity(
            "C",
            "Rolling coefficient",
            "friction",
            "0.03",
            "0.03",
            level=1,
            when={"moves": "rolls"},
            hint="Axles and wheels together. Near 0.03 for a good cart: common practice, no source.",
        ),
        replace(
            SHAPE[0], us="in", si="m", label="Shortest slope length", hint="Longer is easier, shorter is too steep."
        ),
        replace(SHAPE[2], level=0),
        replace(SLOPE_ANGLE, level=0, label="Steepest slope angle"),
        *(
            q
            for i, _, times in COMPARED
            for q in (
                Quantity(f"L_{i}", f"Ramp {times}", "length", "in", "m"),
                Quantity(f"E_{i}", f"Pull, {times}", "force", "lbf", "N", role="effort"),
            )
        ),
    ),
    relations=(
        *_case("slides", "R", "mu", "On the steepest slope the pull is just the limit."),
        *_case("rolls", "R + w", "C", "On the steepest slope the pull on load and cart is just the limit."),
        *TRIANGLE,
        *(Relation(f"L_{i} = {part}*L", f"A ramp {times}, to compare.") for i, part, times in COMPARED),
    ),
    conditions=(
        *INSIDE_TRIANGLE,
        *_limits("slides", "R", "mu"),
        *_limits("rolls", "R + w", "C"),
        Condition("theta > pi/6", "n-steep", at="L", stop=False),
    ),
    identities=(
        *when({"moves": "slides"}, Relation("E_max*L = R*(h + mu*b)")),
        *when({"moves": "rolls"}, Relation("E_max*L = (R + w)*(h + C*b)")),
    ),
    asks=("L", "h", "R", "E_max", "mu"),
    shows=("L", "theta", "b", "L_1", "E_1", "L_2", "E_2", "L_3", "E_3"),
    sentences=(
        Sentence(
            "A ramp of {L} or more keeps the pull within {E_max}. That slope is {theta}.",
        ),
    ),
    cautions=(
        "This says nothing about the strength of a plank. Nobody walks on it.",
        "Starting takes more than keeping on: leave something in hand. Chock the load, and stand uphill or beside it.",
    ),
    draw=fan_drawing.draw,
)
