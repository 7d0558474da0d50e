"""Pick lists: what they put in boxes, when they give way, and that the tables they come from agree with themselves."""

from __future__ import annotations

from typing import Any

import pytest

import calc
from calc import registry, tables
from calc.measure import read
from calc.model import Calculator, Choice, Fill, Quantity, Relation, when
from calc.units import KINDS, factor

ACME, TRAPEZOIDAL = tables.acme_threads("3/4", "1"), tables.trapezoidal_threads("Tr20x4")
PAIRS = tables.friction("wood-on-wood", "wood-on-wood-dry-drive-guide")
SCREW = Calculator(
    key="toy-thread",
    title="A screw jack",
    choices=(
        Choice(
            "thread",
            "Thread",
            (*tables.options(ACME), *tables.options(TRAPEZOIDAL), ("own", "typed by hand")),
            si=TRAPEZOIDAL[0].key,
            fills=tables.fills((*ACME, *TRAPEZOIDAL), d="major", p="pitch", a_t="half_angle"),
        ),
        Choice(
            "pair",
            "Materials",
            (("", "measured by me"), *tables.options(PAIRS)),
            fills=tables.fills(PAIRS, mu="mu_kinetic"),
        ),
    ),
    quantities=(
        Quantity("R", "Load", "force", "40 lbf", "180 N", level=1),
        Quantity("E", "Effort", "force", "lbf", "N", level=1, measured=True),
        Quantity("d", "Diameter", "length", "in", "mm", level=1),
        Quantity("p", "Pitch", "pitch", "TPI", "mm", level=1),
        Quantity("a_t", "Half angle", "angle", level=1),
        Quantity("mu", "Friction coefficient", "friction", level=1, loss=True),
        Quantity("d_m", "Mean diameter", "length", "in", "mm", level=1, default="d - p/2"),
    ),
    relations=(
        *when({"view": "ideal"}, Relation("E = R*p/d_m")),
        *when({"view": ("expected", "measured")}, Relation("E = R*(p/d_m + mu)")),
    ),
)


@pytest.fixture(autouse=True)
def declared(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(registry.CALCULATORS, SCREW.key, SCREW)


def ask(units: str = "us", choices: dict[str, str] | None = None, **given: str) -> dict[str, Any]:
    return calc.answer({"calculator": SCREW.key, "given": given, "choices": choices or {}, "units": units})


def test_a_chosen_size_fills_the_empty_boxes_and_says_where_it_is_from() -> None:
    answer = ask(R="40")
    assert answer["errors"] == []
    box = answer["fields"]["p"]
    assert (box["state"], box["text"], box["shown"], box["unit"]) == ("assumed", "", "6.00", "TPI")
    assert box["note"] == "Of the thread 3/4-6 Acme: thread tables of bd-warehouse 0.4.0 (Apache-2.0)."
    assert answer["values"]["E"]["si"] == pytest.approx(40 * factor("lbf") / 6 / (0.75 - 1 / 12))
    assert answer["working"][0]["text"] == "d = 0.750 in"


def test_a_typed_box_is_stronger_than_the_list() -> None:
    answer = ask(R="40", d="1")
    assert answer["fields"]["d"]["state"] == "typed"
    assert answer["values"]["d"]["si"] == pytest.approx(0.0254)
    assert answer["fields"]["p"]["state"] == "assumed"


def test_a_fill_gives_way_to_what_follows_from_the_typed_boxes() -> None:
    """Load, mean diameter and the ideal advantage leave no freedom for the pitch only if nothing is measured."""
    answer = ask(choices={"pair": "wood-on-wood"}, R="40", E="20")
    assert answer["errors"] == []
    assert [column["view"] for column in answer["columns"]] == ["ideal", "expected", "measured"]
    assert answer["fields"]["mu"]["shown"] == "0.300"


def test_each_system_starts_with_a_size_of_its_own() -> None:
    assert calc.example(SCREW.key, "si")["choices"]["thread"] == "Tr20x4"
    assert ask("si")["values"]["d"]["si"] == pytest.approx(0.020)
    assert calc.describe(SCREW.key)["choices"][0]["default"] == {"us": "3/4-6-Acme", "si": "Tr20x4"}


def test_a_link_carries_the_choice_and_not_what_it_fills() -> None:
    link = ask(R="40")["link"]
    assert "thread=3/4-6-Acme" in link
    assert "&d=" not in link
    assert "&p=" not in link


def test_a_range_is_said_and_its_middle_taken() -> None:
    box = ask(choices={"pair": "wood-on-wood-dry-drive-guide"}, R="40")["fields"]["mu"]
    assert box["shown"] == "0.400"
    assert "The middle of 0.30 to 0.50." in box["note"]
    assert "measure your own" in box["note"]


def test_what_is_typed_by_hand_fills_nothing() -> None:
    assert ask(choices={"thread": "own"}, R="40")["fields"]["p"]["state"] == "empty"


def all_entries() -> list[tuple[tables.Entry, dict[str, str]]]:
    threads = (
        *tables.acme_threads(),
        *tables.unified_threads(),
        *tables.unified_threads(series="UNF"),
        *tables.metric_threads(),
        *tables.trapezoidal_threads(),
    )
    return [
        *((entry, {"major": "length", "pitch": "pitch", "half_angle": "angle"}) for entry in threads),
        *((entry, {"mu_static": "friction", "mu_kinetic": "friction"}) for entry in tables.friction()),
        *((entry, {"f": "length"}) for entry in tables.rolling_resistance()),
    ]


def test_every_entry_of_every_table_can_be_read_and_says_its_source() -> None:
    for entry, kinds in all_entries():
        assert entry.texts, entry
        for column, text in entry.texts.items():
            assert read(text, KINDS[kinds[column]], "Box", "").nominal > 0
            assert len(entry.notes[column]) > 20
    keys = [entry.key for entry, _ in all_entries()]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("key", calc.keys())
@pytest.mark.parametrize("units", ["us", "si"])
def test_every_option_of_every_calculator_fills_what_its_boxes_take(key: str, units: str) -> None:
    calculator = registry.CALCULATORS[key]
    quantities = calculator.written_out({rows.name: rows.high for rows in calculator.rows})
    for choice in calculator.choices:
        assert choice.default(units) in dict(choice.options)
        assert set(choice.fills) <= set(dict(choice.options))
        for option, found in choice.fills.items():
            answer = calc.answer({**calc.example(key, units), "given": {}, "choices": {choice.symbol: option}})
            for symbol, fill in found.items():
                assert quantities[symbol].level, "only a box can be filled"
                assert fill.note, f"{key}: {symbol} of {option} says no source"
                alone = calc.answer(
                    {
                        "calculator": key,
                        "units": units,
                        "given": {symbol: fill.text(units)},
                        "choices": {choice.symbol: option},
                    }
                )
                assert [e for e in alone["errors"] if e["symbol"] == symbol] == []
            assert isinstance(answer["fields"], dict)


def test_an_si_text_may_differ() -> None:
    assert Fill("0.75 in", "19 mm").text("si") == "19 mm"
    assert Fill("0.75 in").text("si") == "0.75 in"
