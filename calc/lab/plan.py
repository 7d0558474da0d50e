"""The labs as data: which calculator judges the readings, what is measured once, and the columns of the record sheet.

The plans around them (materials, roles, time, questions) are words, and stand in ``shared/pages/labs.toml``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from calc.model import Calculator
from calc.registry import CALCULATORS


@dataclass(frozen=True)
class Column:
    """One column of the record sheet.

    ``symbol`` names it in files. ``kind`` is force, length, turns or words. ``needed``: without it a row is no trial.
    ``along`` marks the readings that the scale's position falsifies (the pulls, not the hanging load).
    """

    symbol: str
    label: str
    kind: str
    needed: bool = False
    along: bool = False
    hint: str = ""


LOAD = Column("R", "Load", "force", hint="Weighed anew for each trial, or once. Empty: as in the row above.")
EFFORT = Column("E", "Effort, moving", "force", needed=True, along=True, hint="Read while the load moves steadily.")
TO_START = Column("E_start", "Effort to start", "force", along=True, hint="The highest reading before it moves.")
LOWERING = Column("E_lower", "Effort, lowering", "force", along=True, hint="Read while it comes down slowly.")
EFFORT_PATH = Column("dE", "Effort distance", "length", hint="How far the hand moved along its pull.")
LOAD_PATH = Column("dR", "Load distance", "length", hint="How far the load moved.")
NOTE = Column("note", "Note", "words")
TRIAL = (LOAD, EFFORT, TO_START, LOWERING, LOAD_PATH, EFFORT_PATH, NOTE)


@dataclass(frozen=True)
class Lab:
    """One lab.

    ``calculator`` and ``choices`` say what judges the readings; ``once`` are its quantities that are measured once, or
    chosen. ``position`` is how the scale hangs in this lab (see ``scale.POSITIONS``). ``low`` is the efficiency below
    which something is probably wrong. ``calliper`` are the sizes measured with one, ``shared_by`` over how many turns
    or parts a size was measured in one go: it has as small a share of the doubt. ``sample`` are invented
    readings: boxes, and rows by column symbol, in US units.
    """

    key: str
    title: str
    calculator_key: str
    once: tuple[str, ...]
    position: str
    sample: Mapping[str, str]
    sample_rows: tuple[Mapping[str, str], ...]
    choices: Mapping[str, str] = field(default_factory=dict)
    columns: tuple[Column, ...] = TRIAL
    tare: bool = False
    low: float = 0.20
    calliper: tuple[str, ...] = ()
    shared_by: Mapping[str, int] = field(default_factory=dict)

    @property
    def calculator(self) -> Calculator:
        """The calculator that judges."""
        return CALCULATORS[self.calculator_key]


def _rows(**columns: str) -> tuple[dict[str, str], ...]:
    """Rows from columns of words: ``R="36 36.5"``; a point stands for an empty cell."""
    cells = {symbol: text.split() for symbol, text in columns.items()}
    count = max(len(column) for column in cells.values())
    return tuple(
        {symbol: column[i] for symbol, column in cells.items() if i < len(column) and column[i] != "."}
        for i in range(count)
    )


LABS: Mapping[str, Lab] = {
    lab.key: lab
    for lab in (
        Lab(
            "lever-lab",
            "Lever: a bar on a block",
            "lever",
            ("aR", "aE"),
            "up",
            {"aR": "6", "aE": "24"},
            _rows(R="40 40 40.5 40 39.5", E="10.5 10 10.5 10.5 10", E_start="11.5 11 12 11.5 11"),
            {"class": "1"},
            tare=True,
        ),
        Lab(
            "wheel-lab",
            "Wheel and axle: a windlass",
            "windlass",
            ("r_c", "D", "t"),
            "level",
            {"r_c": "10", "D": "4", "t": "0.25"},
            _rows(R="30 30 30.5 30 29.5", E="7.5 7.5 8 7.5 7.5", E_lower="5 5.5 5 5 5.5"),
            columns=(LOAD, EFFORT, TO_START, LOWERING, Column("turns", "Turns", "turns"), LOAD_PATH, NOTE),
            calliper=("D", "t"),
        ),
        Lab(
            "pulley-lab",
            "Pulley: rope parts counted",
            "tackle",
            ("n", "w"),
            "up",
            {"n": "3", "w": "2"},
            _rows(
                R="30 30 30.5 30 29.5",
                E="12.5 12.5 13 12.5 12",
                E_lower="8.5 9 8.5 9 8.5",
                dR="12 12 12 12 12",
                dE="36 36 36 36 36",
            ),
            {"rove": "disadvantage"},
        ),
        Lab(
            "ramp-lab",
            "Inclined plane: a crate up a plank",
            "ramp",
            ("L", "h"),
            "slope",
            {"L": "96", "h": "24"},
            _rows(R="36 36.5 36 35.5 36", E="12.5 13 12.5 12 13", E_start="15 15.5 15 14.5 15.5"),
            {"pull": "along", "motion": "up"},
        ),
        Lab(
            "wedge-lab",
            "Wedge: a board lifted",
            "wedge",
            ("ell", "t"),
            "level",
            {"ell": "9", "t": "1.5"},
            _rows(R="20 20 20.5 20 19.5", E="14 14.5 14 13.5 14.5", E_start="16 16.5 16 16 16.5"),
            {"kind": "single"},
            low=0.02,
            calliper=("t",),
        ),
        Lab(
            "screw-lab",
            "Screw: a stand lifted",
            "screw",
            ("l", "r"),
            "level",
            {"l": "0.1", "r": "1.25"},
            _rows(R="40 40 40.5 40 39.5", E="5 5.5 5 5 5.5", E_lower="4 4 4.5 4 4"),
            {"thread": "vee"},
            columns=(LOAD, EFFORT, TO_START, LOWERING, Column("turns", "Turns", "turns"), LOAD_PATH, NOTE),
            low=0.02,
            shared_by={"l": 10},
        ),
        Lab(
            "any-lab",
            "Any machine: forces and distances",
            "any-machine",
            (),
            "up",
            {},
            _rows(R="36 36 36.5", E="12 12.5 12", dR="24 24 24", dE="96 96 96"),
            columns=tuple(
                Column(c.symbol, c.label, c.kind, c.needed or c.symbol in ("dR", "dE"), c.along, c.hint) for c in TRIAL
            ),
        ),
    )
}
