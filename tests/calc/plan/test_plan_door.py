"""The planner's part of the door: what it says, what it opens, what it refuses, and how much it asks for it."""

from __future__ import annotations

import json
import math
import re
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import calc
from calc.answer import solved
from calc.link import read
from calc.plan import relations
from calc.plan.relations import NoAnswer, worked
from calc.plan.task import hang_limit, read_task
from calc.registry import CALCULATORS
from tests.calc.plan.test_kit_files import GARDEN

KIT = calc.answer({"kit_file": GARDEN})["kit"]


def plan(units: str = "us", kit: Any = KIT, card: int | None = None, **task: str) -> dict[str, Any]:
    return calc.answer({"plan": task, "kit": kit, "units": units, "card": card, "name": "Crate <b>"})


LIFTS = (("60 lbf", "24 in"), ("36 lbf", "6 in"), ("20 lbf", "1 in"), ("95 lbf", "11 in"), ("250 lbf", "30 in"))
WAYS_ALONG = (("30 lbf", "20 ft"), ("110 lbf", "10 ft"), ("300 lbf", "10 ft"), ("400 lbf", "3 ft"))
TASKS = [
    *({"R": load, "h": lift} for load, lift in LIFTS),
    *({"R": load, "d": way, "job": "level"} for load, way in WAYS_ALONG),
]


@pytest.mark.parametrize("task", TASKS)
@pytest.mark.parametrize("units", ["us", "si"])
def test_every_option_opens_its_calculator_and_reads_within_its_range(task: dict[str, str], units: str) -> None:
    found = plan(units, **task)
    for option in found["options"]:
        calculator = CALCULATORS[option["calculator"]]
        answer = calc.answer(read(option["link"], [choice.symbol for choice in calculator.choices]))
        assert not answer["errors"], (option["key"], answer["errors"])
        low, high = option["moving"]
        assert low * (1 - 1e-4) <= answer["values"]["E"]["si"] <= high * (1 + 1e-4), option["key"]


@pytest.mark.parametrize("task", TASKS)
@pytest.mark.parametrize("units", ["us", "si"])
def test_two_machines_in_a_row_hand_the_pull_on(task: dict[str, str], units: str) -> None:
    """The effort at the load is the load at the hand, and the hand's effort is that of the whole."""
    for option in plan(units, **task)["options"]:
        sheets = []
        for stage in option["stages"]:
            symbols = [choice.symbol for choice in CALCULATORS[stage["calculator"]].choices]
            sheets.append(calc.answer(read(stage["link"], symbols)))
            assert not sheets[-1]["errors"], (option["key"], sheets[-1]["errors"])
        assert len(sheets) == (2 if "-" in option["way"] and option["way"].startswith(("tackle", "windlass")) else 0)
        if sheets:
            hand, load = (sheet["values"] for sheet in sheets)
            assert math.isclose(hand["R"]["si"], load["E"]["si"], rel_tol=2e-3), option["key"]
            assert option["moving"][0] <= hand["E"]["si"] * 1.002, option["key"]
            assert hand["E"]["si"] <= option["moving"][1] * 1.002, option["key"]


@pytest.mark.parametrize("task", TASKS)
def test_every_refusal_says_why_and_what_would_help(task: dict[str, str]) -> None:
    for refusal in plan(**task)["refusals"]:
        assert refusal["why"].endswith(".")
        assert refusal["mend"].startswith(("It would work with", "No small change"))
        assert "None" not in refusal["why"] + refusal["mend"]


def test_people_are_never_lifted_and_nothing_goes_over_them() -> None:
    for task in ({"moves": "person"}, {"under": "people"}):
        found = plan(R="60 lbf", h="6 in", **task)
        assert not found["options"]
        assert "<strong>No.</strong>" in found["html"]["say"]


def test_the_class_limits_are_those_that_the_pages_state() -> None:
    task, errors = read_task({"R": "1 lbf", "h": "1 in"}, "us")
    assert not errors
    assert task is not None
    assert task.hang == pytest.approx(hang_limit())


def test_readable_options_come_first_then_the_shortest_pull() -> None:
    """SPEC.md D2."""
    for task in TASKS:
        options = plan(**task)["options"]
        assert options == sorted(options, key=lambda o: (not o["readable"], o["path"], o["start"]))


HEADS = ("Bring", "Who stands where", "Ask first", "The scale should read", "On the board")
ENDS = {"raise": "The way down", "level": "The way to stop"}


def test_a_card_has_everything_for_every_option() -> None:
    for task in TASKS:
        for at, option in enumerate(plan(**task)["options"]):
            card = plan(card=at, **task)["html"]["card"]
            for head in (*HEADS, ENDS[task.get("job", "raise")]):
                assert f"<h3>{head}</h3>" in card
            assert card.count("<svg") == max(1, len(option["stages"])), option["key"]
            assert "Crate &lt;b&gt;" in card
            assert card.count('class="formula"') >= 2, option["key"]
            assert all(name in card for name in option["made_of"] if "&" not in name)


def test_ids_on_a_card_stand_once() -> None:
    for task in TASKS:
        for at, option in enumerate(plan(**task)["options"]):
            ids = re.findall(r'\bid="([^"]+)"', plan(card=at, **task)["html"]["card"])
            assert len(ids) == len(set(ids)), option["key"]


def test_a_bad_box_is_named_and_nothing_is_planned() -> None:
    found = plan(R="60 in", h="")
    assert {error["symbol"] for error in found["errors"]} == {"R", "h"}
    assert not found["options"]


def test_only_the_distance_that_is_asked_is_read() -> None:
    """A lift is no matter on the level, and a way along the floor is none for a lift."""
    assert {error["symbol"] for error in plan(R="60 lbf", job="level", h="nonsense")["errors"]} == {"d"}
    assert not plan(R="60 lbf", job="level", h="nonsense", d="10 ft")["errors"]
    assert not plan(R="60 lbf", d="nonsense", h="10 in")["errors"]
    assert {error["symbol"] for error in plan(R="60 lbf", job="sideways", h="1 in")["errors"]} == {"job"}


JSON = st.recursive(
    st.none() | st.booleans() | st.floats(allow_nan=False) | st.text(max_size=8),
    lambda x: st.lists(x, max_size=3) | st.dictionaries(st.text(max_size=8), x, max_size=3),
)


@given(JSON, JSON, JSON)
def test_no_request_whatever_raises(task: Any, kit: Any, other: Any) -> None:
    json.dumps(calc.answer({"plan": task, "kit": kit, "units": other, "card": other, "name": other}), allow_nan=False)
    json.dumps(calc.answer({"kit_file": other}))
    json.dumps(calc.answer({"write_kit": kit, "name": other}))


def sixty_things() -> dict[str, list[dict[str, str]]]:
    """A kit of sixty things, many of each kind."""
    rated = {"rated": "300 lbf"}
    return {
        "scale": [{"capacity": f"{c} lbf"} for c in (5, 10, 25, 50)],
        "plank": [
            {"name": f"P{i}", "length": f"{60 + 12 * i} in", "width": "9.25 in", "thickness": "1.5 in"}
            for i in range(10)
        ],
        "prop": [{"rated": "500 lbf"}],
        "rope": [{"length": f"{10 + 12 * i} ft", "diameter": "0.5 in", **rated} for i in range(6)],
        "block": [{"count": "2", "sheaves": str(1 + i % 3), "weight": f"{2 + i / 4} lbf", **rated} for i in range(8)],
        "anchor": [{"rated": "500 lbf", "side": "500 lbf"}, {"rated": "250 lbf", "side": "250 lbf"}],
        "bar": [{"name": f"B{i}", "length": f"{36 + 8 * i} in", "weight": f"{4 + i} lbf"} for i in range(8)],
        "packing": [{"height": "6 in"}],
        "cart": [{"name": f"C{i}", "weight": f"{15 + 5 * i} lbf", **rated} for i in range(5)],
        "windlass": [
            {"name": f"W{i}", "crank": f"{10 + 2 * i} in", "drum": "6 in", "cheek": "2 in", **rated} for i in range(4)
        ],
        "wedge": [{"name": f"G{i}", "length": f"{6 + i} in", "thickness": "1.5 in"} for i in range(6)],
        "screw": [
            {"name": f"S{i}", "thread": "3/4-6-Acme", "handle": f"{4 + i} in", "travel": "6 in", **rated}
            for i in range(5)
        ],
    }


@pytest.mark.parametrize("task", TASKS)
def test_a_kit_of_sixty_things_asks_the_relations_a_bounded_number_of_times(task: dict[str, str]) -> None:
    """The count stands for the time: each question is some tens of microseconds here, a few times that in a browser."""
    kit = sixty_things()
    assert sum(map(len, kit.values())) == 60
    relations._worked.cache_clear()
    found = plan(kit=kit, **task)
    assert found["options"] or found["refusals"]
    assert relations._worked.cache_info().misses < 1800


def test_the_relations_on_numbers_say_what_the_door_says() -> None:
    """The planner's short way to a calculator's relations, against the way that pages go."""
    draw = Random("relations")
    asked = {
        ("ramp", "up"): ({"pull": "along", "motion": "up"}, ("R", "h", "L", "mu"), "E eta dE"),
        ("ramp", "down"): ({"pull": "along", "motion": "down"}, ("R", "h", "L", "mu"), "E"),
        ("cart-ramp", ""): ({"rope": "direct"}, ("R", "w", "h", "L", "C"), "E eta"),
        ("tackle", ""): ({"rove": "advantage"}, ("R", "w", "h", "n", "k"), "E E_down A_max dE eta"),
        ("windlass", ""): ({"wind": "layer"}, ("R", "r_c", "D", "t", "h", "eta"), "E turns s"),
        ("chain", ""): ({"preset": "own"}, ("R", "h", "IMA_1", "eta_1", "IMA_2", "eta_2"), "E dE"),
        ("wedge-with-friction", ""): ({"kind": "single", "surfaces": "own"}, ("R", "ell", "t", "mu"), "E E_out"),
    }
    sizes = {"R": (50, 400), "w": (5, 50), "h": (0.1, 0.6), "L": (1, 4), "mu": (0.1, 0.5), "C": (0.01, 0.1)}
    sizes |= {"n": (1, 6), "k": (0.8, 0.98), "r_c": (0.2, 0.5), "D": (0.05, 0.2), "t": (0.005, 0.02)}
    sizes |= {"eta": (0.5, 0.95), "ell": (0.1, 0.3)}
    units = {"force": "N", "length": "m", "friction": "", "count": "", "efficiency": "%", "ratio": ""}
    for _ in range(25):
        for (key, _motion), (choices, symbols, wanted) in asked.items():
            values = {s: draw.uniform(*sizes.get(s, (0.3, 0.95) if s.startswith("eta") else (1.5, 6))) for s in symbols}
            if "n" in values:
                values["n"] = float(round(values["n"]))
            if "t" in values and "ell" in values:
                values["t"] = values["ell"] / 6
            boxes = CALCULATORS[key].written_out(CALCULATORS[key].row_counts(values))
            given = {
                s: f"{v * (100 if boxes[s].kind == 'efficiency' else 1)!r} {units[boxes[s].kind]}"
                for s, v in values.items()
            }
            if key == "tackle":
                given["n"] = f"{values['n']:g}"
            whole = solved({"calculator": key, "given": given, "choices": choices, "units": "si"})
            for symbol, value in worked(key, wanted, **values, **choices).items():
                assert math.isclose(value, whole[symbol], rel_tol=1e-9), (key, symbol)


def test_what_jams_has_no_answer() -> None:
    with pytest.raises(NoAnswer):
        worked("ramp", "E", pull="level", motion="up", R=100.0, h=1.0, L=1.2, mu=1.5)
