"""Predicting first on a record sheet: results wait for a number, then the sheet says how far off it was."""

from __future__ import annotations

import json
from typing import Any

import pytest

import calc
from tests.lab.sheets import J47, RAMP, record, rows

KEYS = calc.labs()
READINGS = rows(R=("36",) * 4, E=("12", "12.5", "12", "11.5"))  # by hand: a mean of 12 lbf; 12 x 4.44822 = 53.38 N


def predicted(text: str, unit: str = "lbf", **more: Any) -> dict[str, Any]:
    """The ramp's sheet with a prediction."""
    predict = {"on": True, "made": {"text": text, "unit": unit}, "declined": False}
    return record(**{"given": READINGS, "once": RAMP, "predict": predict, **more})


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("9", "You predicted 9 lbf; the mean of your 4 pulls is 12.00 lbf. That is 3.00 lbf too low, 25 % off."),
        ("18 lbf", "You predicted 18 lbf; the mean of your 4 pulls is 12.00 lbf. That is 6.00 lbf too high, 50 % off."),
        ("12.5", "You predicted 12.5 lbf; the mean of your 4 pulls is 12.00 lbf. That is close: within 5 %."),
        ("4000", "That is 3990 lbf too high, over 900 % off."),
    ],
)
def test_a_prediction_is_told_how_far_off_it_was(text: str, said: str) -> None:
    answer = predicted(text)
    assert said in answer["html"]["prediction"]
    assert "waiting" not in answer
    assert answer["values"] == record(given=READINGS, once=RAMP)["values"]  # a prediction is no reading


@pytest.mark.parametrize("key", KEYS)
def test_while_it_waits_no_part_of_an_answer_tells_a_result(key: str) -> None:
    answer = record(key_of := key, predict={"on": True}, draw="both")
    plain = record(key_of, draw="both")
    assert plain["html"]["results"]
    assert answer["waiting"] is True
    assert answer["html"] == {"verdict": "", "results": ""}
    assert (answer["values"], answer["verdicts"]) == ({}, [])
    assert all(row["ama"] == row["eta"] == row["mark"] == "" for row in answer["rows"])


def test_who_declines_sees_what_everybody_sees() -> None:
    plain = record(given=READINGS, once=RAMP)
    assert record(given=READINGS, once=RAMP, predict={"on": True, "declined": True}) == plain
    assert record(given=READINGS, once=RAMP, predict={"on": False}) == plain


@pytest.mark.parametrize("text", ["what", "-3", "0", "12 in", "1e99", "12 ± 1"])
def test_a_prediction_that_can_not_be_read_gets_words_at_its_box_and_the_results_wait(text: str) -> None:
    answer = predicted(text)
    (problem,) = answer["errors"]
    assert (problem["at"], problem["name"]) == ("predict", "prediction")
    assert problem["text"]
    assert answer["waiting"] is True


def test_a_prediction_keeps_the_unit_that_its_scale_showed() -> None:
    newtons = rows(R=("160",) * 3, E=("53.38",) * 3)
    said = predicted("12", "lbf", given=newtons, units="si")["html"]["prediction"]
    assert "You predicted 53.3787 N" in said
    assert "That is close" in said


def test_invented_readings_are_no_measure_of_a_prediction() -> None:
    said = predicted("9", invented=True)["html"]["prediction"]
    assert said == "You predicted 9 lbf. Now take your own readings: the gray ones are invented."


def test_with_no_trial_yet_or_several_loads_there_is_no_single_pull_to_compare_with() -> None:
    assert "Fill in a trial" in predicted("9", given=[])["html"]["prediction"]
    several = rows(R=("20", "40", "60"), E=("7", "13", "19"))
    said = predicted("9", given=several)["html"]["prediction"]
    assert "from 7.00 lbf to 19.00 lbf" in said
    assert "% off" not in said


def test_one_pull_is_not_called_a_mean() -> None:
    assert "your pull is 12.00 lbf" in predicted("9", given=READINGS[:1])["html"]["prediction"]


@pytest.mark.parametrize("predict", [None, 3, [], "yes", {"on": 1}, {"on": True, "made": 7}, {"on": True, "made": {}}])
def test_anything_else_is_taken_calmly(predict: Any) -> None:
    answer = record(given=rows(**J47), once=RAMP, predict=predict)
    json.dumps(answer)
    assert not answer["errors"]


@pytest.mark.parametrize(("text", "unit"), [("9", "lbf"), ("9 lbf", "lbf"), ("40", "N"), ("what", "g")])
def test_a_prediction_is_saved_with_its_sheet(text: str, unit: str) -> None:
    saved = predicted(text, unit, file=True)["file"]
    opened = calc.answer({"record": "ramp-lab", "open": saved})
    assert opened["problems"] == []
    assert opened["opened"]["predict"] == {"on": True, "made": {"text": text, "unit": unit}, "declined": False}
    without = calc.answer({"record": "ramp-lab", "open": record(file=True)["file"]})
    assert "predict" not in without["opened"]
