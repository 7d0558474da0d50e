"""Practice problems as data: the specification's own, fair over the whole grid, and true to the calculators."""

from __future__ import annotations

import json
import math
import re
from itertools import combinations, product

import pytest
import uncertainties

from calc.answer import solved
from calc.figures import shown
from calc.formula import evaluate, parse
from calc.library import table_of, text_of
from calc.practice import draw as drawing
from calc.practice.families import LETTERS, MACHINES, family, of_machine, value
from calc.practice.physics import picture, request_for
from calc.units import factor
from tests.page.sentences import long_sentences

SPECIFIED = {entry["id"]: entry for entry in json.loads(text_of("checks/practice_families.json"))}
IDS = tuple(SPECIFIED)
WIDENED = {"qP8": "R", "qG3": "R", "qG4": "E"}
"""Families whose range is another one than specified, so that 40 seats fit the shop's limits."""
DEGREES = {
    "sind": lambda angle: math.sin(math.radians(angle)),
    "cosd": lambda angle: math.cos(math.radians(angle)),
    "tand": lambda angle: math.tan(math.radians(angle)),
    "atand": lambda ratio: math.degrees(math.atan(ratio)),
}


def by_python(text: str, numbers: dict[str, float]) -> float:
    """A formula of the specification worked out by Python itself: another way than calc.formula."""
    return eval(text, {"__builtins__": {}}, {"pi": math.pi, "sqrt": math.sqrt, "abs": abs, **DEGREES, **numbers})


def specified_draws(entry: dict) -> list[tuple[float, ...]]:
    """The usable draws by the specification's own list (rule E2), but for the last bits of a double."""
    found = []
    for values in product(*entry["p"].values()):
        numbers = dict(zip(entry["p"], values, strict=True))
        if not by_python(entry["where"], numbers):
            continue
        answer = by_python(entry["ans"], numbers)
        if answer <= 0 or (entry["clean"] and abs(float(f"{answer:.3g}") - answer) > 1e-9 * max(1, answer)):
            continue
        slips = [by_python(slip, numbers) for slip, _ in entry["slips"]]
        if any(abs(slip - answer) / answer <= 0.05 + 1e-9 for slip in slips):
            continue
        if any(abs(a - b) / max(abs(a), abs(b)) <= 0.025 + 1e-9 for a, b in combinations(slips, 2)):
            continue
        found.append(values)
    return found


def test_the_specification_counts_the_draws_alike() -> None:
    # SPEC E8: 69 US families (30 of level 1, 39 of level 2), 196 slips, 37 946 draws; 69 SI twins, 37 015 draws.
    us, si = ([e for e in SPECIFIED.values() if e["id"].endswith("s") is twin] for twin in (False, True))
    assert (len(us), len(si)) == (69, 69)
    assert [sum(e["lvl"] == level for e in us) for level in (1, 2)] == [30, 39]
    assert sum(len(e["slips"]) for e in us) == 196
    assert sum(len(specified_draws(e)) for e in us) == 37946
    assert sum(len(specified_draws(e)) for e in si) == 37015 - 1  # one lies on an edge, but for the last bits


@pytest.mark.parametrize("id_", IDS)
def test_a_family_draws_what_the_specification_lists(id_: str) -> None:
    asked, entry = family(id_), SPECIFIED[id_]
    ours = {tuple(draw.numbers.values()): draw for draw in drawing.fair(id_)}
    specified = specified_draws(entry)
    if id_.removesuffix("s") in WIDENED:
        name = WIDENED[id_.removesuffix("s")]
        assert {k: v for k, v in asked.draws.items() if k != name} == {
            k: tuple(v) for k, v in entry["p"].items() if k != name
        }
    else:
        assert list(ours) == specified
    for draw in ours.values():
        assert draw.answer == pytest.approx(by_python(entry["ans"], draw.numbers), rel=1e-12)
        assert draw.slips == pytest.approx([by_python(slip, draw.numbers) for slip, _ in entry["slips"]], rel=1e-12)


@pytest.mark.parametrize("id_", IDS)
def test_no_draw_can_be_confused_and_forty_seats_fit_a_shop(id_: str) -> None:
    """The whole grid: rules E2 and E9 of the specification."""
    asked, sensible = family(id_), 0
    for draw in drawing.fair(id_):
        assert draw.answer > 0
        assert not asked.clean or float(f"{draw.answer:.3g}") == pytest.approx(draw.answer, rel=1e-9)
        assert all(abs(slip - draw.answer) > 0.05 * draw.answer for slip in draw.slips)
        for a, b in combinations(draw.slips, 2):
            assert abs(a - b) > 0.025 * max(abs(a), abs(b))
        sensible += drawing.fits_a_shop(asked, draw)
    assert sensible >= 40


SHOP = {"us": ({"lbf": 60}, {"ft": 16, "in": 120}), "si": ({"N": 300}, {"m": 4.8, "cm": 300})}


@pytest.mark.parametrize("id_", [i for i in IDS if family(i).name in ("effort", "pull", "push", "lift at the hands")])
def test_no_student_is_asked_for_more_than_the_shop_allows(id_: str) -> None:
    asked = family(id_)
    forces = SHOP[asked.system][0]
    assert max(draw.answer for draw in drawing.by_seat(id_, "any-set", 1)) <= forces[asked.unit] * (1 + 1e-9)


@pytest.mark.parametrize("id_", IDS)
def test_forty_seats_have_different_numbers(id_: str) -> None:
    for code, question in (("garden-1", 1), ("garden-1", 2), ("hens-2", 9)):
        numbers = [tuple(drawing.drawn(id_, code, question, seat).numbers.values()) for seat in range(1, 41)]
        assert len(set(numbers)) == 40
        assert all(drawing.fits_a_shop(family(id_), drawing.drawn(id_, code, question, seat)) for seat in range(1, 41))


@pytest.mark.parametrize(
    ("id_", "seat", "question", "numbers", "answer", "slips"),
    [  # SPEC E3, set garden-1
        ("qL1", 7, 1, {"R": 160, "a": 9, "b": 30}, 48, (533.333, 36.9231, 1440)),
        ("qI5", 7, 1, {"R": 60, "q": 30, "m": 0.4}, 50.7846, (30, 54, 9.21539, 63.9615)),
        ("qS4", 12, 3, {"r": 5, "T": 5, "e": 25, "R": 1500}, 38.1972, (9.5493, 2.38732, 76.3944)),
    ],
)
def test_a_seat_gets_the_numbers_of_the_specification(id_, seat, question, numbers, answer, slips) -> None:
    draw = drawing.drawn(id_, "garden-1", question, seat)
    assert draw.numbers == numbers
    assert draw.answer == pytest.approx(answer, rel=1e-5)
    assert draw.slips == pytest.approx(slips, rel=1e-5)


@pytest.mark.parametrize("id_", [id_ for id_ in IDS if family(id_).calculator])
def test_the_calculator_that_holds_the_physics_agrees(id_: str) -> None:
    # A problem that states its own g = 9.81 m/s² differs from the standard one by 0.03 %.
    asked, near = family(id_), 1e-3 if id_.startswith("qU3") else 1e-9
    for seat in (1, 17, 40):
        draw = drawing.drawn(id_, "agree", 1, seat)
        found = {symbol: uncertainties.nominal_value(x) for symbol, x in solved(request_for(asked, draw)).items()}
        names = re.findall(r"[A-Za-z_]+", asked.equals)
        unit = asked.unit if names[0] == "ans" else asked.units[names[0]]
        if "/" in asked.equals:
            unit = ""
        wanted = value(asked.equals, {**draw.numbers, "ans": draw.answer}) * factor(unit)
        assert evaluate(parse(asked.result), found) == pytest.approx(wanted, rel=near), draw


def test_only_readings_of_a_scale_have_no_calculator() -> None:
    # They are the record sheet's: a reading less the empty one, and twice the hook's weight when turned upside down.
    from calc.lab.scale import hook_share

    assert {id_ for id_ in IDS if not family(id_).calculator} == {"qU1", "qU2", "qU1s", "qU2s"}
    draw = drawing.drawn("qU2", "agree", 1, 3)
    assert draw.answer == pytest.approx(draw.numbers["E"] + hook_share("up") * draw.numbers["w"])


@pytest.mark.parametrize("id_", [id_ for id_ in IDS if family(id_).picture])
def test_a_drawing_shows_what_is_given_and_never_the_answer(id_: str) -> None:
    asked = family(id_)
    for seat in (2, 23):
        draw = drawing.drawn(id_, "drawn", 1, seat)
        found = picture(asked, draw)
        assert found["machine_wide"] != found["machine_narrow"]
        drawn = re.sub(r"\s+", " ", " ".join(re.findall(r">([^<>]+)<", found["machine_wide"])))
        assert "?" in drawn
        if asked.unit:
            number = shown(draw.answer)
            assert not re.search(
                rf"(?<![\d.])(?<!force ){re.escape(number)} ?{re.escape(asked.unit)}(?![\w·])", drawn
            ), drawn


@pytest.mark.parametrize("id_", [id_ for id_ in IDS if family(id_).picture])
def test_a_drawing_gives_lengths_in_the_units_of_its_problem(id_: str) -> None:
    asked = family(id_)
    lengths = {"in", "ft", "mm", "cm", "m"}
    found = picture(asked, drawing.drawn(id_, "drawn", 1, 2))
    for width in ("machine_wide", "machine_narrow"):
        drawn = set(re.findall(r">[^<>]*\d (\w+)(?=<)", found[width])) & lengths
        assert not lengths & set(asked.units.values()) or drawn <= set(asked.units.values()), drawn


def test_every_family_is_where_its_letter_says() -> None:
    for id_ in IDS:
        assert family(id_).machine == LETTERS[id_[1]]
    assert {f.id for machine in MACHINES for units in ("us", "si") for f in of_machine(machine, units)} == set(IDS)


@pytest.mark.parametrize("id_", IDS)
def test_every_number_has_a_name_a_place_in_the_text_and_a_unit(id_: str) -> None:
    asked = family(id_)
    assert set(re.findall(r"\{(\w+)\}", asked.text)) == set(asked.draws) == set(asked.names)
    assert set(asked.units) == set(asked.draws)
    for name, unit in asked.units.items():
        assert not unit or re.search(rf"\{{{name}\}}\s?(and \{{\w+\}} )?{re.escape(unit)}", asked.text), name


@pytest.mark.parametrize("id_", IDS)
def test_words_are_short_and_plain(id_: str) -> None:
    asked = family(id_)
    for words in (asked.text, asked.words, asked.check, *(slip.words for slip in asked.slips)):
        assert long_sentences(words + ". ") == []
        assert "mu" not in words.split()
    assert {slip.step for slip in asked.slips} <= {"formula", "units"}


def test_each_machine_has_eight_prompts_of_its_own() -> None:
    table = table_of("practice/prompts.toml")
    assert set(table) == set(MACHINES)
    every = [prompt for entry in table.values() for prompt in entry["prompts"]]
    assert all(len(entry["prompts"]) == 8 for entry in table.values())
    assert len(set(every)) == len(every)
    assert long_sentences(" ".join(every) + " ") == []
