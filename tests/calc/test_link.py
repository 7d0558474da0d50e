"""Links that carry numbers: what is written comes back, and a hostile link does nothing but say what is wrong."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

import calc
from calc import link

TEXTS = st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=20).filter(
    lambda text: text == text.strip() and text
)


def test_a_link_reads_like_the_box_labels() -> None:
    request = {
        "calculator": "lever",
        "units": "us",
        "given": {"R": "40 lbf", "aR": "5 ft 3-1/2 in"},
        "choices": {"class": "1"},
    }
    assert link.write(request, levels=(2,), hide=("E",), lock=("R",)) == (
        "c=lever&v=1&u=us&R=40_lbf&aR=5_ft_3-1/2_in&class=1&level=2&hide=E&lock=R"
    )


@given(
    st.dictionaries(st.sampled_from(["R", "aR", "aE", "E", "mu", "r_p"]), TEXTS),
    st.sampled_from(["us", "si"]),
    st.sampled_from(["1", "2", "3"]),
    st.lists(st.sampled_from(["2", "3"]), unique=True),
)
def test_a_link_comes_back_as_it_was(given_: dict, units: str, order: str, levels: list) -> None:
    request = {"calculator": "lever", "units": units, "given": given_, "choices": {"class": order}}
    again = link.read("#" + link.write(request, levels, hide=("E",), lock=tuple(given_)), choices=("class",))
    assert {name: again[name] for name in request} == request
    assert (again["level"], again["hide"], again["lock"]) == (levels, ["E"], list(given_))


@given(
    st.dictionaries(st.sampled_from(["R", "aR", "aE", "E"]), st.floats(1, 500).map(lambda x: f"{x:.5g}"), max_size=4)
)
def test_the_answer_of_a_link_is_the_answer_of_the_sheet(given_: dict) -> None:
    first = calc.answer({"calculator": "lever", "given": given_, "units": "us"})
    again = calc.answer(link.read(first["link"], choices=("class",)) | {"from_link": []})
    assert again["values"] == first["values"]


@pytest.mark.parametrize("key", calc.keys())
@pytest.mark.parametrize("units", ["us", "si"])
def test_every_example_has_a_link_that_gives_its_values(key: str, units: str) -> None:
    first = calc.answer(calc.example(key, units))
    choices = [choice["symbol"] for choice in calc.describe(key)["choices"]]
    again = calc.answer(link.read(first["link"], choices))
    assert again["errors"] == []
    assert again["values"] == first["values"]
    assert not set(first["values"]) - set(calc.example(key)["given"]) & set(again)


def test_results_are_never_written() -> None:
    fragment = calc.answer({"calculator": "lever", "given": {"R": "40", "aR": "6", "aE": "24"}})["link"]
    assert "&E=" not in fragment
    assert "aE=24_in" in fragment


@pytest.mark.parametrize(
    ("fragment", "code", "symbol"),
    [
        ("c=lever&R=heavy&aR=6in&aE=24in", "e-link", "R"),
        ("c=lever&R=40ft&aR=6in&aE=24in", "e-link", "R"),
        ("c=lever&R=-40lbf&aR=6in&aE=24in", "e-link", "R"),
        ("c=lever&R=<script>alert(1)</script>&aR=6in", "e-link", "R"),
        ("c=lever&R=%3Cimg%20src=x%20onerror=alert(1)%3E", "e-link", "R"),
        ("c=lever&zz=1&R=40lbf", "e-symbol", "zz"),
        ("c=lever&class=9&R=40lbf", "e-choice", "class"),
        ("c=nothing&R=40lbf", "e-key", None),
        ("R=40lbf", "e-key", None),
    ],
)
def test_a_bad_part_is_named_and_the_rest_is_used(fragment: str, code: str, symbol: str | None) -> None:
    answer = calc.answer(link.read(fragment, choices=("class",)))
    assert (answer["errors"][0]["code"], answer["errors"][0]["symbol"]) == (code, symbol)
    assert "<" not in answer["errors"][0]["text"] or code == "e-link"
    if code == "e-link":
        assert answer["fields"][symbol]["text"] == ""
    if "aR=6in" in fragment:
        assert answer["values"]["aR"]["text"] == "6.00 in"


@given(st.text(max_size=300))
def test_any_text_after_the_hash_is_answered(fragment: str) -> None:
    json.dumps(calc.answer(link.read("c=lever&" + fragment, choices=("class",))), allow_nan=False)


def test_a_hidden_result_waits_for_the_readers_own_number() -> None:
    given_ = {"R": "40", "aR": "6", "aE": "24"}
    waiting = calc.answer({"calculator": "lever", "given": given_, "hide": ["E"], "draw": "both"})
    assert "10.00" not in json.dumps(waiting)
    assert waiting["fields"]["E"]["note"] == "Type your own number first."
    typed = calc.answer({"calculator": "lever", "given": {**given_, "E": "12"}, "hide": ["E"]})
    assert "10.00" in typed["html"]["results"]
