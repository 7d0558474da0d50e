"""The cells of a record sheet: what can be typed, and what is said of what can't be."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from tests.lab.sheets import LBF, codes, record


def effort(text: str, **more: Any) -> tuple[str, str | None]:
    """The code said of an effort, or empty; and what the button would put in its place."""
    cells = record(given=[{"R": "36", "E": text}], **more)["cells"]
    return (cells[0]["code"], cells[0]["fill"]) if cells else ("", None)


@pytest.mark.parametrize("text", ["12.5", "12-1/2", "12 1/2", "12½", "25/2", "12.5 lbf", " 12.5 ", "012.50", "1.25e1"])
def test_twelve_and_a_half_can_be_typed_in_these_ways(text: str) -> None:
    answer = record(given=[{"R": "25", "E": text}] * 3)
    assert answer["values"]["AMA"]["si"] == pytest.approx(2, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("12,5", "e-comma"),
        ("-3", "e-neg"),
        ("0", "e-zero"),
        ("12 1", "e-notnum"),
        ("12..5", "e-notnum"),
        ("twelve", "e-notnum"),
        ("=1+1", "e-notnum"),
        ("12-", "e-notnum"),
        ("3/0", "e-frac0"),
        ("5-9/8", "e-frac1"),
        ("12 cubits", "e-unit"),
        ("5 ft", "e-dim"),
        ("5 ± 0.5", "e-celldoubt"),
        ("99999999", "e-range"),
        ("0.001", "e-range"),
        ("1e400", "e-big"),
    ],
)
def test_a_cell_that_can_not_be_read_is_told_kindly(text: str, code: str) -> None:
    assert effort(text)[0] == code


def test_a_unit_that_is_not_the_columns_can_be_put_right_with_one_press() -> None:
    """50 N over 4.4482 N is 11.24 lbf."""
    assert effort("50 N") == ("e-cellunit", "11.24")
    assert effort("11.24 lbf", units="si") == ("e-cellunit", "50")


@pytest.mark.parametrize(
    ("text", "code"), [("2.5", ""), ("2.5 kg", ""), ("2-1/2", ""), ("5 lbf", "e-cellunit"), ("2500 g", "e-cellunit")]
)
def test_a_scale_in_kilograms_takes_its_own_number(text: str, code: str) -> None:
    assert effort(text, tools={"unit": "kg", "division": "0.1", "capacity": "20"})[0] == code


def test_a_bad_cell_spoils_its_row_and_no_other() -> None:
    given = [{"R": "36", "E": text} for text in ("12.5", "13", "12,5", "12.5")]
    answer = record(given=given)
    assert [row["state"] for row in answer["rows"]] == ["trial", "trial", "error", "trial"]
    assert answer["values"] == record(given=[given[0], given[1], given[3]])["values"]


def test_an_unreadable_load_is_not_replaced_by_the_one_above() -> None:
    answer = record(given=[{"R": "36", "E": "12.5"}, {"R": "3b", "E": "12.5"}, {"E": "12.5"}])
    assert [row["state"] for row in answer["rows"]] == ["trial", "error", "waiting"]


def test_lowering_by_itself_takes_no_pull() -> None:
    assert record(given=[{"R": "36", "E": "12.5", "E_lower": "0"}])["cells"] == []


def test_lengths_take_feet_and_inches() -> None:
    answer = record("any-lab", [{"R": "36", "E": "12", "dR": "2 ft", "dE": "8'"}] * 3)
    assert answer["values"]["IMA"]["si"] == pytest.approx(4, rel=1e-9)
    assert record("any-lab", [{"R": "1", "E": "1", "dR": "5 lbf", "dE": "1"}])["cells"][0]["code"] == "e-dim"


def test_a_hundred_thousand_rows_are_answered_with_the_first_two_hundred() -> None:
    answer = record(given=[{"R": "36", "E": "12.5"}] * 100_000)
    assert len(answer["rows"]) == 200
    assert [(it["row"], it["code"]) for it in answer["cells"]] == [(201, "e-rows")]
    assert answer["values"]["AMA"]["si"] == pytest.approx(36 / 12.5, rel=1e-9)


def test_boxes_above_the_table_are_told_kindly_too() -> None:
    answer = record(
        once={"L": "96,5", "h": "0"}, tools={"division": "0", "capacity": "-1", "unit": "stone", "hook": "x"}
    )
    found = {(error["at"], error["name"]) for error in answer["errors"]}
    assert found == {("once", "L"), ("once", "h"), *(("tools", it) for it in ("division", "capacity", "unit", "hook"))}
    assert all(error["text"].endswith(".") for error in answer["errors"])


@pytest.mark.parametrize(
    ("name", "text", "most"),
    [("hook", "1e308", "20000 lbf"), ("accuracy", "1e5", "20000 lbf"), ("tape", "1e300", "12000 in")],
)
def test_an_instrument_heavier_or_longer_than_any_box_takes_is_refused(name: str, text: str, most: str) -> None:
    (error,) = record("lever-lab", tools={"position": "up", name: text})["errors"]
    assert (error["at"], error["name"]) == ("tools", name)
    assert f"between 0 and {most}" in error["text"]


@pytest.mark.parametrize(("unit", "most"), [("lbf", "20000 lbf"), ("kg", "9072 kg")])  # 20 000 lb are 9071.85 kg
def test_a_bar_held_up_by_more_than_any_box_takes_is_refused(unit: str, most: str) -> None:
    answer = record("lever-lab", tare="1e308", tools={"unit": unit, "division": "0.5"})
    (error,) = answer["errors"]
    assert (error["at"], error["name"]) == ("once", "tare")
    assert f"between 0 and {most}" in error["text"]
    assert "nan" not in json.dumps(answer)


def test_an_unknown_lab_is_said() -> None:
    answer = calc.answer({"record": "no-lab"})
    assert "no-lab" in answer["errors"][0]["text"]


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.floats(allow_nan=False) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner, max_size=3),
    max_leaves=8,
)
NUMERALS = st.text("0123456789.,-+/½ ±=eEabflN'\"", max_size=10)
ROW = st.dictionaries(st.sampled_from(["R", "E", "E_start", "dR", "dE", "note", "out"]), NUMERALS | ANYTHING)


@given(
    st.fixed_dictionaries(
        {"record": st.sampled_from(calc.labs())},
        optional={
            "rows": st.lists(ROW | ANYTHING, max_size=6) | ANYTHING,
            "once": st.dictionaries(st.sampled_from(["L", "h", "aR", "aE", "n", "w"]), NUMERALS) | ANYTHING,
            "tools": st.dictionaries(st.sampled_from(["unit", "division", "hook", "position"]), NUMERALS) | ANYTHING,
            "tare": NUMERALS | ANYTHING,
            "units": ANYTHING,
            "group": ANYTHING,
            "draw": st.sampled_from(["wide", "both"]) | ANYTHING,
            "file": ANYTHING,
        },
    )
)
@settings(max_examples=150)
def test_nothing_that_can_be_typed_breaks_the_sheet(request: dict[str, Any]) -> None:
    json.dumps(calc.answer(request), allow_nan=False)


def test_forces_are_kept_in_newtons() -> None:
    """By hand: one pound-force is 4.4482216152605 N, exactly (NIST SP 811, B.8: recalled), over 96 in."""
    answer = record(given=[{"R": "36", "E": "12.5"}] * 3)
    assert answer["values"]["Win"]["si"] == pytest.approx(12.5 * LBF * 96 * 0.0254, rel=1e-9)
    assert codes(answer)[0] == "v-normal"
