"""Reference tables, each compared with a second source or with the formulas that its entries must obey.

What is compared with what, and which entries are known not to agree and why, stands in
``shared/checks/table_checks.toml``. An entry that differs without a reason there is an error, and so is a reason
without a difference.
"""

from __future__ import annotations

import csv
import math
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from build_tools.checks.examples import FOLDER, CheckFailedError, table
from calc.units import factor

TABLES = FOLDER.parent / "tables"
GRADES: Mapping[str, str] = {
    "source-text": "read in the source",
    "library-data": "from a library's data",
    "secondary-print": "quoted at second hand",
    "recalled": "from memory",
}
NAMES: Mapping[str, str] = {
    "acme_threads": "Acme threads",
    "ada_ramps": "Ramp limits for people",
    "friction": "Friction",
    "iso_metric_coarse": "ISO metric threads, coarse",
    "metric_trapezoidal": "Metric trapezoidal threads",
    "rolling_resistance": "Rolling resistance",
    "unified_threads": "Unified threads",
    "unit_factors": "Unit factors",
}
THREADS = ("iso_metric_coarse", "unified_threads", "acme_threads", "metric_trapezoidal")
_SIXTY = 3 / 8 * math.sqrt(3)
_SHARE = {"iso_metric_coarse": _SIXTY, "unified_threads": _SIXTY, "acme_threads": 0.5, "metric_trapezoidal": 0.5}
"""By how many pitches the basic pitch diameter is smaller than the major one."""

# The names of unit_factors.csv, in the spelling that calc.units knows; the rest the site does not use.
_UNITS = {
    "inch": "in",
    "foot": "ft",
    "yard": "yd",
    "pound (mass)": "lb",
    "ounce (mass)": "oz",
    "slug = g_n lb s2/ft": "slug",
    "pound-force": "lbf",
    "kilogram-force": "kgf",
    "ounce-force": "ozf",
    "pound-force inch": "lbf·in",
    "pound-force foot": "lbf·ft",
    "foot pound-force (energy)": "ft·lbf",
    "foot pound-force per second": "ft·lbf/s",
    "horsepower = 550 ft·lbf/s": "hp",
    "degree": "°",
}

Compared = tuple[str, bool]
"""An entry's name, and whether it agrees."""


@dataclass(frozen=True)
class TableCheck:
    """One comparison: so many entries agree of so many, and the reasons of those that do not."""

    title: str
    against: str
    grade: str
    entries: int
    agree: int
    differs: Mapping[str, str]


def rows_of(file: Path) -> list[dict[str, str]]:
    """The rows of a table, without its remarks."""
    lines = [line for line in file.read_text("utf-8").splitlines() if not line.startswith("# ")]
    return list(csv.DictReader(lines))


def table_grades() -> dict[str, Counter[str]]:
    """How many entries of each grade every table of the trade holds."""
    return {file.stem: Counter(row["grade"] for row in rows_of(file)) for file in sorted(TABLES.glob("*.csv"))}


def checked_tables() -> tuple[TableCheck, ...]:
    """All comparisons. Raises CheckFailedError for a difference without a reason, or a reason without a difference."""
    return tuple(_checked(entry) for entry in table("table_checks.toml")["check"])


def _checked(entry: Mapping[str, str | Mapping[str, str]]) -> TableCheck:
    how, title = str(entry["how"]), str(entry["title"])
    name, _, of = how.partition(":")
    compared = list(_HOW[name](of))
    reasons = dict(entry.get("differs", {}))  # type: ignore[arg-type]  # a table in the file
    found = {key for key, agrees in compared if not agrees}
    if found != reasons.keys():
        odd = ", ".join(sorted(found ^ reasons.keys()))
        raise CheckFailedError(f"{title}: a difference without a reason, or a reason without a difference: {odd}")
    entries = len(compared) or len(rows_of(TABLES / f"{of}.csv"))
    agree = sum(agrees for _, agrees in compared)
    return TableCheck(title, str(entry["against"]), str(entry["grade"]), entries, agree, reasons)


def major_and_pitch(name: str, row: Mapping[str, str]) -> tuple[float, float]:
    """A thread's major diameter and pitch, in the unit of its table."""
    major = next(float(row[column]) for column in ("major_in", "d_mm") if column in row)
    return major, float(row["pitch_mm"]) if "pitch_mm" in row else 1 / float(row["tpi"])


def _named(name: str) -> dict[str, dict[str, str]]:
    """The rows of a thread table by the name that other files give them."""
    return {f"{row['series']} {row['size']}" if "series" in row else row["size"]: row for row in _threads(name)}


def _threads(name: str) -> list[dict[str, str]]:
    return rows_of(TABLES / f"{name}.csv")


def _elsewhere(name: str) -> Iterator[Compared]:
    """Size, pitch and, where it is printed, pitch diameter in another source."""
    other = {row["size"]: row for row in rows_of(FOLDER / "threads_elsewhere.csv") if row["table"] == name}
    for size, row in _named(name).items():
        theirs = other.get(size)
        if theirs is None:
            yield size, False
            continue
        pitch = next(row[column] for column in ("pitch_mm", "tpi") if column in row)
        agrees = float(theirs["major"]) == major_and_pitch(name, row)[0] and float(theirs["pitch"]) == float(pitch)
        if theirs["pitch_dia"]:
            agrees = agrees and abs(float(theirs["pitch_dia"]) - float(row["pitch_dia_mm"])) <= 0.0005 + 1e-9
        yield size, agrees


def _profile(_: str) -> Iterator[Compared]:
    """The pitch diameters that stand in the tables, to half of their last digit and a little for what they round."""
    for name in THREADS:
        for size, row in _named(name).items():
            printed = next(text for column, text in row.items() if column.startswith("pitch_dia"))
            major, pitch = major_and_pitch(name, row)
            yield f"{name} {size}", _fits(printed, major - _SHARE[name] * pitch, 1.0)


def _stress_areas(name: str) -> Iterator[Compared]:
    """Stress areas of ISO 898 and ASME B1.1 (from memory), to one unit of the printed digit."""
    lost = 0.938194 if name == "iso_metric_coarse" else 0.9743
    threads = _named(name)
    for row in rows_of(FOLDER / "printed_stress_areas.csv"):
        if row["table"] == name:
            major, pitch = major_and_pitch(name, threads[row["size"]])
            yield row["size"], _fits(row["printed"], math.pi / 4 * (major - lost * pitch) ** 2, 1.0)


def _fine_rows(_: str) -> Iterator[Compared]:
    for row in rows_of(FOLDER / "iso_metric_fine_check.csv"):
        major, pitch = (float(text) for text in row["size"].removeprefix("M").split("x"))
        height = math.sqrt(3) / 2 * pitch
        d2, d3, d1 = (major - share * height for share in (3 / 4, 17 / 12, 5 / 4))
        area = math.pi / 4 * ((d2 + d3) / 2) ** 2
        if not all(abs(float(row[name]) - value) <= 0.0011 for name, value in (("d2", d2), ("d3", d3), ("D1", d1))):
            raise CheckFailedError(f"The printed diameters of {row['size']} do not follow from the basic profile.")
        yield row["size"], abs(float(row["stress_area"]) - area) <= 0.005 * area


def _units(_: str) -> Iterator[Compared]:
    for row in rows_of(TABLES / "unit_factors.csv"):
        if name := _UNITS.get(row["unit"]):
            yield row["unit"], math.isclose(factor(name), float(row["factor"]), rel_tol=1e-15)


def _friction_pairs(_: str) -> Iterator[Compared]:
    rows = {row["key"]: row for row in rows_of(TABLES / "friction.csv")}
    for pair in table("friction_pairs.toml")["pair"]:
        value, other = rows[pair["value"]], rows[pair["range"]]
        inside = []
        for column in ("mu_static", "mu_kinetic"):
            low, _, high = other[column].partition(" to ")
            inside.append(float(low) <= float(value[column]) <= float(high or low))
        yield pair["name"], all(inside)


def _ramp_limits(_: str) -> Iterator[Compared]:
    """Inches with millimetres in brackets, and a slope with its percent."""
    for row in rows_of(TABLES / "ada_ramps.csv"):
        if found := re.search(r"(\d+) in \((\d+) mm\)", row["limit"]):
            yield row["item"], 5 * round(float(found[1]) * 25.4 / 5) == float(found[2])
        elif found := re.search(r"1:(\d+) \(([\d.]+) %\)", row["limit"]):
            yield row["item"], _fits(found[2], 100 / float(found[1]), 0.5)


def _none(_: str) -> Iterator[Compared]:
    return iter(())


def _fits(printed: str, value: float, units: float) -> bool:
    """Whether a value is within so many units of the last digit of what is printed."""
    places = len(printed.partition(".")[2])
    if "." not in printed and len(printed) > 3:  # 1120: three figures
        places = 3 - len(printed)
    return abs(float(printed) - value) <= units * 10.0**-places + 1e-9


_HOW = {
    "elsewhere": _elsewhere,
    "profile": _profile,
    "stress-areas": _stress_areas,
    "fine-rows": _fine_rows,
    "units": _units,
    "friction-pairs": _friction_pairs,
    "ramp-limits": _ramp_limits,
    "none": _none,
}
