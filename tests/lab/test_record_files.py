"""The record sheet as a file: nothing lost on the way, nothing run by a spreadsheet, bad files named by place."""

import csv
import io
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from calc.lab.files import safe, unsafe
from calc.lab.plan import LABS
from tests.lab.sheets import J47, record, rows

RUN = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1")


def saved(request: dict[str, Any]) -> str:
    return calc.answer({**request, "file": True})["file"]


def opened(text: str) -> dict[str, Any]:
    return calc.answer({"open": text, "record": "ramp-lab"})


def said(text: str) -> list[tuple[int, int]]:
    return [(it["line"], it["column"]) for it in opened(text)["problems"]]


TEXT = st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=12).map(str.strip).filter(bool)
NUMBER = st.sampled_from(["12.5", "36", "0", "12,5", "5½", "1-1/2", "-3", "+4", "=1+1", "12 lbf", "3'"])


@st.composite
def sheets(draw: st.DrawFn) -> dict[str, Any]:
    lab = LABS[draw(st.sampled_from(sorted(LABS)))]
    row = {c.symbol: (TEXT if c.kind == "words" else NUMBER) for c in lab.columns}
    filled = st.fixed_dictionaries({}, optional=row).filter(bool)
    out = st.fixed_dictionaries({}, optional={"out": st.just(True)})
    return {
        "record": lab.key,
        "units": draw(st.sampled_from(["us", "si"])),
        "group": draw(st.sampled_from(["", "3", "=3", "'+x", 'a,b;c\t"d"'])),
        "once": draw(st.fixed_dictionaries({}, optional=dict.fromkeys(lab.once, NUMBER))),
        "tools": draw(
            st.fixed_dictionaries({"unit": st.sampled_from(["lbf", "N", "kg", "g"])}, optional={"hook": NUMBER})
        ),
        "tare": draw(st.sampled_from(["", "2", "-2"])),
        "rows": [{**draw(filled), **draw(out)} for _ in range(draw(st.integers(0, 5)))],
    }


@given(sheets())
@settings(max_examples=150)
def test_a_saved_sheet_opens_as_it_was(sheet: dict[str, Any]) -> None:
    back = opened(saved(sheet))
    assert back["problems"] == []
    assert back["opened"]["tools"].items() >= sheet["tools"].items()
    for part in ("record", "units", "group", "once", "tare", "rows"):
        assert back["opened"][part] == sheet[part], part
    assert calc.answer({**back["opened"]})["verdicts"] == calc.answer(sheet)["verdicts"]


@given(sheets(), st.sampled_from(RUN))
@settings(max_examples=60)
def test_no_cell_of_a_saved_sheet_begins_like_a_formula(sheet: dict[str, Any], formula: str) -> None:
    sheet = {**sheet, "group": formula, "tare": formula, "rows": [*sheet["rows"], {"note": formula, "E": formula}]}
    for line in csv.reader(io.StringIO(saved(sheet), newline="")):
        assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r")) for cell in line)


@given(st.text(st.sampled_from("'=+-@\t\r1a"), max_size=6))
def test_making_a_cell_safe_can_be_taken_back(text: str) -> None:
    assert unsafe(safe(text)) == text


def test_a_saved_sheet_is_a_file_as_rfc_4180_has_it() -> None:
    """RFC 4180, section 2: lines end in CR LF; a cell with comma, quote or line break is quoted, a quote doubled."""
    text = saved(calc.sample_record("ramp-lab") | {"group": 'a "b", c'})
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert '"a ""b"", c"' in text


TABLE = "trial,R (lbf),E (lbf)\n1,36,12.5\n2,36,13\n"
READ = [{"R": "36", "E": "12.5"}, {"R": "36", "E": "13"}]


@pytest.mark.parametrize(
    "text",
    [
        TABLE,
        TABLE.replace("\n", "\r\n"),
        TABLE.replace("\n", "\r"),
        "\ufeff" + TABLE,
        TABLE.replace(",", ";"),
        TABLE.replace(",", "\t"),
        TABLE.replace("trial", "Trial"),
        TABLE.rstrip("\n"),
        TABLE.replace("R (lbf)", "R [lbf]"),
        '"trial","R (lbf)","E (lbf)"\n"1","36","12.5"\n"2","36","13"\n',
        "record,ramp-lab\n\n\n" + TABLE + "\n\n",
    ],
)
def test_a_table_can_come_from_any_spreadsheet(text: str) -> None:
    back = opened(text)
    assert (back["problems"], back["opened"]["rows"]) == ([], READ)


def test_semicolons_leave_a_decimal_comma_for_the_reader_to_mend() -> None:
    back = opened("trial;R (lbf);E (lbf)\n1;36;12,5\n")
    assert back["opened"]["rows"] == [{"R": "36", "E": "12,5"}]
    assert record(given=back["opened"]["rows"])["cells"][0]["code"] == "e-comma"


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("", [(0, 0)]),
        ("just words", [(1, 1), (1, 0)]),
        ("record,no-lab\n" + TABLE, [(1, 2)]),
        ("units,feet\n" + TABLE, [(1, 2)]),
        ("weather,rain\n" + TABLE, [(1, 1)]),
        ("trial,R (lbf),Q,E (lbf)\n1,36,9,12.5\n2,36,9,13\n", [(1, 3)]),
        ("trial,R (stone),E (lbf)\n1,3,12.5\n2,3,13\n", [(1, 2)]),
        ("trial,R (lbf),E (N)\n1,36,50\n2,36,51\n", [(1, 3)]),
        ("trial,R (lbf),E (lbf),dR (cm)\n1,36,12.5,60\n", [(1, 4)]),
        ("trial,R (lbf),E (lbf),dR (in),dE (mm)\n1,36,12.5,24,2400\n", [(1, 5)]),
        ("trial,R (lbf),E (lbf),E (lbf)\n1,36,12.5,13\n", [(1, 4)]),
        ("trial,R (lbf),E (lbf)\n1,36,twelve\n2,36,13\n", [(2, 3)]),
        ("trial,R (lbf),E (lbf)\n1,36,12.5,7\n", [(2, 4)]),
        ("a\x00b", [(0, 0)]),
        ("x" * 2_000_001, [(0, 0)]),
        ('trial,R (lbf),E (lbf)\n1,36,"' + "1" * 200_000 + '"\n', [(2, 0)]),
    ],
)
def test_what_is_wrong_with_a_file_is_said_by_line_and_column(text: str, places: list[tuple[int, int]]) -> None:
    assert said(text) == places
    assert all(it["words"].endswith(".") for it in opened(text)["problems"])


def test_a_column_that_can_not_be_used_is_left_out_and_the_others_are_kept() -> None:
    back = opened("trial,R (lbf),E (N),dR (cm),dE (in)\n1,36,50,60,96\n")
    assert back["opened"]["rows"] == [{"R": "36", "dE": "96"}]
    assert back["opened"]["units"] == "us"


def test_a_hundred_thousand_lines_give_two_hundred_rows_and_one_word_about_it() -> None:
    back = opened("trial,R (lbf),E (lbf)\n" + "1,36,12.5\n" * 100_000)
    assert len(back["opened"]["rows"]) == 200
    assert [(it["line"], it["column"]) for it in back["problems"]] == [(202, 0)]


@given(st.text(max_size=300) | st.binary(max_size=200).map(lambda raw: raw.decode("latin-1")))
@settings(max_examples=200)
def test_no_text_breaks_the_reader(text: str) -> None:
    for form in (text, "trial,R (lbf),E (lbf)\n" + text):
        for problem in opened(form)["problems"]:
            assert problem["line"] >= 0
            assert problem["words"]


def test_the_whole_way_there_and_back_gives_the_same_verdict() -> None:
    sheet = calc.sample_record("ramp-lab") | {"rows": rows(**J47)}
    assert calc.answer(opened(saved(sheet))["opened"])["html"] == calc.answer(sheet)["html"]
