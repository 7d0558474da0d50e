"""Practice through the door: reading answers fairly, naming mistakes, sets from links, and the teacher's key."""

from __future__ import annotations

import json
import re
from html import unescape

import pytest
from hypothesis import given
from hypothesis import strategies as st

import calc
from calc.figures import plain
from calc.practice.draw import Draw, drawn
from calc.practice.families import family, of_machine
from calc.practice.mark import mark, sentence
from calc.practice.sets import questions, settings
from calc.practice.solution import answer_text, steps

ALL = [f for machine in calc.practice_machines() for units in ("us", "si") for f in of_machine(machine, units)]
SET = {"set": "garden-1", "families": ["qL1", "qM6", "qL8", "qM1"], "count": 4, "units": "us", "seat": 7}


def marked(typed: str, question: int = 1, misses: int = 0, **more: object) -> dict:
    """What the door says of an answer. qL1, seat 7: 160 lbf, arms 9 in and 30 in, so 48 lbf (SPEC E3)."""
    return calc.answer({"practice": {**SET, **more}, "mark": {"question": question, "typed": typed, "misses": misses}})[
        "mark"
    ]


@pytest.mark.parametrize("asked", ALL, ids=lambda f: f.id)
def test_each_slip_is_named_and_the_answer_is_none(asked) -> None:
    """Twelve seats of two sets: the right answer is right, each slip's number gets that slip's words."""
    for code, seat in (("garden-1", 1), ("garden-1", 13), ("garden-1", 40), *(("marks", n) for n in range(1, 10))):
        draw = drawn(asked.id, code, 1, seat)
        for typed in (f"{draw.answer:.4g}", answer_text(asked, draw.answer)):
            assert mark(asked, draw, typed).state == "right", (typed, draw)
        for slip, result in zip(asked.slips, draw.slips, strict=True):
            said = mark(asked, draw, f"{result:.5g}")
            assert said.state == "slip", (slip, draw)
            assert sentence(slip.words) in said.message.text


@pytest.mark.parametrize(
    "typed",
    [
        *("48 lbf", "48.0lbf", "48 lb", "48 LBF", "48 pounds", "48.3 lbf", "47.6 lbf"),
        *("213.5 N", "0.2135 kN", "768 ozf", "21.77 kgf"),  # 48 lbf in other units: factors as in NIST SP 811
        *("96/2 lbf", "47-7/8 lbf", "48 ± 0.2 lbf"),
    ],
)
def test_a_right_answer_is_right_however_it_is_written(typed: str) -> None:
    assert marked(typed)["state"] == "right"
    assert marked(typed)["words"] == "48.0 lbf."


def test_a_missing_unit_is_a_gentle_reminder() -> None:
    said = marked("48")
    assert (said["state"], said["misses"]) == ("right", 0)
    assert "Write the unit too: 48.0 lbf" in said["words"]


@pytest.mark.parametrize("typed", ["5 ft 4 in", "5' 4\"", "5′4″", "64", "64 in", "5-1/3 ft", "1.626 m", "162.6 cm"])
def test_a_length_may_be_in_feet_and_inches_or_metric(typed: str) -> None:
    # 64 in are 5 ft 4 in and 1.6256 m, by definition. Set garden-1 has no such draw, so it is made by hand.
    asked = family("qL8")
    draw = Draw({"E": 25.0, "R": 200.0, "a": 8.0}, 64.0, (1.0, 8.0))
    assert mark(asked, draw, typed).state == "right"


@pytest.mark.parametrize("typed", ["75 %", "75%", "75", "75 percent"])
def test_a_percent_may_be_written_with_or_without_its_sign(typed: str) -> None:
    draw = Draw({"I": 8.0, "A": 6.0}, 75.0, (133.33, 0.75, 25.0))
    assert mark(family("qM6"), draw, typed).state == "right"
    said = mark(family("qM6"), draw, "0.75")
    assert said.state == "slip"
    assert "Times 100 for percent" in said.message.text


@pytest.mark.parametrize("typed", ["4", "4.0", "4x", "4 : 1", "4 to 1", "4 ×"])
def test_an_advantage_may_be_written_as_a_ratio(typed: str) -> None:
    assert mark(family("qM1"), Draw({"R": 120.0, "E": 30.0}, 4.0, (0.25, 90.0)), typed).state == "right"


@pytest.mark.parametrize(
    ("typed", "state", "words"),
    [
        ("48 in", "unit", "The number is right, the unit is not. “in” measures length, but effort needs a force."),
        ("12 s", "unit", "The unit is not right. “s” measures time"),
        ("22 kg", "unit", "Kilograms and grams measure mass. A force is in lbf or N."),
        ("533", "slip", "Arms swapped: the long arm is the effort’s. Look again at the formula."),
        ("36.9 lbf", "slip", "Measure the effort arm from the pivot, not the whole bar."),
        ("1440 lbf", "slip", "That is the moment; divide by the effort arm."),
        ("576 lbf", "slip", "12 times too large. Inches and feet may be mixed"),
        ("4 lbf", "slip", "12 times too small"),
        ("213.5 lbf", "slip", "off by 4.448. Pounds-force and newtons may be mixed"),
        ("48 N", "slip", "off by 4.448"),
        ("4800 lbf", "slip", "100 times too large"),
        ("24 lbf", "slip", "2 times too small"),
        ("96 lbf", "slip", "2 times too large"),
        ("0.02083 lbf", "slip", "upside down"),
        ("-48 lbf", "slip", "The size is right, the sign is not."),
        ("49.5 lbf", "close", "Did you round too early, or use π = 3?"),
        ("46 lbf", "close", "Close, but not close enough."),
        ("77 lbf", "unknown", "Not right, and not a mistake that this page knows."),
        ("", "unread", "Type your answer first."),
        ("long", "unread", "I cannot read “long” as a number."),
        ("1,5", "unread", "Use a point for decimals."),
        ("48 cubits", "unread", "I do not know the unit “cubits”."),
    ],
)
def test_a_wrong_answer_is_told_which_mistake_it_looks_like(typed: str, state: str, words: str) -> None:
    said = marked(typed)
    assert said["state"] == state
    assert words in f"{said['start']} {said['words']}"
    assert said["misses"] == (state != "unread")


def test_a_specific_slip_wins_over_a_general_one() -> None:
    # qM3: feet over inches is also 12 times too small; the family's own words win.
    asked = family("qM3")
    draw = drawn("qM3", "garden-1", 1, 5)
    said = mark(asked, draw, f"{draw.answer / 12:.5g}")
    assert "Feet over inches: change to one unit first." in said.message.text
    assert "the step where numbers and units go in" in said.message.text


def test_nothing_metric_is_twelve_of_anything() -> None:
    draw = drawn("qL1s", "garden-1", 1, 5)
    assert mark(family("qL1s"), draw, f"{draw.answer * 12:.6g}").state == "unknown"


def test_a_ratio_with_a_unit_is_told_to_drop_it() -> None:
    draw = Draw({"R": 120.0, "E": 30.0}, 4.0, (0.25, 90.0))
    assert "plain number" in mark(family("qM1"), draw, "4 lbf").message.text
    assert mark(family("qM1"), draw, "7 lbf").message.start == "This answer is a plain number."


def test_an_unknown_mistake_shows_the_first_step_then_more_then_all() -> None:
    shown_lines = [marked("77", misses=misses)["html"].count("<li>") for misses in (0, 1, 2)]
    assert shown_lines == [1, 2, 6]
    assert "load <math>" in marked("77")["html"]


def test_the_third_miss_opens_the_working_with_the_students_numbers() -> None:
    assert not marked("533", misses=1)["open"]
    said = marked("533", misses=2)
    assert said["open"]
    plain_text = unescape(re.sub(r"<[^>]+>", " ", said["html"]))
    for piece in ("160 lbf", "9 in", "30 in", "48.0 lbf", "load × load arm ÷ effort arm"):
        assert piece in re.sub(r"\s+", " ", plain_text.replace("lbf ", "lbf "))


@pytest.mark.parametrize("asked", ALL, ids=lambda f: f.id)
def test_a_worked_solution_has_five_lines_and_a_check(asked) -> None:
    draw = drawn(asked.id, "lines", 1, 9)
    lines = steps(asked, draw)
    assert [line.title for line in lines] == ["Known", "In words", "In letters", "Numbers put in", "Answer", "Check"]
    for name, number in draw.numbers.items():
        assert plain(number) in lines[0].html
        assert plain(number) in lines[3].html or name not in asked.answer
    assert answer_text(asked, draw.answer) in unescape(lines[4].html)


# ---- sets ------------------------------------------------------------------------------------------------------


def test_a_link_reads_like_the_form() -> None:
    link = settings({**SET, "level": 2}).link
    assert link == "p=garden-1;qL1,qM6,qL8,qM1;2;4;us;7&v=1"
    assert settings({"link": "#" + link}) == settings({**SET, "level": 2})


@given(
    st.from_regex(r"[a-z0-9][a-z0-9-]{0,20}", fullmatch=True),
    st.lists(st.sampled_from([*calc.practice_machines(), "qL1", "qS4"]), min_size=1, max_size=5, unique=True),
    st.sampled_from([0, 1, 2]),
    st.integers(1, 20),
    st.sampled_from(["us", "si"]),
    st.integers(0, 40),
)
def test_a_link_comes_back_as_it_was(code, families, level, count, units, seat) -> None:
    first = settings(
        {"set": code, "families": families, "level": level, "count": count, "units": units, "seat": seat or None}
    )
    again = settings({"link": first.link})
    assert again == first
    assert again.problems == ()


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=6,
)
KEYS = st.sampled_from(["set", "families", "level", "count", "units", "seat", "link"])


@given(st.dictionaries(KEYS, JSON), st.sampled_from(["mark", "key", "sheets", "picture", "none"]), JSON)
def test_a_hostile_request_gives_an_answer_and_nothing_else(practice, part, more) -> None:
    said = calc.answer({"practice": practice, part: more})
    json.dumps(said, allow_nan=False)
    chosen = settings(practice)
    assert re.fullmatch(r"[a-z0-9-]{1,24}", chosen.code)
    assert 1 <= chosen.count <= 20


@given(st.text(max_size=120))
def test_a_hostile_link_and_a_hostile_answer_do_nothing(text: str) -> None:
    said = calc.answer({"practice": {**SET, "link": text}, "mark": {"question": 1, "typed": text}})
    json.dumps(said, allow_nan=False)
    assert settings({"link": f"p={text}"}).code == settings({"link": f"p={text}"}).code.lower()


def test_markup_in_a_link_stays_text() -> None:
    said = calc.answer({"practice": {"link": "p=<img src=x>;lever;0;3;us;1"}, "key": [1]})
    assert "<img" not in json.dumps(said["html"])
    assert said["problems"][0]["code"] == "e-setcode"


def test_a_link_of_another_version_says_so() -> None:
    assert [it.code for it in settings({"link": "p=a;lever;0;3;us;1&v=2"}).problems] == ["e-setversion"]


def test_every_seat_has_the_same_kinds_of_problems_from_all_machines_in_turn() -> None:
    request = {"set": "hens-2", "families": ["lever", "screw"], "count": 6, "units": "us", "level": 2}
    asked = [[q["family"] for q in calc.answer({"practice": {**request, "seat": n}})["questions"]] for n in (1, 40)]
    assert asked[0] == asked[1]
    assert [id_[1] for id_ in asked[0]] == ["L", "S"] * 3
    assert {family(id_).level for id_ in asked[0]} == {2}
    si = questions(settings({**request, "units": "si"}))
    assert [f.id for f in si] == [f"{id_}s" for id_ in asked[0]]


def test_another_set_code_gives_other_numbers() -> None:
    texts = [calc.answer({"practice": {**SET, "set": code}})["questions"][0]["text"] for code in ("a-1", "a-2", "a-3")]
    assert len(set(texts)) == 3


def test_without_a_seat_no_problem_is_shown() -> None:
    said = calc.answer({"practice": {**SET, "seat": ""}})
    assert said["questions"] == []
    assert said["machines"] == ["Lever", "Any machine"]


def test_a_students_questions_hold_no_answer() -> None:
    said = calc.answer({"practice": SET})
    for question in said["questions"]:
        assert set(question) == {"question", "family", "machine", "level", "text", "wanted", "unit", "picture"}


# ---- the key ---------------------------------------------------------------------------------------------------


def test_the_key_has_seats_down_and_questions_across() -> None:
    html = calc.answer({"practice": SET, "key": list(range(1, 31))})["html"]
    rows = re.findall(r"<tr><th scope=\"row\">(\d+)</th>(.*?)</tr>", html["key"])
    assert [int(seat) for seat, _ in rows] == list(range(1, 31))
    assert re.findall(r"<td>([^<]*)</td>", rows[6][1])[0] == "48.0"  # SPEC E3: seat 7
    assert "Anyone with the set code can make this key" in html["key"]
    assert "Arms swapped: the long arm is the effort’s." in html["slips"]


def test_the_key_agrees_with_the_marking_of_every_seat() -> None:
    html = calc.answer({"practice": SET, "key": list(range(1, 41))})["html"]["key"]
    for seat, cells in re.findall(r"<tr><th scope=\"row\">(\d+)</th>(.*?)</tr>", html):
        for question, text in enumerate(re.findall(r"<td>([^<]*)</td>", cells), 1):
            assert marked(text, question, seat=int(seat))["state"] == "right"


def test_a_sheet_for_each_seat_shows_its_own_numbers_and_no_answer() -> None:
    html = calc.answer({"practice": SET, "sheets": [7, 8]})["html"]["sheets"]
    assert html.count('<section class="p-sheet">') == 2
    first = html.split("</section>")[0]
    assert "load 160 lbf at 9 in, effort at 30 in" in first
    assert "48" not in re.sub(r"\{.*?\}", "", first.split("<ol>")[1].split("</li>")[0])
