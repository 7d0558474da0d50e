"""Leads: a link from one sheet to another shows there what the first one showed, or does not appear."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import calc
from calc import link
from calc.formula import parse, symbols
from calc.registry import CALCULATORS
from tests.calc.asking import ask, sizes

DIAMETER = st.floats(0.004, 0.08)
PART = st.floats(0.05, 0.4)
"""Pitch over diameter."""
DECLARED = [(key, lead) for key, calculator in CALCULATORS.items() for lead in calculator.leads]


def at_the_other_end(answer: dict[str, Any], to: str) -> dict[str, Any]:
    """The answer of the sheet that a lead opens, which must take all that the link holds."""
    (fragment,) = (lead["link"] for lead in answer["leads"] if lead["calculator"] == to and lead["link"])
    choices = [choice["symbol"] for choice in calc.describe(to)["choices"]]
    other = calc.answer(link.read(fragment, choices))
    assert other["calculator"] == to
    assert other["errors"] == []
    return other


def si(answer: dict[str, Any], symbol: str) -> float:
    return answer["values"][symbol]["si"]


def text(answer: dict[str, Any], symbol: str) -> str:
    return answer["values"][symbol]["text"]


def open_leads(answer: dict[str, Any]) -> list[str]:
    return [lead["calculator"] for lead in answer["leads"] if lead["link"]]


# -- the declarations --------------------------------------------------------------------------------


@pytest.mark.parametrize(("key", "lead"), DECLARED)
def test_a_lead_fills_boxes_that_can_be_typed_in_and_takes_what_is_here(key: str, lead: Any) -> None:
    source, target = CALCULATORS[key], CALCULATORS[lead.to]
    boxes = target.written_out(target.row_counts(lead.given))
    assert all(boxes[symbol].level for symbol in (*lead.given, *lead.typed))
    own = {quantity.symbol for quantity in source.quantities}
    assert all(set(symbols(parse(formula))) <= own for formula in lead.given.values())
    assert set(lead.typed.values()) <= own
    options = {choice.symbol: [value for value, _ in choice.options] for choice in target.choices}
    assert all(value in options[name] for name, value in lead.choices.items())


@pytest.mark.parametrize("key", calc.keys())
@pytest.mark.parametrize("units", ["us", "si"])
def test_a_sheet_leads_on_by_two_links_at_most_and_the_other_end_takes_them(key: str, units: str) -> None:
    answer = calc.answer(calc.example(key, units))
    assert len(open_leads(answer)) <= 2
    for to in open_leads(answer):
        assert at_the_other_end(answer, to)["units"] == units


# -- the thread, unrolled: tan(lead angle) = lead / (pi times mean diameter), any machine design text ----


@given(DIAMETER, PART, st.integers(1, 4), st.sampled_from(["us", "si"]))
def test_the_unrolled_thread_is_a_ramp_of_the_same_advantage(d: float, part: float, j: int, units: str) -> None:
    p = d * part
    assume(0.0254 / 80 < p < 0.0254 / 0.5)
    boxes = {"R": "450 N", "p": f"{p!r} m", "j": str(j), "d_m": f"{d!r} m", "r": "0.1 m"}
    screw = ask("screw", units, {"thread": "square"}, **boxes)
    ramp = at_the_other_end(screw, "ramp")
    lead_angle = math.atan(j * p / (math.pi * d))
    assert si(ramp, "IMA") == pytest.approx(1 / math.tan(lead_angle), rel=1e-8)
    assert si(ramp, "theta") == pytest.approx(lead_angle, rel=1e-8)
    # Pushed level and without friction the load needs R tan(slope), by the balance of forces.
    assert si(ramp, "E") == pytest.approx(450 * math.tan(lead_angle), rel=1e-8)


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_example_s_screw_and_its_ramp_show_the_same_figures(units: str) -> None:
    screw = calc.answer(calc.example("screw", units))
    ramp = at_the_other_end(screw, "ramp")
    assert text(ramp, "IMA") == text(screw, "IMA_t")
    assert text(ramp, "theta") == text(screw, "lam")
    # 3/4-6 Acme, by hand: mean diameter 3/4 - 1/12 = 2/3 in, so pi * 2/3 / (1/6) = 4 pi = 12.57.
    if units == "us":
        assert text(ramp, "IMA") == "12.57"


@given(DIAMETER, PART, st.integers(1, 3), st.floats(0.02, 0.4))
def test_a_square_thread_that_rubs_is_a_ramp_that_rubs(d: float, part: float, j: int, mu: float) -> None:
    """The push round the thread, R tan(lead angle + friction angle): any machine design text, power screws."""
    p = d * part
    assume(0.0254 / 80 < p < 0.0254 / 0.5)
    boxes = {"R": "450 N", "p": f"{p!r} m", "j": str(j), "d": f"{d!r} m", "r": "0.1 m", "mu": f"{mu!r}"}
    screw = ask("screw-with-friction", "si", {"thread": "square", "collar": "none"}, **boxes)
    ramp = at_the_other_end(screw, "ramp")
    push = 450 * math.tan(math.atan(j * p / (math.pi * (d - p / 2))) + math.atan(mu))
    assert si(ramp, "E") == pytest.approx(push, rel=1e-7)
    assert si(ramp, "eta") == pytest.approx(si(screw, "eta"), rel=1e-7)


@pytest.mark.parametrize("thread", ["3/4", "Tr20x4", "vee", "acme"])
def test_a_thread_with_leaning_flanks_is_no_ramp(thread: str) -> None:
    screw = ask(
        "screw-with-friction", choices={"thread": thread}, R="100", d="0.75", p="6", j="1", r="3", mu="0.15", mu_c="0.1"
    )
    assert open_leads(screw) == []


# -- the other leads ---------------------------------------------------------------------------------


def test_the_paper_has_the_slope_of_its_ramp() -> None:
    paper = ask("wrap-test", B="11", H="2", d="1")
    shape = at_the_other_end(paper, "ramp-shape")
    assert math.degrees(si(shape, "theta")) == pytest.approx(10.3048, abs=5e-5)  # reference calculation J45
    assert text(shape, "theta") == text(paper, "lam")


@pytest.mark.parametrize("kind", ["single", "double"])
def test_a_wedge_s_face_has_the_slope_of_its_ramp(kind: str) -> None:
    wedge = ask("wedge", choices={"kind": kind}, R="20", ell="9", t="1.5")
    shape = at_the_other_end(wedge, "ramp-shape")
    assert si(shape, "theta") == pytest.approx(math.atan(1.5 / 9 / (1 if kind == "single" else 2)), rel=1e-9)
    assert si(shape, "theta") == pytest.approx(si(wedge, "alpha"), rel=1e-9)


@given(st.floats(10, 100), sizes(0, 40), st.floats(0.05, 0.5), sizes(0.0, 0.05))
def test_the_shortest_ramp_for_a_cart_s_own_pull_is_its_ramp(R: float, w: float, slope: float, C: float) -> None:
    """The other sheet solves the balance for the angle; the first one solves it for the pull."""
    assume(w == 0 or w > 0.1)
    cart = ask("cart-ramp", R=f"{R!r}", w=f"{w!r}" if w else "0.1", L="96", h=f"{96 * slope!r}", C=f"{C!r}")
    assume(si(cart, "E") < 0.98 * R)
    assert si(at_the_other_end(cart, "shortest-ramp"), "L") == pytest.approx(96 * 0.0254, rel=1e-6)


def test_a_cart_s_rope_over_a_sheave_leads_nowhere() -> None:
    assert open_leads(ask("cart-ramp", choices={"rope": "sheave"}, R="50", w="25", L="96", h="24", C="0.03")) == []


@pytest.mark.parametrize("key", ["lever", "ramp", "tackle", "wheel-and-axle"])
@pytest.mark.parametrize("units", ["us", "si"])
def test_the_same_lift_takes_this_machine_s_effort_in_the_table(key: str, units: str) -> None:
    machine = calc.answer(calc.example(key, units))
    table = at_the_other_end(machine, "same-work")
    assert text(table, "E_2") == text(machine, "E")
    assert si(table, "Wout") == pytest.approx(si(table, "E_1") * si(machine, "dR"), rel=1e-8)
    assert si(table, "dE_2") == pytest.approx(si(machine, "dE"), rel=1e-8)


@pytest.mark.parametrize("key", ["lever", "wheel-and-axle"])
def test_a_measured_effort_goes_on_to_any_machine(key: str) -> None:
    request = calc.example(key, "us")
    measured = calc.answer(request | {"given": request["given"] | {"E": "14 ± 0.5"}})
    other = at_the_other_end(measured, "any-machine")
    assert text(other, "AMA") == text(measured, "AMA")
    assert text(other, "eta") == text(measured, "eta")
    assert other["fields"]["E"]["text"] == "14 ± 0.5 lbf"


# -- what goes on, and what does not -----------------------------------------------------------------


def test_what_was_typed_goes_on_as_it_was_typed() -> None:
    answer = ask("wedge", ell="1 ft 3-1/2 in", t="1-1/2", R="20")
    (fragment,) = (lead["link"] for lead in answer["leads"] if lead["link"])
    assert fragment == "c=ramp-shape&v=1&u=us&h=1-1/2_in&b=1_ft_3-1/2_in"


def test_without_a_number_it_needs_a_lead_is_not_there() -> None:
    assert open_leads(ask("screw", choices={"thread": "square"}, R="100", p="6", j="1", r="3")) == []
    assert open_leads(ask("screw", p="6", j="1", r="3")) == []
    assert open_leads(ask("screw", R="heavy", p="6", j="1", r="3")) == []


def test_a_number_that_does_not_fit_the_other_box_leads_nowhere() -> None:
    # A box of ratios ends at a million; twice this lever's advantage does not fit.
    assert "same-work" not in open_leads(ask("lever", R="40", aR="0.002 in", aE="1200 in"))


def test_a_sheet_whose_result_waits_leads_nowhere() -> None:
    request = calc.example("lever", "us")
    assert calc.answer(request | {"hide": ["E"]})["leads"] == []


def test_the_depth_that_a_lead_sets_stands_open() -> None:
    screw = calc.answer(calc.example("screw", "us"))
    (fragment,) = (lead["link"] for lead in screw["leads"] if lead["link"])
    assert link.read(fragment, ["pull"])["level"] == ["3"]
