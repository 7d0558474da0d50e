"""The tilt test: the friction coefficient from the slope at which a load slips, and at which it keeps sliding.

Source: the angle of repose, tan theta = mu (any statics text; e.g. OpenStax College Physics 2e, ch. 5, Friction).
"""

from __future__ import annotations

from dataclasses import replace

from calc.drawing import tilt_test as tilt_drawing
from calc.inclined_plane import INSIDE_TRIANGLE, SHAPE, SLOPE_ANGLE, TRIANGLE
from calc.model import Calculator, Condition, Quantity, Relation, Sentence

_LENGTH, _RISE, _RUN = SHAPE

TILT_TEST = Calculator(
    key="tilt-test",
    title="Tilt test for friction",
    quantities=(
        replace(_RISE, us="30 in", si="760 mm", label="Rise when it slips", hint="Straight up to the raised end."),
        replace(
            _RUN, us="60 in", si="1520 mm", label="Run when it slips", hint="Level, from the hinge to under that end."
        ),
        replace(
            _LENGTH,
            us="in",
            si="mm",
            role="",
            cut=False,
            label="Plank length",
            hint="In place of the run, if it is handier.",
        ),
        Quantity(
            "mu_s",
            "Friction to start",
            "friction",
            level=1,
            hint="Follows from rise and run. Or type one to see where it slips.",
        ),
        Quantity(
            "h_k",
            "Rise for steady sliding",
            "length",
            "in",
            "mm",
            level=1,
            hint="Lower the end until a tapped load keeps on sliding, neither faster nor slower.",
        ),
        Quantity("b_k", "Run for steady sliding", "length", "in", "mm", level=1, hint="Follows from the plank length."),
        Quantity("mu_k", "Friction while it slides", "friction", level=1, hint="Smaller than to start."),
        replace(SLOPE_ANGLE, label="Slip angle"),
        Quantity("theta_k", "Angle for steady sliding", "angle", "°", "°"),
    ),
    relations=(
        Relation("mu_s = h/b", "Just before it slips, friction to start is rise over run."),
        *TRIANGLE,
        Relation("L = sqrt(h_k**2 + b_k**2)", "The plank is the same, only flatter."),
        Relation("mu_k = h_k/b_k", "At steady speed, friction while it slides is rise over run."),
        Relation("h_k = L*sin(theta_k)", "Rise is plank length times the sine of the angle."),
    ),
    conditions=(
        *INSIDE_TRIANGLE,
        Condition("h_k < L", "e-hgtL", at="h_k"),
        Condition("mu_s >= mu_k", "e-tiltorder", at="h_k", withdraws=("mu_k",)),
    ),
    identities=(Relation("mu_s = tan(theta)"), Relation("mu_k = tan(theta_k)")),
    asks=("mu_s", "h", "b"),
    shows=("mu_s", "theta", "mu_k", "theta_k"),
    sentences=(
        Sentence("It slips at {theta}: friction to start is {mu_s}, and {mu_k} while it slides."),
        Sentence("It slips at {theta}: friction to start is {mu_s}."),
    ),
    cautions=(
        "Raise the end slowly, with a stop at the foot. Nobody stands below the load.",
        "Hold the plank so that its foot cannot slide away.",
    ),
    draw=tilt_drawing.draw,
)
