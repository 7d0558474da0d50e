"""Links that were given away open for ever (shared/checks/links.toml): nothing in them may lose its meaning."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from urllib.parse import unquote

import pytest

import calc
from calc import link

FILE = Path(__file__).parents[2] / "shared/checks/links.toml"
FILED = tomllib.loads(FILE.read_text("utf-8"))
LINKS = FILED["links"]


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


# -- record sheets and practice sets --------------------------------------------------------------------------------

LABS, SETS = FILED["labs"], FILED["sets"]
TOOLS = ("unit", "division", "capacity", "accuracy", "tape", "calliper", "position", "hook")


def set_up(fragment: str) -> dict:
    """The request of a record sheet that a link set up, with the readings that the sheet itself begins with."""
    given = parts(fragment)
    tools = {name: given[name] for name in TOOLS if name in given}
    once = {name: text for name, text in given.items() if name not in ("c", "v", "u", *TOOLS)}
    rows = calc.sample_record(given["c"], given["u"])["rows"]
    return {"record": given["c"], "units": given["u"], "once": once, "tools": tools, "rows": rows}


@pytest.mark.parametrize("entry", LABS, ids=lambda entry: entry["link"])
def test_an_old_link_sets_its_lab_up_without_an_error(entry: dict) -> None:
    assert calc.answer(set_up(entry["link"]))["errors"] == []


def test_every_lab_has_links_in_the_file_in_both_systems() -> None:
    found = {(parts(entry["link"])["c"], parts(entry["link"])["u"]) for entry in LABS}
    assert found == {(key, units) for key in calc.labs() for units in ("us", "si")}


@pytest.mark.parametrize("entry", SETS, ids=lambda entry: entry["link"])
def test_an_old_set_gives_its_seats_the_problems_it_gave_and_the_answers_worked_by_hand(entry: dict) -> None:
    practice = {"link": entry["link"], "seat": entry["seat"]}
    answer = calc.answer({"practice": practice})
    assert answer["problems"] == []
    (problem,) = (it for it in answer["questions"] if it["question"] == entry["question"])
    assert problem["text"] == entry["problem"]
    mark = {"question": entry["question"], "typed": entry["answer"], "misses": 0}
    assert calc.answer({"practice": practice, "mark": mark})["mark"]["state"] == "right"
    assert calc.answer({"practice": practice, "mark": {**mark, "typed": "7777"}})["mark"]["state"] != "right"


def now_on(site: Path) -> dict[str, str]:
    """The page that each sheet stands on, as the build writes it for the title page."""
    written = (site / "assets/calculator-pages.js").read_text("utf-8")
    return dict(re.findall(r'^ "?([\w-]+)"?: "([\w-]+\.html)"', written, re.M))


def test_every_sheet_stands_on_the_page_that_its_old_links_name_or_left_a_pointer_there(site: Path) -> None:
    """An assignment names the page in its address; a sheet that moved without a word would leave it nowhere."""
    now = now_on(site)
    for key, page in FILED["pages"].items():
        html = (site / page).read_text("utf-8")
        if now[key] == page:
            assert f'-sheet key="{key}"' in html
            continue
        pointers = re.findall(rf'<li id="([\w-]+)"><a href="([\w-]+\.html)#([\w-]+)" id="{key}-sheet">', html)
        ((section, leads_to, there),) = pointers
        assert (leads_to, there) == (now[key], section)
        target = (site / leads_to).read_text("utf-8")
        assert f'<h2 id="{section}">' in target
        assert f'<calculator-sheet key="{key}">' in target
        assert f'<a href="{page}">' in target  # and a link back
    assert set(now) == set(FILED["pages"])  # a new sheet adds its own line
    assert all((site / page).is_file() for page in {*now.values(), "practice.html", "index.html"})
