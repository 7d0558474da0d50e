"""Measures: one length, force, torque, work, power or slope in every unit that the shop meets.

The factors are those of ``shared/units.txt``; nothing is multiplied here. A slope of 1 : n rises 1 for n of run, so
n = 1/tan(theta) (any trigonometry text).
"""

from __future__ import annotations

from collections.abc import Iterable

from calc.drawing import measures as measures_drawing
from calc.model import Calculator, Choice, Quantity, Relation, Sentence, when

_LEAST, _MOST = 1e-9, 1e12  # any size that a reader may meet, in SI


def _in_unit(of: str, kind: str, symbol: str, label: str, unit: str, us: str = "", si: str = "") -> Quantity:
    """A box that always has the one unit."""
    texts = (f"{us} {unit}".strip(), f"{si} {unit}".strip())
    return Quantity(symbol, label, kind, *texts, level=1, low=_LEAST, high=_MOST, when={"of": of})


def _same(of: str, first: str, *others: str) -> Iterable[Relation]:
    """Every box of a group holds the same size."""
    return when({"of": of}, *(Relation(f"{symbol} = {first}", "The same in another unit.") for symbol in others))


_PARTS = (2, 4, 8, 16, 32, 64)
_FRACTIONS = tuple(
    Quantity(f"L_{n}", f"To the nearest 1/{n} in", "length", "in", "in", parts=n, when={"of": "length"}) for n in _PARTS
)

MEASURES = Calculator(
    key="measures",
    title="Measures",
    choices=(
        Choice(
            "of",
            "What is measured",
            (
                ("length", "a length"),
                ("force", "a force"),
                ("torque", "a torque"),
                ("work", "work"),
                ("power", "power"),
                ("slope", "a slope or angle"),
            ),
        ),
    ),
    quantities=(
        _in_unit("length", "length", "L_in", "Inches", "in", us="63.5"),
        _in_unit("length", "length", "L_ft", "Feet", "ft"),
        _in_unit("length", "length", "L_yd", "Yards", "yd"),
        _in_unit("length", "length", "L_mm", "Millimetres", "mm", si="1613"),
        _in_unit("length", "length", "L_cm", "Centimetres", "cm"),
        _in_unit("length", "length", "L_m", "Metres", "m"),
        Quantity("L_tape", "On a tape", "length", "ft", "ft", parts=16, when={"of": "length"}),
        *_FRACTIONS,
        _in_unit("force", "force", "F_lbf", "Pounds-force", "lbf", us="40"),
        _in_unit("force", "force", "F_ozf", "Ounces-force", "ozf"),
        _in_unit("force", "force", "F_N", "Newtons", "N", si="180"),
        _in_unit("force", "force", "F_kN", "Kilonewtons", "kN"),
        _in_unit("force", "force", "F_kgf", "Weight of so many kilograms", "kgf"),
        _in_unit("torque", "torque", "T_in", "Pound-inches", "lbf·in", us="20"),
        _in_unit("torque", "torque", "T_ft", "Pound-feet", "lbf·ft"),
        _in_unit("torque", "torque", "T_Nm", "Newton metres", "N·m", si="2"),
        _in_unit("work", "work", "W_ft", "Foot-pounds", "ft·lbf", us="72"),
        _in_unit("work", "work", "W_in", "Inch-pounds", "in·lbf"),
        _in_unit("work", "work", "W_J", "Joules", "J", si="96"),
        _in_unit("power", "power", "P_ft", "Foot-pounds each second", "ft·lbf/s"),
        _in_unit("power", "power", "P_hp", "Horsepower", "hp", us="1"),
        _in_unit("power", "power", "P_W", "Watts", "W", si="750"),
        _in_unit("power", "power", "P_kW", "Kilowatts", "kW"),
        Quantity(
            "n",
            "Slope 1 : n",
            "ratio",
            "4",
            "4",
            level=1,
            low=1e-3,
            high=1e5,
            when={"of": "slope"},
            hint="So much run for a rise of 1.",
        ),
        Quantity(
            "theta",
            "Angle from level",
            "angle",
            "°",
            "°",
            level=1,
            low=1e-5,
            high=1.57,
            when={"of": "slope"},
            hint="1:4 and 25 % are understood as rise over run.",
        ),
        Quantity(
            "theta_rad", "Angle in radians", "angle", "rad", "rad", level=1, low=1e-5, high=1.57, when={"of": "slope"}
        ),
        Quantity(
            "grade",
            "Grade",
            "ratio",
            level=1,
            low=1e-3,
            high=1e5,
            when={"of": "slope"},
            hint="Rise for each 100 of run: a grade of 25 is 25 %.",
        ),
    ),
    relations=(
        *_same("length", "L_in", "L_ft", "L_yd", "L_mm", "L_cm", "L_m", "L_tape", *(f"L_{n}" for n in _PARTS)),
        *_same("force", "F_lbf", "F_ozf", "F_N", "F_kN", "F_kgf"),
        *_same("torque", "T_in", "T_ft", "T_Nm"),
        *_same("work", "W_ft", "W_in", "W_J"),
        *_same("power", "P_ft", "P_hp", "P_W", "P_kW"),
        *when(
            {"of": "slope"},
            Relation("n = 1/tan(theta)", "Run over rise is one over the tangent of the angle."),
            Relation("grade = 100*tan(theta)", "The grade is rise over run, in percent."),
            Relation("theta_rad = theta", "The same in another unit."),
        ),
    ),
    identities=when({"of": "slope"}, Relation("n*grade = 100")),
    asks=("L_in", "L_ft", "L_yd", "L_mm", "L_cm", "L_m"),
    shows=(
        *("L_in", "L_ft", "L_yd", "L_mm", "L_cm", "L_m", "L_tape", *(f"L_{n}" for n in _PARTS)),
        *("F_lbf", "F_ozf", "F_N", "F_kN", "F_kgf", "T_in", "T_ft", "T_Nm", "W_ft", "W_in", "W_J"),
        *("P_ft", "P_hp", "P_W", "P_kW", "n", "theta", "theta_rad", "grade"),
    ),
    sentences=(
        Sentence("{L_in} is {L_ft} or {L_m}. On a tape it is {L_tape}.", {"of": "length"}),
        Sentence("{F_lbf} is {F_N} or {F_kgf}: the weight of as many kilograms.", {"of": "force"}),
        Sentence("{T_in} is {T_ft} or {T_Nm}.", {"of": "torque"}),
        Sentence("{W_ft} is {W_J}.", {"of": "work"}),
        Sentence("{P_hp} is {P_ft} or {P_W}.", {"of": "power"}),
        Sentence("A slope of 1 : {n} is {theta} from level, a grade of {grade} %.", {"of": "slope"}),
    ),
    cautions=("Cut a ramp or a rope long, not short. Stay below a limit when you round it.",),
    draw=measures_drawing.draw,
)
