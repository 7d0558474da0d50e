"""A screw thread: its sizes from the tables of the trade or typed, its mean diameter, lead and slope.

Sources: the sizes stand in shared/tables with theirs. Mean (pitch) diameter d - p/2 for square, Acme and trapezoidal
threads and d - 0.649519 p for 60 degree threads: the basic profiles, from memory, checked against the tables' pitch
diameters. One turn unrolled is a right triangle of base pi d_m and height l (any machine design text, power screws).
"""

from __future__ import annotations

from calc import tables
from calc.model import Choice, Fill, Quantity, Relation, when

ACME = tables.acme_threads("3/4", "1/4", "5/16", "3/8", "1/2", "5/8", "7/8", "1", "1-1/4", "1-1/2", "2")
TRAPEZOIDAL = tables.trapezoidal_threads(
    "Tr8x1.5", "Tr10x2", "Tr12x3", "Tr16x4", "Tr20x4", "Tr24x5", "Tr30x6", "Tr36x6", "Tr40x7"
)
UNIFIED = tables.unified_threads("3/8", "1/4", "5/16", "7/16", "1/2", "5/8", "3/4", "7/8", "1")
METRIC = tables.metric_threads("M4", "M5", "M6", "M8", "M10", "M12", "M16", "M20", "M24")


def _keys(entries: tuple[tables.Entry, ...]) -> tuple[str, ...]:
    return tuple(entry.key for entry in entries)


SLANTED = {
    "acme": (*_keys(ACME), "acme"),
    "trapezoidal": (*_keys(TRAPEZOIDAL), "trapezoidal"),
    "vee": (*_keys(UNIFIED), *_keys(METRIC), "vee"),
}
"""The options of each thread form whose flanks lean."""

LEANING = tuple(option for options in SLANTED.values() for option in options)
HALF_WAY = (*SLANTED["acme"], *SLANTED["trapezoidal"], "square")
"""The options whose mean diameter lies half a pitch below the outside."""

_FORMS = (
    ("acme", "Acme, sizes typed"),
    ("trapezoidal", "trapezoidal, sizes typed"),
    ("square", "square, sizes typed"),
    ("vee", "60° V, sizes typed"),
)
_SIZES = tables.fills((*ACME, *TRAPEZOIDAL, *UNIFIED, *METRIC), d="major", p="pitch")
_LEAN = {"acme": "14.5°", "trapezoidal": "15°", "vee": "30°"}
_FLANKS = {
    option: {"alpha_t": Fill(_LEAN[form], note="Half the angle between the flanks, by the thread's form.")}
    for form, options in SLANTED.items()
    for option in options
}

THREAD_SIZE = Choice(
    "thread",
    "Thread",
    (*tables.options((*ACME, *TRAPEZOIDAL, *UNIFIED, *METRIC)), *_FORMS),
    si="Tr20x4",
    fills=_SIZES,
)
THREAD_AND_FLANK = Choice(
    THREAD_SIZE.symbol,
    THREAD_SIZE.label,
    THREAD_SIZE.options,
    si=THREAD_SIZE.si,
    fills={option: {**_SIZES.get(option, {}), **_FLANKS.get(option, {})} for option, _ in THREAD_SIZE.options},
)

OUTSIDE = Quantity("d", "Outside diameter", "length", "in", "mm", level=1, hint="Over the thread, by calliper.")
PITCH = Quantity(
    "p", "Pitch", "pitch", "TPI", "mm", level=1, hint="Threads per inch (TPI) or a length. Measure over ten threads."
)
STARTS = Quantity(
    "j",
    "Starts",
    "count",
    "1",
    "1",
    level=1,
    low=1,
    high=8,
    hint="How many threads begin at the end, side by side. Mostly one.",
)
LEAD = Quantity("l", "Lead", "length", "in", "mm", level=1, hint="Travel in one turn.")
MEAN_DIAMETER = Quantity(
    "d_m",
    "Mean diameter",
    "length",
    "in",
    "mm",
    level=1,
    default="d_b",
    default_note="Taken from the thread form.",
    hint="Half way up the thread.",
)
LEAD_ANGLE = Quantity("lam", "Lead angle", "angle", "°", "°", level=3, hint="The thread's slope, from square across.")
BASIC_DIAMETER = Quantity("d_b", "Mean diameter of the thread form", "length", "in", "mm")
ROUND = Quantity("C", "Once round", "length", "in", "mm")

THREAD = (
    Relation("l = j*p", "One turn moves it by the lead, which is starts times pitch."),
    *when(
        {"thread": HALF_WAY},
        Relation("d_b = d - p/2", "Half way up the thread the diameter is less by half a pitch."),
    ),
    *when(
        {"thread": SLANTED["vee"]},
        Relation("d_b = d - 0.649519*p", "A 60° thread has its mean diameter a little lower."),
    ),
    Relation("C = pi*d_m", "Once round the thread, at its mean diameter."),
    Relation("lam = atan(l/C)", "Unrolled, one turn is a ramp: once round long and one lead high."),
)
