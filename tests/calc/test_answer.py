"""The door: views, states of boxes, bad input, and that a measured effort is never a contradiction."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from tests.calc.asking import LBF, ask, field


def views(answer: dict) -> list[str]:
    return [column["view"] for column in answer["columns"]]


def test_an_empty_effort_box_is_the_question() -> None:
    answer = ask("lever", R="40", aR="6", aE="24")
    assert views(answer) == ["ideal"]
    assert field(answer, "E")["state"] == "computed"
    assert field(answer, "E")["shown"] == "10.00"
    assert "AMA" not in answer["values"]


def test_a_typed_effort_is_a_measured_effort() -> None:
    answer = ask("lever", R="40", aR="6", aE="24", E="10.5")
    assert views(answer) == ["ideal", "measured"]
    assert answer["errors"] == []
    assert field(answer, "E")["state"] == "measured"
    assert field(answer, "eta")["shown"] == "95.2"


def test_a_typed_effort_finds_a_missing_arm() -> None:
    answer = ask("lever", R="40", aR="6", E="10")
    assert views(answer) == ["ideal"]
    assert field(answer, "aE")["shown"] == "24.0"


def test_typed_losses_give_the_effort_to_expect() -> None:
    answer = ask("ramp", R="120", L="96", h="24", mu="0.3")
    assert views(answer) == ["ideal", "expected"]
    assert field(answer, "E")["shown"] == "64.9"
    assert "not measured" in answer["html"]["results"]


def test_losses_and_a_measured_effort_stand_side_by_side() -> None:
    answer = ask("ramp", R="30", L="96", h="24", E="16", mu="0.3")
    assert views(answer) == ["ideal", "expected", "measured"]
    assert answer["errors"] == []
    assert "0.293" in field(answer, "mu")["note"]
    assert answer["values"]["E"]["si"] == pytest.approx(16 * LBF)


def test_an_efficiency_over_100_percent_is_struck_through_and_named() -> None:
    answer = ask("lever", R="40", aR="6", aE="24", E="9")
    assert any(note["code"] == "n-over1" for note in answer["notes"])
    assert "<s>" in answer["html"]["results"]
    assert "not possible: re-measure" in answer["html"]["results"]
    assert field(answer, "eta")["shown"] == ""
    assert "111" not in answer["html"]["sentence"]


def test_a_pull_below_the_frictionless_one_has_no_friction_that_explains_it() -> None:
    answer = ask("ramp", R="30", L="96", h="24", E="7")
    assert "mu" not in answer["values"]
    assert any(note["code"] == "n-over1" for note in answer["notes"])


def test_too_much_given_names_one_box_and_withdraws_the_rest() -> None:
    answer = ask("ramp", R="30", L="96", h="24", b="50")
    assert [e["code"] for e in answer["errors"]] == ["e-over"]
    assert "E" not in answer["values"]
    edited = calc.answer(
        {"calculator": "ramp", "given": {"R": "30", "L": "96", "h": "24", "b": "50"}, "units": "us", "edited": "L"}
    )
    assert edited["errors"][0]["symbol"] == "L"


def test_a_contradiction_is_seen_behind_an_assumed_value() -> None:
    """The layer of rope is assumed; friction in the journals alone costs 4 %, so 40 % efficiency is another machine."""
    given_ = calc.example("journal-friction")["given"]
    answer = ask("journal-friction", **{**given_, "mu": "0.15", "eta": "40 %"})
    assert [e["code"] for e in answer["errors"]] == ["e-over"]


def test_an_assumed_value_that_gives_way_is_no_contradiction() -> None:
    """Force, path, time and power leave the angle open: arccos(20/30) = 48.2 degrees, not the 0 that is assumed."""
    answer = ask("work-and-power", F="30", d="1 ft", t="1", P="20")
    assert answer["errors"] == []
    assert answer["values"]["gamma"]["text"] == "48.2°"


def test_hand_rounded_numbers_are_no_contradiction() -> None:
    assert ask("ramp", R="30", L="96", h="24", b="93")["errors"] == []
    assert ask("ramp", R="30", L="96", h="24", theta="14.5")["errors"] == []


def test_too_little_given_says_what_would_be_enough() -> None:
    answer = ask("ramp", L="96")
    assert answer["errors"] == []
    assert "rise" in answer["html"]["sentence"].lower()


def test_an_empty_ramp_asks_for_no_more_than_is_enough() -> None:
    sentence = ask("ramp")["html"]["sentence"]
    assert "load, slope length and rise" in sentence
    assert "run" not in sentence


def test_each_picture_is_drawn_at_its_own_width() -> None:
    asked = calc.answer({**calc.example("lever"), "draw": {"machine": "wide", "work": "narrow"}})["html"]
    assert {"machine_wide", "work_narrow"} <= asked.keys()
    assert not {"machine_narrow", "work_wide"} & asked.keys()


def test_the_parts_that_a_page_asks_for_one_by_one_are_parts_of_the_whole_answer() -> None:
    request = {**calc.example("ramp"), "draw": "both"}
    whole = calc.answer(request)
    parts = [calc.answer({**request, "only": only}) for only in ("numbers", "working", "pictures")]
    assert {key: text for part in parts for key, text in part.pop("html").items()} == whole["html"]
    for part in parts:
        assert part == {key: whole[key] for key in part}


def test_a_starting_friction_waits_with_the_friction_that_cannot_be_read() -> None:
    answer = ask("ramp", R="30", L="96", h="24", E="16", mu="0,20")
    assert field(answer, "mu_s")["state"] == "waiting"
    assert "mu_s" not in answer["values"]
    assert field(answer, "eta")["shown"] == "46.9"


def test_rise_and_slope_length_alone_give_the_ideal_advantage() -> None:
    assert ask("ramp", L="96", h="24")["values"]["IMA"]["si"] == pytest.approx(4)


def test_a_steep_answer_with_two_slopes_says_so() -> None:
    """140 lbf at mu 0.5 and a pull of 150 lbf: 46.8 and 80.0 degrees (solved by hand from R sin + mu R cos = E)."""
    answer = ask("ramp", R="140", h="24", mu="0.5", E="150")
    assert answer["values"]["theta"]["text"] == "46.8°"
    assert any(note["code"] == "n-root2" and "80.0°" in note["text"] for note in answer["notes"])


def test_no_ramp_needs_so_much() -> None:
    answer = ask("ramp", R="140", h="24", mu="0.5", E="170")
    assert [e["code"] for e in answer["errors"]] == ["e-noroot-plain"]
    assert "L" not in answer["values"]


BAD = [
    ("ramp", {"R": "", "L": "96", "h": "24"}, None),
    ("ramp", {"R": "0", "L": "96", "h": "24"}, ("R", "e-zero")),
    ("ramp", {"R": "-30", "L": "96", "h": "24"}, ("R", "e-neg")),
    ("ramp", {"R": "heavy", "L": "96", "h": "24"}, ("R", "e-notnum")),
    ("ramp", {"R": "3 ft", "L": "96", "h": "24"}, ("R", "e-dim")),
    ("ramp", {"R": "30 cubits", "L": "96", "h": "24"}, ("R", "e-unit")),
    ("ramp", {"R": "1e400", "L": "96", "h": "24"}, ("R", "e-big")),
    ("ramp", {"R": "9" * 10000, "L": "96", "h": "24"}, ("R", "e-notnum")),
    ("ramp", {"R": "<img src=x onerror=alert(1)>", "L": "96", "h": "24"}, ("R", "e-notnum")),
    ("ramp", {"R": "30", "L": "24", "h": "96"}, ("h", "e-hgtL")),
    ("ramp", {"R": "30", "L": "96", "h": "96"}, ("h", "e-hgtL")),
    ("ramp", {"R": "30", "L": "96", "h": "24", "eta": "120"}, ("eta", "e-eff100")),
    ("ramp", {"R": "30", "L": "96", "h": "24", "eta": "0"}, ("eta", "e-eff0")),
    ("ramp", {"R": "30", "L": "96", "h": "24", "mu": "3"}, ("mu", "e-mu")),
    ("ramp", {"R": "30", "L": "96", "h": "24", "theta": "89"}, ("theta", "e-angle")),
    ("ramp", {"R": "30", "L": "2 mi", "h": "24"}, ("L", "e-unit")),
    ("ramp", {"R": "30", "L": "5000 ft", "h": "24"}, ("L", "e-range")),
    ("lever", {"R": "40", "aR": "6", "aE": "24", "r_p": "30", "mu": "1.9"}, ("r_p", "e-pinarm")),
]


@pytest.mark.parametrize(("key", "given_", "want"), BAD)
def test_bad_input_is_named_at_its_box_and_loses_nothing(key: str, given_: dict, want: tuple | None) -> None:
    answer = ask(key, **given_)
    if want is None:
        assert answer["errors"] == []
        return
    assert (answer["errors"][0]["symbol"], answer["errors"][0]["code"]) == want
    assert field(answer, want[0])["state"] == "error"
    for symbol, text in given_.items():
        assert field(answer, symbol)["text"] == text
    assert "onerror" not in json.dumps(answer["html"])


def test_an_answer_that_waits_is_not_shown() -> None:
    answer = ask("ramp", R="30", L="96", h="24", mu="0,3")
    assert field(answer, "E")["state"] == "waiting"
    assert "E" not in answer["values"]
    assert field(answer, "E")["note"] == "Waits for the friction coefficient."
    assert answer["values"]["IMA"]["si"] == pytest.approx(4)


def test_a_class_2_bar_needs_the_longer_effort_arm() -> None:
    answer = ask("lever", choices={"class": "2"}, R="40", aR="24", aE="6")
    assert [e["code"] for e in answer["errors"]] == ["e-class2"]


def test_a_level_push_on_a_steep_rough_ramp_jams() -> None:
    answer = ask("ramp", choices={"pull": "level"}, R="30", L="96", h="80", mu="0.9")
    assert [e["code"] for e in answer["errors"]] == ["e-jam"]
    assert "E" not in answer["values"]
    assert answer["values"]["IMA"]["si"] > 0


@pytest.mark.parametrize(
    "request_",
    [
        {},
        {"calculator": None},
        {"calculator": "no-such"},
        {"calculator": ["lever"]},
        {"calculator": "lever", "given": None},
        {"calculator": "lever", "given": [1, 2]},
        {"calculator": "lever", "given": {"R": None, "aR": {"x": 1}}},
        {"calculator": "lever", "given": {"zzz": "1"}},
        {"calculator": "lever", "choices": {"class": "9"}},
        {"calculator": "lever", "choices": 5, "units": "imperial", "digits": "many", "travel": "far", "draw": 7},
        {"calculator": "same-work", "given": {"IMA_99999": "1", "IMA_0": "2", "IMA_x": "3"}},
    ],
)
def test_a_strange_request_gets_words_not_an_exception(request_: dict) -> None:
    json.dumps(calc.answer(request_), allow_nan=False)


def test_text_that_is_no_json_object_is_answered_in_words() -> None:
    for text in ("", "[]", "{", "3", '"x"'):
        assert json.loads(calc.answer_json(text))["errors"][0]["code"] == "e-key"


@pytest.mark.parametrize("key", calc.keys())
@pytest.mark.parametrize("units", ["us", "si"])
def test_every_example_is_answered_without_errors(key: str, units: str) -> None:
    answer = calc.answer({**calc.example(key, units), "draw": "both"})
    assert answer["errors"] == []
    assert answer["html"]["sentence"]
    assert answer["working"]
    assert "machine_wide" in answer["html"] or "work_wide" in answer["html"]


@pytest.mark.parametrize("key", calc.keys())
def test_every_example_is_within_the_class_limits(key: str) -> None:
    """Common practice, no source: one student pulls 25 lbf | 110 N; a class lever carries 100 lbf | 450 N."""
    for units, pull, load in (("us", 25 * LBF, 100 * LBF), ("si", 110, 450)):
        found = calc.answer(calc.example(key, units))["values"]
        assert found.get("E", {"si": 0})["si"] <= pull
        assert found.get("R", {"si": 0})["si"] <= load * (1 + 1e-12)


def test_changing_units_twice_gives_the_first_numbers_again() -> None:
    first = ask("ramp", R="30", L="8 ft", h="24", mu="0.3")
    exact = {s: f["exact"] for s, f in first["fields"].items() if f["text"]}
    there = ask("ramp", "si", **exact)
    back = ask("ramp", **{s: f["exact"] for s, f in there["fields"].items() if f["text"]})
    assert [back["values"][s]["si"] for s in first["values"]] == [first["values"][s]["si"] for s in first["values"]]
    assert there["fields"]["R"]["converted"] == {"us": "30", "si": "133.447"}


def test_doubt_is_carried_through_every_kind_of_step() -> None:
    """Ratio by hand: u(AMA)/AMA = sqrt((0.5/40)^2 + (0.25/16)^2) with k = 2 doubts of 1 and 0.5 lbf."""
    answer = ask("ramp", R="40 ± 1", L="96", h="24", E="16 ± 0.5")
    ama = answer["values"]["AMA"]
    assert ama["u"] / ama["si"] == pytest.approx(((0.5 / 40) ** 2 + (0.25 / 16) ** 2) ** 0.5, rel=1e-9)
    searched = ask("ramp", R="140", h="24", mu="0.1", E="50 ± 2")
    numeric = [ask("ramp", R="140", h="24", mu="0.1", E=e)["values"]["theta"]["si"] for e in ("50.01", "49.99")]
    assert searched["values"]["theta"]["u"] == pytest.approx((numeric[0] - numeric[1]) / 0.02, rel=1e-4)


NUMBERS = st.floats(0.001, 5000).map(lambda number: f"{number:.4g}")


@pytest.mark.parametrize("R", ["164 ± 3", "74.1 ± 3", "663 ± 3", "816 ± 3"])
def test_a_doubt_that_cancels_is_none(R: str) -> None:
    """Load and effort grow together, so the load's doubt is none of the advantage: by proportion, without numbers."""
    sure, unsure = (ask("lever", R=text, aR="6", aE="53.4", r_p="1/4", mu="0.18") for text in (R.split()[0], R))
    assert unsure["values"]["E"]["u"] > 0
    for symbol in ("AMA", "eta"):
        assert "u" not in unsure["values"][symbol]
        assert unsure["values"][symbol]["text"] == sure["values"][symbol]["text"]


TEXTS = st.text("0123456789.,-+/ '\"ftinmlbN°%±eE", max_size=10) | NUMBERS | st.integers(0, 60).map(str)


@settings(max_examples=400)
@given(st.sampled_from(calc.keys()), st.data(), st.sampled_from(["us", "si"]))
def test_any_typing_gives_an_answer_without_a_number_that_is_not_finite(
    key: str, data: st.DataObject, units: str
) -> None:
    """Boxes of the machine itself, its rows too, some with the example's numbers and some with anything."""
    form, example = calc.describe(key), calc.example(key, units)
    boxes = [q["symbol"] for q in form["quantities"]]
    boxes += [
        f"{q['symbol']}_{i}" for rows in form["rows"] for q in rows["quantities"] for i in range(1, rows["high"] + 1)
    ]
    typed = data.draw(st.dictionaries(st.sampled_from(boxes), TEXTS, max_size=4))
    cleared = data.draw(st.sets(st.sampled_from(boxes), max_size=3))
    chosen = {c["symbol"]: data.draw(st.sampled_from([o["value"] for o in c["options"]])) for c in form["choices"]}
    kept = {symbol: text for symbol, text in example["given"].items() if symbol not in cleared}
    json.dumps(calc.answer({**example, "given": {**kept, **typed}, "choices": chosen}), allow_nan=False)
