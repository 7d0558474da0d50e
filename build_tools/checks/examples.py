"""Published worked examples, answered by the calculators: one row for each number that a source prints.

The examples stand in ``shared/checks/worked_examples.toml``; ``covered_examples.toml`` says which calculator answers
which number and how the givens become boxes; ``not_covered.toml`` says what is left, and why. Tests and the page of
checks take their rows from here, so that both show what ``calc.answer`` says.
"""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import calc
from calc.formula import evaluate, parse
from calc.units import factor, unit_named

FOLDER = Path(__file__).parents[2] / "shared" / "checks"
GRADES: Mapping[str, str] = {
    "source-text": "read in the source",
    "option-only": "read in the source, the options only",
    "companion-output": "from a companion's output",
}
"""How well a printed answer is known, the best first."""

_UNITS = {"lb": "lbf", "deg": "°", "m/s2": "", "": ""}


class CheckFailedError(ValueError):
    """A row is outside its printed rounding, or the data of the checks contradict themselves."""


@dataclass(frozen=True)
class Ask:
    """One number that a source prints: ``value`` in ``unit``, ``ulp`` one unit of its last printed digit.

    ``rounding``: "half" rounded to nearest, "trunc" cut off, "ulp" rounded from steps that were rounded before.
    """

    symbol: str
    name: str
    printed: str
    unit: str
    value: float
    ulp: float
    rounding: str

    def allows(self, got: float) -> bool:
        """Whether a value in the printed unit is within the printed rounding, and no looser."""
        slack = 1e-9 * max(1.0, abs(got))
        off = got - self.value
        if self.rounding == "trunc":
            return -slack <= off < self.ulp + slack
        return abs(off) <= {"half": self.ulp / 2, "ulp": self.ulp}[self.rounding] + slack


@dataclass(frozen=True)
class Example:
    """A published example: its question in our own words, its givens, where it stands and how well it is known."""

    id: str
    machine: str
    statement: str
    givens: Mapping[str, tuple[float, str]]
    asks: tuple[Ask, ...]
    source: str
    grade: str


@dataclass(frozen=True)
class Row:
    """One printed number beside what the site says: ``got`` in the printed unit, ``shown`` to the printed place."""

    example: Example
    ask: Ask
    calculator: str
    got: float
    shown: str
    within: bool


@dataclass(frozen=True)
class Answered:
    """An example with the rows that calculators answer, the sheets that do (key and link), and how it was put in."""

    example: Example
    rows: tuple[Row, ...]
    sheets: tuple[tuple[str, str], ...]
    how: str


@dataclass(frozen=True)
class Left:
    """What no calculator answers of an example, and why."""

    example: Example
    asks: tuple[Ask, ...]
    reason: str


def table(name: str) -> dict[str, Any]:
    """A TOML file of the checks."""
    return tomllib.loads((FOLDER / name).read_text("utf-8"))


@cache
def examples() -> Mapping[str, Example]:
    """All published examples by id, in the order of the file."""
    return {entry["id"]: _example(entry) for entry in table("worked_examples.toml")["example"]}


def _example(entry: Mapping[str, Any]) -> Example:
    asks = tuple(
        Ask(a["symbol"], a["name"], a["printed"], a["unit"], a["value"], a["ulp"], a["rounding"]) for a in entry["asks"]
    )
    return Example(
        id=entry["id"],
        machine=entry["machine"],
        statement=entry["statement"],
        givens={g["symbol"]: (float(g["value"]), g["unit"]) for g in entry["givens"]},
        asks=asks,
        source=entry["source"],
        grade="option-only" if entry["answer_key"] == "option-only" else entry["evidence"],
    )


def coverage() -> dict[str, Any]:
    """Which calculators answer which example: a table, or a list of tables where it takes several sheets."""
    return table("covered_examples.toml")


def answered(example: Example, covered: Mapping[str, Any] | Iterable[Mapping[str, Any]]) -> Answered:
    """The rows of an example. Raises CheckFailedError where a calculator has no answer or the data name nothing."""
    parts = [covered] if isinstance(covered, Mapping) else list(covered)
    known: dict[str, float] = {}
    rows, sheets, how = [], [], []
    asks = {ask.symbol: ask for ask in example.asks}
    for number, part in enumerate(parts, 1):
        request = request_for(part, example, known)
        answer = calc.answer(request)
        if answer["errors"]:
            raise CheckFailedError(f"{example.id}, {part['calculator']}: {answer['errors'][0]['text']}")
        values = {symbol: entry["si"] for symbol, entry in answer["values"].items()}
        known |= {f"p{number}_{symbol}": value for symbol, value in values.items()}
        sheets.append((part["calculator"], answer["link"]))
        how += [part["how"]] if "how" in part else []
        for symbol, rule in part.get("asks", {}).items():
            if symbol not in asks:
                raise CheckFailedError(f"{example.id} asks for no {symbol}")
            rows.append(_row(example, asks[symbol], part["calculator"], rule, {**known, **values}))
    return Answered(example, tuple(rows), tuple(dict.fromkeys(sheets)), " ".join(how))


def request_for(part: Mapping[str, Any], example: Example, known: Mapping[str, float]) -> dict[str, Any]:
    """The request that the example's givens, and what sheets before this one said, amount to."""
    plain = {**known, **{symbol: value for symbol, (value, _) in example.givens.items()}}
    given = {}
    for symbol, rule in part["given"].items():
        formula, _, unit = (word.strip() for word in rule.partition("|"))
        given[symbol] = f"{evaluate(parse(formula), plain):.15g} {unit}".strip()
    return {"calculator": part["calculator"], "given": given, "choices": part.get("choices", {}), "units": "si"}


def _row(example: Example, ask: Ask, calculator: str, rule: str, values: Mapping[str, float]) -> Row:
    """``rule`` is a symbol of the answer, or a formula over the answer (SI) and {givens}, and a unit of its own."""
    formula, _, unit = (word.strip() for word in rule.partition("|"))
    try:
        formula = re.sub(r"\{(\w+)\}", lambda found: f"({_si(example, found[1])!r})", formula)
        got = float(evaluate(parse(formula), values)) / size_of(unit or ask.unit)
    except KeyError as missing:
        raise CheckFailedError(f"{example.id}: the answer of {calculator} has no {missing}") from missing
    return Row(example, ask, calculator, got, shown(ask, got), ask.allows(got))


def _si(example: Example, symbol: str) -> float:
    value, unit = example.givens[symbol]
    return value * size_of(unit)


def size_of(unit: str) -> float:
    """How many SI units a printed unit is; "100 lbf" counts in hundreds."""
    number = re.match(r"[\d.]+(?=\s)", unit)
    if number:
        return float(number[0]) * size_of(unit[number.end() :].strip())
    name = _UNITS.get(unit, unit)
    return factor(unit_named(name) or name) if name else 1.0


def shown(ask: Ask, got: float) -> str:
    """A value to the place that the source prints; one figure more where the source did not round to the nearest."""
    places = max(0, -math.floor(math.log10(ask.ulp) + 1e-9)) + (ask.rounding != "half")
    return f"{got + 0.0:.{places}f}".replace("-", "−")


@cache
def all_answered() -> tuple[Answered, ...]:
    """Every covered example with its rows, in the order of the file of examples."""
    covered = coverage()
    if unknown := covered.keys() - examples().keys():
        raise CheckFailedError(f"Covered, but no example: {', '.join(sorted(unknown))}")
    return tuple(answered(example, covered[key]) for key, example in examples().items() if key in covered)


def left() -> tuple[Left, ...]:
    """What no calculator answers, in the order of its file."""
    found = []
    for key, entry in table("not_covered.toml").items():
        example = examples()[key]
        wanted = entry.get("asks", [ask.symbol for ask in example.asks])
        found.append(Left(example, tuple(ask for ask in example.asks if ask.symbol in wanted), entry["reason"]))
    return tuple(found)


def hold(rows: Iterable[Row]) -> None:
    """Raise CheckFailedError if a row is outside its printed rounding."""
    wrong = [row for row in rows if not row.within]
    if wrong:
        words = "; ".join(
            f"{row.example.id} {row.ask.symbol}: printed {row.ask.printed} {row.ask.unit}, the site says {row.got:.8g}"
            f" ({row.example.source})"
            for row in wrong
        )
        raise CheckFailedError(f"Outside the printed rounding: {words}")
