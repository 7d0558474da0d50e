"""One load raised to one height in up to three ways: what each asks of the hand, side by side.

Each way's ideal advantage is the relation of that machine's own calculator, taken from its declaration. The usual
efficiencies are those of ``shared/facts.toml``: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from calc.block import EFFICIENCY, IMA, WORK_IN, WORK_LOST, WORK_OUT
from calc.drawing import three_ways
from calc.inclined_plane import RAMP
from calc.lever import LEVER
from calc.model import Beside, Calculator, Choice, Condition, Quantity, Relation, Sentence, holds_in, when
from calc.screw import SCREW
from calc.tackle import TACKLE
from calc.wheel_and_axle import WHEEL_AND_AXLE

NONE = "none"
_SHARED = ("R", "h", "pi")


@dataclass(frozen=True)
class Way:
    """One way to raise a load: the machine, the case it is taken in, its sizes, and what it usually keeps.

    ``leads`` are the symbols whose relations are the machine's own, in the order in which they are needed. A machine
    without an efficiency is the bare hand.
    """

    option: str
    label: str
    machine: Calculator | None = None
    leads: tuple[str, ...] = ()
    case: Mapping[str, str] = field(default_factory=dict)
    sizes: tuple[Quantity, ...] = ()
    keeps: int = 0
    usual: str = ""

    def relations(self) -> Iterator[Relation]:
        """The relations of the machine's own calculator that lead to its ideal advantage."""
        for lead in self.leads if self.machine else ():
            yield next(
                relation
                for relation in (self.machine.relations if self.machine else ())
                if relation.text.startswith(f"{lead} =") and holds_in(relation.when, self.case)
            )


def _length(symbol: str, label: str, us: str, si: str, hint: str) -> Quantity:
    return Quantity(symbol, label, "length", us, si, level=1, hint=hint)


WAYS = (
    Way("hand", "straight up, by hand"),
    Way(
        "ramp",
        "ramp",
        RAMP,
        ("IMA",),
        {"pull": "along"},
        (_length("L", "Slope length", "96 in", "2.4 m", "Along the plank, from floor to top edge."),),
        75,
        "On a cart usually 55 to 80 %, sliding 35 to 70 %",
    ),
    Way(
        "lever",
        "lever",
        LEVER,
        ("IMA",),
        {},
        (
            _length("aR", "Load arm", "6 in", "150 mm", "Pivot to load."),
            _length("aE", "Effort arm", "24 in", "600 mm", "Pivot to hand."),
        ),
        95,
        "Usually 95 to 100 %",
    ),
    Way(
        "wheel",
        "wheel and axle (windlass)",
        WHEEL_AND_AXLE,
        ("D_a", "IMA"),
        {"hand": "wheel"},
        (
            _length("r_w", "Crank radius", "15 in", "380 mm", "Shaft's middle to the hand."),
            _length("D_a", "Drum diameter", "6 in", "150 mm", "To the rope's middle: bare drum and one rope."),
        ),
        85,
        "Usually 80 to 95 %",
    ),
    Way(
        "tackle",
        "tackle",
        TACKLE,
        ("IMA",),
        {},
        (
            Quantity(
                "n",
                "Parts of rope",
                "count",
                "4",
                "4",
                level=1,
                low=1,
                high=12,
                hint="At the moving block, whose weight is left out here.",
            ),
        ),
        80,
        "Usually 92 % with one part to 82 % with four",
    ),
    Way(
        "screw",
        "screw",
        SCREW,
        ("IMA",),
        {},
        (
            _length("r", "Handle radius", "5 in", "125 mm", "From the screw's axis to the hand."),
            _length("l", "Lead", "0.25 in", "5 mm", "Travel in one turn."),
        ),
        20,
        "Usually 8 to 35 %",
    ),
)
COUNT = 3
_STARTS = ("ramp", "tackle", "wheel")


def _own(text: str, i: int) -> str:
    """A formula of a machine with its symbols marked as those of way ``i``; load and height are everybody's."""
    return re.sub(r"[A-Za-z]\w*(?!\w*\()", lambda name: name[0] if name[0] in _SHARED else f"{name[0]}_{i}", text)


def _choice(i: int) -> Choice:
    """The question for way ``i``; the option that it starts with stands first."""
    options = [(way.option, way.label) for way in WAYS]
    options.sort(key=lambda option: option[0] != _STARTS[i - 1])
    return Choice(f"way_{i}", f"Way {i}", (*options, (NONE, "none")), before=f"{WAYS[1].sizes[0].symbol}_{i}")


def _quantities(i: int) -> Iterator[Quantity]:
    """The boxes of way ``i``, each only where that way is chosen, and its results."""
    for way in WAYS:
        case = {f"way_{i}": way.option}
        for size in way.sizes:
            yield replace(size.row(i), when=case)
        if way.keeps:
            yield replace(
                EFFICIENCY.row(i),
                symbol=f"eta_{way.option[0]}_{i}",
                us=f"{way.keeps} %",
                si=f"{way.keeps} %",
                level=1,
                loss=False,
                default="1",
                default_note="Taken as 100 %: ideal, no friction.",
                hint=f"{way.usual}: common practice. Empty: ideal.",
                slide=(10 / way.keeps, 100 / way.keeps),
                when=case,
            )
    yield Quantity(f"r_a_{i}", f"Drum radius {i}", "length", "in", "mm")
    yield IMA.row(i)
    yield replace(EFFICIENCY.row(i), level=0, loss=False)
    yield Quantity(f"E_{i}", f"Effort {i}", "force", "lbf", "N", role="effort")
    yield Quantity(f"dE_{i}", f"Effort distance {i}", "length", "in", "m", role="effort")
    yield WORK_IN.row(i)
    yield replace(WORK_LOST.row(i), low=0.0)


def _relations(i: int) -> Iterator[Relation]:
    for way in WAYS:
        case = {f"way_{i}": way.option}
        own = [Relation(_own(relation.text, i), f"Way {i}. {relation.words}") for relation in way.relations()]
        if not way.machine:
            own = [Relation(f"IMA_{i} = 1", f"Way {i}. The bare hand goes as far as the load.")]
        keeps = f"eta_{way.option[0]}_{i}" if way.keeps else "1"
        yield from when(case, *own, Relation(f"eta_{i} = {keeps}", f"Way {i}. What the reader gave, or all of it."))
    yield Relation(f"E_{i} = R/(IMA_{i}*eta_{i})", f"Way {i}. Effort is load over ideal advantage and efficiency.")
    yield Relation(f"dE_{i} = h*IMA_{i}", f"Way {i}. The hand goes the height times the ideal advantage.")
    yield Relation(f"Win_{i} = E_{i}*dE_{i}", f"Way {i}. Work in is effort times effort distance.")
    yield Relation(f"Wlost_{i} = Win_{i} - Wout", f"Way {i}. Work lost is work in less work out.")


def _conditions(i: int) -> tuple[Condition, ...]:
    return (
        Condition(f"h < L_{i}", "e-hgtL", at=f"L_{i}", when={f"way_{i}": "ramp"}),
        Condition(f"h > 2*aR_{i}*sin(pi/12)", "n-stages", at=f"aR_{i}", stop=False, when={f"way_{i}": "lever"}),
    )


_EACH = range(1, COUNT + 1)

COMPARE = Calculator(
    key="compare",
    title="One load, three ways up",
    choices=tuple(_choice(i) for i in _EACH),
    quantities=(
        Quantity("R", "Load", "force", "60 lbf", "270 N", level=1, role="load", hint="The rain barrel, part full."),
        Quantity("h", "Height", "length", "24 in", "0.6 m", level=1, role="load", hint="Floor to barrel stand."),
        replace(WORK_OUT, label="Work on the load"),
        *(quantity for i in _EACH for quantity in _quantities(i)),
    ),
    relations=(
        Relation("Wout = R*h", "Work on the load is load times height, whatever the way."),
        *(relation for i in _EACH for relation in _relations(i)),
    ),
    conditions=tuple(condition for i in _EACH for condition in _conditions(i)),
    identities=tuple(Relation(f"Win_{i}*eta_{i} = R*h") for i in _EACH),
    beside=Beside(
        tuple(f"way_{i}" for i in _EACH),
        (
            ("E", "Effort"),
            ("dE", "Effort distance"),
            ("IMA", "Ideal advantage"),
            ("eta", "Efficiency"),
            ("Win", "Work in"),
            ("Wlost", "Work lost"),
        ),
        without=NONE,
    ),
    sentences=(
        Sentence("The load takes {Wout} on every way. You pay {Win_1}, {Win_2} and {Win_3}: never less."),
        *(
            Sentence(f"The load takes {{Wout}} on either way. You pay {{Win_{a}}} and {{Win_{b}}}: never less.")
            for a, b in ((1, 2), (1, 3), (2, 3))
        ),
        *(Sentence(f"The load takes {{Wout}}. You pay {{Win_{i}}}: never less.") for i in _EACH),
        Sentence("The load takes {Wout} on every way. Choose one, and fill in its sizes."),
    ),
    cautions=(
        "This compares on paper. A class hangs a load no higher than 12 in, over a pad, with nobody under it.",
        "Two or more carry what is too heavy for one. Stand uphill of a load on a ramp, never below.",
    ),
    draw=three_ways.draw,
    still=True,
)
