"""Requests that no page makes: the door answers each with JSON, and no number that is none."""

import json
import math

import pytest

import calc

RAMP = calc.example("ramp", "us")
TABLE = "group,R,E,dR,dE\na,{},{},{},{}\n"


@pytest.mark.parametrize("travel", [10**400, math.inf, -math.inf, math.nan, -5, "much", None, [], True])
def test_any_travel_draws_the_machine_somewhere_on_its_way(travel: object) -> None:
    answer = json.loads(calc.answer_json(json.dumps(RAMP | {"draw": "wide", "travel": travel})))
    slid = next(slider for slider in answer["sliders"] if slider["symbol"] == "travel")
    assert 0 <= slid["value"] <= 100


@pytest.mark.parametrize(
    "cells",
    [("nan", 1, 1, 1), ("inf", 1, 1, 1), ("1e308", "1e-308", 1, 1), (1, 1, "1e308", "1e-308"), (1, "-inf", 1, 1)],
)
def test_a_table_of_groups_with_an_impossible_size_names_its_cell(cells: tuple[object, ...]) -> None:
    answer = json.loads(calc.answer_json(json.dumps({"group_file": TABLE.format(*cells), "name": "a.csv"})))
    assert "not a size above zero" in json.dumps(answer)


def test_a_table_with_an_endless_cell_is_no_table() -> None:
    text = TABLE.format("9" * 200_000, 1, 1, 1)
    answer = json.loads(calc.answer_json(json.dumps({"group_file": text, "name": "a.csv"})))
    assert "too long" in json.dumps(answer)
