"""The reference tables against second sources (the comparisons that the page of checks shows), and units by SymPy."""

from __future__ import annotations

from pathlib import Path

import pytest
import sympy
from sympy.physics import units

from build_tools.checks import tables
from build_tools.checks.examples import CheckFailedError
from calc.units import factor

SYMPY = {
    "in": units.inch,
    "ft": units.foot,
    "yd": units.yard,
    "mm": units.millimeter,
    "cm": units.centimeter,
    "lb": units.pound,
    "g": units.gram,
    "N": units.newton,
    "lbf": units.pound * units.acceleration_due_to_gravity,
    "kgf": units.kilogram * units.acceleration_due_to_gravity,
    "J": units.joule,
    "W": units.watt,
    "°": units.degree,
    "min": units.minute,
    "h": units.hour,
}


@pytest.mark.parametrize("name", SYMPY)
def test_a_unit_is_as_large_as_sympy_says(name: str) -> None:
    """SymPy has a list of units of its own (sympy.physics.units), with the standard gravity of 9.80665 m/s²."""
    base = (units.meter, units.kilogram, units.second) if name != "°" else (units.radian,)
    theirs = units.convert_to(SYMPY[name], base)
    number = float(sympy.N(theirs.subs(dict.fromkeys(base, 1))))
    assert factor(name) == pytest.approx(number, rel=1e-12)


def test_every_table_is_compared_and_differs_only_where_that_is_explained() -> None:
    found = {check.title: check for check in tables.checked_tables()}
    assert len(found) == 12
    for check in found.values():
        assert check.agree + len(check.differs) == check.entries or check.title == "Rolling resistance", check.title
        assert all(len(reason) > 40 for reason in check.differs.values())
    assert (found["Metric trapezoidal threads"].agree, found["Acme threads"].agree) == (112, 14)


def test_every_entry_of_a_table_has_a_grade_that_is_shown() -> None:
    for counts in tables.table_grades().values():
        assert counts.keys() <= tables.GRADES.keys()


@pytest.mark.parametrize(
    ("file", "was", "becomes"),
    [
        ("acme_threads.csv", "3/4,0.75,6,", "3/4,0.75,5,"),
        ("iso_metric_coarse.csv", "M10,10,1.5,", "M10,10,1.25,"),
        ("unified_threads.csv", "UNC,3/8,0.375,16", "UNC,3/8,0.375,18"),
        ("metric_trapezoidal.csv", "Tr20x4,20,4,", "Tr20x4,20,5,"),
        ("friction.csv", "wood-on-wood,wood on wood,0.5", "wood-on-wood,wood on wood,0.9"),
    ],
)
def test_a_falsified_entry_is_noticed(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, file: str, was: str, becomes: str
) -> None:
    for table in tables.TABLES.glob("*.csv"):
        text = table.read_text("utf-8")
        assert table.name != file or was in text
        (tmp_path / table.name).write_text(text.replace(was, becomes) if table.name == file else text, "utf-8")
    monkeypatch.setattr(tables, "TABLES", tmp_path)
    with pytest.raises(CheckFailedError):
        tables.checked_tables()
