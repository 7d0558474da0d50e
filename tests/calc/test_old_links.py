"""Links that were given away open for ever (shared/checks/links.toml): nothing in them may lose its meaning."""

from __future__ import annotations

import tomllib
from pathlib import Path
from urllib.parse import unquote

import pytest

import calc
from calc import link

FILE = Path(__file__).parents[2] / "shared/checks/links.toml"
LINKS = tomllib.loads(FILE.read_text("utf-8"))["links"]


def parts(fragment: str) -> dict[str, str]:
    """A link's parts, taken apart here by the rule that docs/changes.md tells teachers."""
    pairs = (part.split("=", 1) for part in fragment.split("&"))
    return {name: unquote(text.replace("_", " ")) for name, text in pairs}


def opened(fragment: str) -> dict:
    form = calc.describe(parts(fragment)["c"])
    return calc.answer(link.read(fragment, [choice["symbol"] for choice in form["choices"]]))


@pytest.mark.parametrize("entry", LINKS, ids=lambda entry: entry["link"][:60])
def test_an_old_link_opens_with_every_box_as_it_says(entry: dict) -> None:
    answer = opened(entry["link"])
    assert answer["errors"] == []
    form = calc.describe(parts(entry["link"])["c"])
    choices = {choice["symbol"] for choice in form["choices"]}
    for name, text in parts(entry["link"]).items():
        if name in choices:
            assert answer["choices"][name] == text
        elif name not in ("c", "v", "u", "level", "hide", "lock"):
            assert answer["fields"][name]["state"] in ("typed", "measured", "assumed"), name
            assert answer["fields"][name]["text"], name


@pytest.mark.parametrize("entry", [it for it in LINKS if "answers" in it], ids=lambda entry: entry["link"][:60])
def test_an_old_link_gives_the_answer_worked_by_hand(entry: dict) -> None:
    values = opened(entry["link"].partition("&hide=")[0])["values"]
    assert {symbol: values[symbol]["text"] for symbol in entry["answers"]} == entry["answers"]


def test_every_calculator_has_links_in_the_file() -> None:
    assert set(calc.keys()) <= {parts(entry["link"])["c"] for entry in LINKS}
