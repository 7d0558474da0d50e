"""What a calculator lists beside the six lines, where its remarks go, and the mark of a book case."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

import calc
from calc import registry
from calc.block import EFFORT, MEASURED, RESULTS, WORK
from calc.drawing.scene import Drawing
from calc.model import Beside, Calculator, Choice, Condition, Quantity, Relation, Rows, Sentence, when
from calc.units import factor

POST = Calculator(
    key="toy-post",
    title="A rope round a post",
    choices=(Choice("side", "Side", (("pull", "pull"), ("slack", "slack")), level=3),),
    quantities=(
        Quantity("T_1", "Tight side", "force", "40 lbf", "180 N", level=1),
        Quantity("T_2", "Slack side", "force", "10 lbf", "45 N", level=1),
        Quantity("D", "Difference", "force", "lbf", "N"),
        Quantity("s", "Share that slips", "ratio", when={"side": "slack"}),
        Quantity("m", "Ratio", "ratio"),
    ),
    relations=(Relation("D = T_1 - T_2"), Relation("m = T_1/T_2"), Relation("s = T_2/T_1")),
    conditions=(
        Condition("m > 3", "n-stays", at="m", stop=False),
        Condition("m <= 3", "n-steep", at="T_2", stop=False),
    ),
    shows=("D", "m", "s"),
    book_case=True,
    sentences=(Sentence("The post holds {D}."),),
)
CHAIN = Calculator(
    key="toy-chain",
    title="Stages in a row",
    quantities=(
        Quantity("R", "Load", "force", "80 lbf", "360 N", level=1),
        EFFORT,
        *RESULTS,
        Quantity("dR", "Load distance", "length", "1 ft", "0.3 m", level=1),
        Quantity("dE", "Effort distance", "length", "ft", "m"),
        Quantity("c", "Strain on the hook", "force", "lbf", "N"),
    ),
    rows=(
        Rows(
            "stages",
            "Stage",
            (
                Quantity("g", "Advantage", "ratio", level=1),
                Quantity("y", "Loss", "efficiency", "%", "%", level=1, loss=True, default="1", default_note="Ideal."),
                Quantity("p", "Passed on", "ratio"),
            ),
            example=({"g": "2"}, {"g": "3"}),
            columns=("g", "p"),
        ),
    ),
    relations=(
        Relation("p[i] = 1/g[i]", each="stages"),
        Relation("IMA = prod(g[i] for i in stages)"),
        *when({"view": "ideal"}, Relation("E = R/IMA")),
        *when({"view": "expected"}, Relation("AMA = prod(g[i]*y[i] for i in stages)")),
        Relation("dE = IMA*dR"),
        Relation("c = R + E"),
        *MEASURED,
        *WORK,
    ),
    shows=("c",),
    asks=("E", "R", "g_1", "y_1"),
)


_SHARES = (("oak", "1"), ("pine", "0.5"))
BENCHES = Calculator(
    key="toy-benches",
    title="Two benches",
    choices=tuple(
        Choice(f"wood_{i}", f"Bench {i}", (("oak", "oak"), ("pine", "pine"), ("none", "no bench")), before=f"g_{i}")
        for i in (1, 2)
    ),
    quantities=(
        Quantity("w", "Load", "force", "40 lbf", "180 N", level=1),
        Quantity("x", "Legs to one", "ratio", "4", "4", level=1, slide=(0.5, 2)),
        *(
            q
            for i in (1, 2)
            for q in (
                Quantity(f"g_{i}", f"Share {i}", "ratio", "2", "2", level=1, when={f"wood_{i}": ("oak", "pine")}),
                Quantity(f"p_{i}", f"Pull {i}", "force", "lbf", "N"),
                Quantity(f"eta_{i}", f"Efficiency {i}", "efficiency", "%", "%"),
            )
        ),
    ),
    relations=(
        *(Relation(f"p_{i} = w/g_{i}") for i in (1, 2)),
        *(Relation(f"eta_{i} = {share}", when={f"wood_{i}": name}) for i in (1, 2) for name, share in _SHARES),
    ),
    beside=Beside(("wood_1", "wood_2"), (("p", "Pull"), ("eta", "Efficiency")), without="none"),
    draw=lambda scene: Drawing(f"<svg>{scene.text('wood_1')}</svg>", "A bench.", "A bench."),
    still=True,
)


@pytest.fixture(autouse=True)
def declared(monkeypatch: pytest.MonkeyPatch) -> None:
    for toy in (POST, CHAIN, BENCHES):
        monkeypatch.setitem(registry.CALCULATORS, toy.key, toy)


def ask(toy: Calculator, choices: dict[str, str] | None = None, **given: str) -> dict[str, Any]:
    return calc.answer({"calculator": toy.key, "given": given, "choices": choices or {}, "units": "us"})


def test_a_calculator_without_six_lines_lists_what_it_shows() -> None:
    results = ask(POST, T_1="40", T_2="10")["html"]["results"]
    assert results.count("<tr>") == 3
    assert '<th scope="row">Difference</th>' in results
    assert "30.0 lbf" in results
    assert "IMA" not in results
    assert "Share that slips" in ask(POST, {"side": "slack"}, T_1="40", T_2="10")["html"]["results"]


def test_the_working_leads_to_what_is_listed() -> None:
    assert [line["text"].partition(" ")[0] for line in ask(POST, T_1="40", T_2="10")["working"]] == ["D", "m"]


def test_a_machine_with_rows_has_its_six_lines_its_list_and_its_table() -> None:
    results = ask(CHAIN, R="80", g_1="2", g_2="3", dR="1")["html"]["results"]
    assert results.index("Forces") < results.index("Strain on the hook") < results.index("Passed on")
    assert results.count("<table") == 2
    assert "13.33 lbf" in results


def test_losses_in_rows_make_the_effort_to_expect() -> None:
    """80 lbf over 2 * 3 at 80 % in one stage: 80/(6 * 0.8) = 16.667 lbf, by hand."""
    answer = ask(CHAIN, R="80", g_1="2", g_2="3", y_1="80 %", dR="1")
    assert [column["view"] for column in answer["columns"]] == ["ideal", "expected"]
    assert answer["values"]["E"]["si"] == pytest.approx(80 / 4.8 * factor("lbf"))


def test_a_remark_without_a_box_is_still_said() -> None:
    answer = ask(POST, T_1="40", T_2="10")
    assert answer["remarks"] == [note["text"] for note in answer["notes"]]
    assert answer["notes"][0]["code"] == "n-stays"


def test_a_remark_at_a_box_is_said_there_alone() -> None:
    answer = ask(POST, T_1="20", T_2="10")
    assert answer["remarks"] == []
    assert answer["fields"]["T_2"]["note"].startswith("Steep.")


def test_a_message_of_a_choice_or_an_unknown_name_is_said_beside_the_answer() -> None:
    answer = calc.answer({"calculator": POST.key, "given": {"zz": "1"}, "choices": {"side": "left"}})
    assert len(answer["remarks"]) == len(answer["errors"]) == 2


def test_a_book_case_says_so() -> None:
    assert calc.describe(POST.key)["book_case"] == "Book case. Calculate it, never set it up in class."
    assert calc.describe(CHAIN.key)["book_case"] == ""


def test_like_results_stand_side_by_side_under_the_options_chosen() -> None:
    results = ask(BENCHES, {"wood_2": "pine"}, w="40", g_1="2", g_2="4")["html"]["results"]
    assert '<th scope="col">Bench 1: oak</th><th scope="col">Bench 2: pine</th>' in results
    assert '<th scope="row">Pull</th><td>20.0 lbf</td><td>10.00 lbf</td>' in results
    assert results.count("<tr>") == 3  # nothing is listed beside the table
    assert '100.0 % <span class="none">ideal</span></td><td>50.0 %</td>' in results


def test_the_working_tells_the_first_row_unless_it_only_repeats(monkeypatch: pytest.MonkeyPatch) -> None:
    given = {"R": "80", "g_1": "2", "g_2": "3", "dR": "1"}
    assert "p_1" in [line["text"].partition(" ")[0] for line in ask(CHAIN, **given)["working"]]
    untold = replace(CHAIN, key="toy-untold", rows=tuple(replace(rows, told=False) for rows in CHAIN.rows))
    monkeypatch.setitem(registry.CALCULATORS, untold.key, untold)
    assert "p_1" not in [line["text"].partition(" ")[0] for line in ask(untold, **given)["working"]]


def test_an_option_may_leave_its_column_out() -> None:
    one = ask(BENCHES, {"wood_1": "none"}, w="40", g_2="4")["html"]["results"]
    assert "Bench 1" not in one
    assert ask(BENCHES, {"wood_1": "none", "wood_2": "none"}, w="40")["html"]["results"] == ""


def test_the_working_tells_the_first_of_like_things_whole_and_the_others_briefly() -> None:
    answer = ask(BENCHES, w="40", g_1="2", g_2="4")
    assert [line["text"].partition(" ")[0] for line in answer["working"]] == ["p_1", "eta_1", "p_2"]


def test_what_is_still_missing_is_asked_of_boxes_that_stand_there() -> None:
    sentence = ask(BENCHES, {"wood_2": "none"}, w="40", x="4")["html"]["sentence"]
    assert "share 1" in sentence
    assert "share 2" not in sentence


def test_a_ratio_is_slid_where_the_author_gave_a_range_and_a_still_picture_has_no_travel() -> None:
    sliders = {s["symbol"]: (s["low"], s["high"]) for s in calc.answer(calc.example(BENCHES.key))["sliders"]}
    assert sliders == {"w": (20, 100), "x": (2, 8)}


def test_a_picture_knows_the_options_in_words() -> None:
    answer = calc.answer({**calc.example(BENCHES.key), "choices": {"wood_1": "none"}, "draw": "wide"})
    assert answer["html"]["machine_wide"] == "<svg>no bench</svg>"


@pytest.mark.parametrize("key", calc.keys())
@pytest.mark.parametrize("units", ["us", "si"])
def test_every_remark_of_every_example_is_said_somewhere(key: str, units: str) -> None:
    answer = calc.answer(calc.example(key, units))
    for note in answer["notes"]:
        places = (answer["html"]["sentence"], *answer["remarks"], *(f["note"] for f in answer["fields"].values()))
        start = note["text"].partition(".")[0].replace("&", "&amp;")
        assert any(start in place for place in places), note


@pytest.mark.parametrize("key", calc.keys())
def test_everything_listed_is_a_quantity(key: str) -> None:
    calculator = registry.CALCULATORS[key]
    assert set(calculator.shows) <= {q.symbol for q in calculator.quantities}
