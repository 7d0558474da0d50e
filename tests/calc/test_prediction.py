"""Predicting first: the answer waits for a number, then says how far off it was."""

from __future__ import annotations

import json

import pytest

import calc

# Law of moments, by hand: E = 40 x 6 / 24 = 10 lbf, which is 44.5 N (1 lbf = 4.44822 N by definition).
GIVEN = {"R": "40", "aR": "6", "aE": "24"}


def asked(text: str, beside: str = "us", **more: object) -> dict:
    """A lever that waits for the effort, with a prediction of it."""
    predicted = {"E": {"text": text, "units": beside}}
    return calc.answer({"calculator": "lever", "given": GIVEN, "hide": ["E"], "predicted": predicted, **more})


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("15", "You predicted 15 lbf; the sheet finds 10.00 lbf. That is 5.00 lbf too high, 50 % off."),
        ("8 lbf", "You predicted 8 lbf; the sheet finds 10.00 lbf. That is 2.00 lbf too low, 20 % off."),
        ("10.4", "You predicted 10.4 lbf; the sheet finds 10.00 lbf. That is close: within 5 %."),
        ("88.96 N", "too high, 100 % off."),
        ("4000", "That is 3990 lbf too high, over 900 % off."),
    ],
)
def test_a_prediction_is_told_how_far_off_it_was(text: str, said: str) -> None:
    answer = asked(text)
    assert said in answer["html"]["prediction"]
    assert "10.00" in answer["html"]["results"]
    assert answer["fields"]["E"]["state"] == "computed"  # a prediction is no reading


def test_a_prediction_keeps_the_unit_that_stood_beside_its_box() -> None:
    assert "You predicted 15 N" not in asked("15", "us", units="si")["html"]["prediction"]
    assert "66.72" in asked("15", "us", units="si")["html"]["prediction"]  # 15 lbf in newtons


@pytest.mark.parametrize("text", ["long", "3/0", "12 in", "1,5"])
def test_what_cannot_be_read_reveals_nothing(text: str) -> None:
    answer = asked(text, draw="both")
    assert answer["html"]["results"] == ""
    assert answer["fields"]["E"]["error"]["start"]
    assert "10.00" not in json.dumps(answer)


@pytest.mark.parametrize("predicted", [None, 5, [], {"E": 3}, {"E": {}}, {"zzz": {"text": "1"}}, {"E": {"text": "  "}}])
def test_a_hostile_prediction_reveals_nothing(predicted: object) -> None:
    answer = calc.answer({"calculator": "lever", "given": GIVEN, "hide": ["E"], "predicted": predicted})
    json.dumps(answer, allow_nan=False)
    assert "10.00" not in json.dumps(answer)


def test_without_enough_numbers_the_prediction_waits() -> None:
    request = {"calculator": "lever", "given": {"R": "40"}, "predicted": {"E": {"text": "5", "units": "us"}}}
    assert "can’t tell yet" in calc.answer(request)["html"]["prediction"]
