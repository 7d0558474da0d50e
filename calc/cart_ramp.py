"""A loaded cart pulled up a ramp, by a rope straight to the hand or over a sheave at the top.

Sources: balance of forces along and square to the plank (any statics text, e.g. Engineering Statics, open textbook,
ch. 9). Axles and wheels together are given one rolling coefficient C that is used like a friction coefficient: common
practice, no source. What a sheave keeps of the pull, k: common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from calc.block import EFFICIENCY, EFFORT, IDENTITIES, MEASURED, REAL, RESULTS, WORK
from calc.drawing import cart_ramp as cart_drawing
from calc.drawing import work as work_drawing
from calc.inclined_plane import INSIDE_TRIANGLE, SHAPE, SLOPE_ANGLE, TRIANGLE
from calc.model import Calculator, Choice, Condition, Lead, Quantity, Relation, Sentence, when

_NEED = "The pull carries load and cart up the slope, and the rolling friction."

CART_RAMP = Calculator(
    key="cart-ramp",
    title="Cart on a ramp",
    choices=(
        Choice(
            "rope",
            "Rope",
            (("direct", "straight to the hand"), ("sheave", "over a sheave at the top")),
        ),
    ),
    quantities=(
        Quantity(
            "R", "Load", "force", "50 lbf", "220 N", level=1, role="load", hint="What stands on the cart, weighed."
        ),
        Quantity("w", "Cart weight", "force", "25 lbf", "110 N", level=1, hint="The empty cart, weighed."),
        *SHAPE,
        EFFORT,
        *(
            replace(q, hint="Counts the load only. The cart has to go up too.") if q == EFFICIENCY else q
            for q in RESULTS
        ),
        Quantity(
            "C",
            "Rolling coefficient",
            "friction",
            "0.03",
            "0.03",
            level=1,
            loss=True,
            hint="Axles and wheels together. Near 0.03 for a good cart: common practice, no source.",
        ),
        Quantity(
            "k",
            "Sheave keeps",
            "efficiency",
            "%",
            "%",
            level=1,
            low=0.5,
            default="0.92",
            default_note="Taken as 92 %, a small hardware-store sheave: common practice, no source.",
            when={"rope": "sheave"},
            hint="The share of the hand's pull that gets past the sheave.",
        ),
        SLOPE_ANGLE,
        Quantity("E_1", "Rope pull at the cart", "force", "lbf", "N"),
        Quantity("N", "Normal force", "force", "lbf", "N"),
        Quantity("F_f", "Rolling friction", "force", "lbf", "N"),
        Quantity("dR", "Load distance", "length", "in", "m", role="load"),
        Quantity("dE", "Effort distance", "length", "in", "m", role="effort"),
    ),
    relations=(
        Relation("IMA = L/h", "Slope length over rise sets the ideal advantage."),
        *when(
            {"view": "ideal"},
            Relation("E = R/IMA", "Without friction, on a cart that weighs nothing, the effort is load over it."),
        ),
        *TRIANGLE,
        Relation("dR = h", "The load rises by the rise."),
        Relation("dE = L", "The hand moves as much rope as the slope is long."),
        *when({"view": REAL, "rope": "direct"}, Relation("E = (R + w)*(sin(theta) + C*cos(theta))", _NEED)),
        *when(
            {"view": REAL, "rope": "sheave"},
            Relation("E_1 = (R + w)*(sin(theta) + C*cos(theta))", _NEED),
            Relation("E = E_1/k", "The sheave keeps back a little of the hand's pull."),
        ),
        *MEASURED,
        *WORK,
        *when(
            {"view": REAL},
            Relation("N = (R + w)*cos(theta)", "The plank carries the part of both weights square to it."),
            Relation("F_f = C*N", "Rolling friction is the coefficient times the normal force."),
        ),
    ),
    conditions=(
        *INSIDE_TRIANGLE,
        Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),
        Condition("tan(theta) > C", "n-chock", at="C", stop=False, when={"view": REAL}),
        Condition("tan(theta) <= C", "n-stays", at="C", stop=False, when={"view": REAL}),
        Condition("theta > pi/6", "n-steep", at="theta", stop=False),
    ),
    identities=(
        *IDENTITIES,
        *when({"view": REAL, "rope": "direct"}, Relation("Wlost = w*h + C*N*L")),
        *when({"view": REAL, "rope": "sheave"}, Relation("k*Win = (R + w)*h + C*N*L")),
    ),
    asks=("E", "R", "L", "h", "C"),
    shows=("E_1", "N", "F_f"),
    leads=(
        Lead(
            "shortest-ramp",
            "The shortest ramp for this cart and this pull",
            {"R": "R", "w": "w", "h": "h", "C": "C", "E_max": "E"},
            choices={"moves": "rolls"},
            when={"rope": "direct"},
        ),
    ),
    sentences=(
        Sentence(
            "You pulled {E} where an ideal ramp needs {E@ideal}. Of the work you put in, {eta} lifted the load itself.",
            {"view": "measured"},
        ),
        Sentence(
            "With this cart a pull of {E} takes the load up a slope of {L} to a rise of {h}.",
            {"view": "expected", "effort": "typed"},
        ),
        Sentence(
            "It takes {E} to haul load and cart up. An ideal ramp, and a cart without weight, would need {E@ideal}.",
            {"view": "expected"},
        ),
        Sentence(
            "Without friction, and without the cart's weight, a pull of {E} takes the load up.", {"view": "ideal"}
        ),
        Sentence("This ramp has an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    cautions=(
        "A cart runs back by itself on almost any slope. Follow it with a chock behind the wheels.",
        "Stand uphill or beside it, never below. Stay out of the line of the rope. Nobody rides.",
    ),
    draw=cart_drawing.draw,
    draw_work=work_drawing.draw,
)
