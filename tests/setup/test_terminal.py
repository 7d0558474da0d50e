"""The terminal gives a page's answers, and says a slip in words."""

import json

import pytest

import calc
from build_tools import command_line
from build_tools.commands import terminal

# The law of the lever by hand: 240 lbf x 6 in / 48 in = 30 lbf; 1 lbf = 4.4482216152605 N exactly (NIST SP 811, B.8).
LEVER = ["lever", "R=240 lbf", "aR=6 in", "aE=48 in"]
EFFORT = 30 * 4.4482216152605


def run(*arguments: str) -> int:
    said = command_line.parse(["calc", *arguments])
    return terminal.run(said.key, said.given, find=said.find, units=said.units, as_json=said.json)


def test_an_answer_is_printed_with_its_working(capsys):
    assert run(*LEVER) == 0
    printed = capsys.readouterr().out
    assert "E = 30.0 lbf" in printed
    assert "Working" in printed
    assert "<" not in printed


def test_one_quantity_can_be_asked_for(capsys):
    assert run(*LEVER, "--find", "E") == 0
    assert capsys.readouterr().out == "E = 30.0 lbf\n"


def test_json_holds_values_errors_and_cautions(capsys):
    assert run(*LEVER, "--json") == 0
    answer = json.loads(capsys.readouterr().out)
    assert set(answer) == {"values", "errors", "cautions"}
    assert answer["values"]["E"] == {"si": pytest.approx(EFFORT, rel=1e-12), "text": "30.0 lbf"}
    assert answer["errors"] == []
    assert all(isinstance(caution, str) for caution in answer["cautions"])


def test_json_with_find_holds_that_value_only(capsys):
    run(*LEVER, "--json", "--find", "E")
    assert list(json.loads(capsys.readouterr().out)["values"]) == ["E"]


def test_metric_units_are_shown_when_asked_for(capsys):
    run(*LEVER, "--units", "si", "--find", "E")
    assert capsys.readouterr().out.endswith(" N\n")


def test_an_error_is_said_in_words_and_by_the_exit_code(capsys):
    assert run("lever", "R=-3 lbf", "aR=6 in", "aE=48 in") == 1
    assert capsys.readouterr().err.startswith("R: ")


def test_an_unknown_calculator_lists_the_known_ones(capsys):
    assert run("spanner") == 1
    said, known = capsys.readouterr().err, calc.keys()
    assert all(key in said for key in known)


def test_an_unknown_calculator_is_an_error_in_json_too(capsys):
    assert run("spanner", "--json") == 1
    assert json.loads(capsys.readouterr().out)["errors"][0]["symbol"] is None


def test_an_unknown_symbol_lists_the_known_ones(capsys):
    assert run("lever", "mass=3 lb") == 1
    assert "It has: " in capsys.readouterr().err


def test_a_symbol_given_twice_is_an_error(capsys):
    assert run("lever", "R=3 lbf", "R=4 lbf") == 1
    assert "twice" in capsys.readouterr().err


def test_what_cannot_be_found_is_an_error(capsys):
    assert run("lever", "R=240 lbf", "--find", "E") == 1
    assert "cannot be found" in capsys.readouterr().err


def test_a_choice_is_told_apart_from_a_given():
    form = calc.describe("ramp")
    asked = terminal.request(form, [("R", "30 lbf"), ("pull", "along")], "us")
    assert asked["given"] == {"R": "30 lbf"}
    assert asked["choices"] == {"pull": "along"}


def test_the_numbers_of_a_row_are_givens():
    form = calc.describe("same-work")
    columns = [quantity["symbol"] for row in form["rows"] for quantity in row["quantities"]]
    assert columns
    assert list(terminal._slips(form, [(f"{columns[0]}_2", "4")])) == []


@pytest.mark.parametrize("key", calc.keys())
def test_every_calculator_answers_its_own_example(key, capsys):
    example = calc.example(key, "us")
    pairs = {**example.get("choices", {}), **example["given"]}
    assert run(key, *(f"{symbol}={text}" for symbol, text in pairs.items())) == 0
    assert calc.describe(key)["title"] in capsys.readouterr().out


@pytest.mark.parametrize("arguments", [["polish"], ["calc"], ["calc", "lever", "R"], ["serve", "--port", "99999"], []])
def test_a_slip_on_the_command_line_ends_at_once(arguments, capsys):
    with pytest.raises(SystemExit) as ended:
        command_line.parse(arguments)
    assert ended.value.code == 2
    assert "usage:" in capsys.readouterr().err
