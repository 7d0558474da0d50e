"""The built pages as files: valid, whole, and asking nothing of another host."""

import re
from pathlib import Path
from urllib.parse import unquote, urlsplit
from xml.etree import ElementTree

import html5lib
import pytest

from build_tools.bench import weights
from tests.page import pages
from tests.page.sentences import long_sentences

PAGES = tuple(f"{name}.html" for name in pages.PAGES)
WITH_SHEETS = tuple(f"{name}.html" for name in pages.WITH_SHEETS)
MACHINES = tuple(f"{name}.html" for name in pages.MACHINES)


def tree(file: Path):
    return html5lib.parse(file.read_text("utf-8"), treebuilder="etree", namespaceHTMLElements=False)


def test_no_page_is_left_out_of_these_checks(site: Path):
    assert sorted(file.name for file in site.glob("*.html")) == sorted(PAGES)


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_valid_html(site: Path, name: str):
    parser = html5lib.HTMLParser()
    parser.parse((site / name).read_text("utf-8"))
    assert parser.errors == []


@pytest.mark.parametrize("name", PAGES)
def test_no_id_stands_twice(site: Path, name: str):
    ids = [part.get("id") for part in tree(site / name).iter() if part.get("id")]
    assert sorted(ids) == sorted(set(ids))


@pytest.mark.parametrize("name", PAGES)
def test_every_reference_to_an_id_finds_it(site: Path, name: str):
    page = tree(site / name)
    ids = {part.get("id") for part in page.iter()}
    for part in page.iter():
        for attribute in ("for", "aria-describedby", "aria-labelledby", "aria-controls"):
            assert set((part.get(attribute) or "").split()) <= ids, f"{attribute} of {part.tag}"


@pytest.mark.parametrize("name", PAGES)
def test_every_link_and_every_file_is_there(site: Path, name: str):
    for part in tree(site / name).iter():
        for attribute in ("href", "src"):
            address = part.get(attribute)
            if address is None:
                continue
            to = urlsplit(address)
            assert (to.scheme, to.netloc) == ("", ""), f"{address} leaves the site"
            target = (site / name).parent / unquote(to.path) if to.path else site / name
            assert target.is_file(), address
            if to.fragment.startswith("c="):  # a link with numbers: to a sheet, not to an id
                key = to.fragment.split("&")[0].removeprefix("c=")
                assert key in {sheet.get("key") for sheet in tree(target).iter("calculator-sheet")}, address
            elif to.fragment and target.suffix == ".html":
                assert to.fragment in {other.get("id") for other in tree(target).iter()}, address


@pytest.mark.parametrize("name", PAGES)
def test_a_page_names_no_other_host(site: Path, name: str):
    text = (site / name).read_text("utf-8")
    assert re.findall(r"(?:https?:)?//[a-z0-9-]+\.[a-z]", text.replace("http://www.w3.org/", "")) == []


def test_our_scripts_and_styles_name_no_other_host(site: Path):
    for file in (*site.glob("assets/*.js"), *site.glob("assets/*.css")):
        text = weights.CODE.sub("", file.read_text("utf-8"))  # base64 has slashes of its own
        assert "//" not in re.sub(r"^\s*//.*$|/\*.*?\*/|\s//.*$", "", text, flags=re.M | re.S), file


def test_no_stylesheet_asks_another_host(site: Path):
    for file in site.rglob("*.css"):
        for address in re.findall(r"url\(\s*['\"]?([^)'\"]+)", file.read_text("utf-8")):
            assert urlsplit(address).scheme in ("", "data"), address
        assert "@import" not in file.read_text("utf-8")


@pytest.mark.parametrize("name", PAGES)
def test_the_policy_of_a_page_lets_no_other_host_in(site: Path, name: str):
    (policy,) = (
        part.get("content")
        for part in tree(site / name).iter("meta")
        if part.get("http-equiv") == "Content-Security-Policy"
    )
    rules = {words[0]: words[1:] for rule in policy.split(";") if (words := rule.split())}
    assert rules["default-src"] == ["'none'"]
    own = {"'self'", "'none'", "file:", "blob:", "data:", "'wasm-unsafe-eval'"}
    others = {source for sources in rules.values() for source in sources} - own
    assert all(source.startswith("'sha256-") for source in others)


@pytest.mark.parametrize("name", WITH_SHEETS)
def test_formulas_and_drawings_are_well_formed_xml(site: Path, name: str):
    text = (site / name).read_text("utf-8")
    formulas, drawings = re.findall(r"<math\b.*?</math>", text, re.S), re.findall(r"<svg\b.*?</svg>", text, re.S)
    assert len(formulas) > 5
    assert len(drawings) >= 2
    for part in (*formulas, *drawings):
        ElementTree.fromstring(part)


@pytest.mark.parametrize("name", WITH_SHEETS)
def test_every_drawing_says_in_words_what_it_shows(site: Path, name: str):
    text = (site / name).read_text("utf-8")
    for drawing in re.findall(r'<svg[^>]*role="img".*?</svg>', text, re.S):
        assert re.search(r"<title[^>]*>[^<]{4,}</title>", drawing)
        assert re.search(r"<desc[^>]*>[^<]{20,}</desc>", drawing)


@pytest.mark.parametrize("name", MACHINES)
def test_a_machine_page_says_what_it_trades_and_what_can_hurt(site: Path, name: str):
    page = tree(site / name)
    heads = ["".join(head.itertext()) for head in page.iter("h2")]
    for wanted in ("In the shop", "Why not quite", "Often done wrong", "What can hurt you"):
        assert wanted in heads
    assert len(list(page.iter("h1"))) == 1
    (caution,) = (part for part in page.iter("div") if part.get("class") == "caution")
    words = " ".join("".join(caution.itertext()).split())
    for wanted in ("teacher", "local codes", "rated limits"):
        assert wanted in words


@pytest.mark.parametrize("name", PAGES)
def test_every_page_says_that_the_story_is_invented(site: Path, name: str):
    (foot,) = tree(site / name).iter("footer")
    words = " ".join("".join(foot.itertext()).split())
    assert "invented" in words
    assert "not" in words or "Nothing" in words
    assert "permit, a design or a rated limit" in words


@pytest.mark.parametrize("name", PAGES)
def test_sentences_are_short(root: Path, name: str):
    text = re.sub(
        r"\A---\n.*?\n---\n", "", (root / "docs" / name.replace(".html", ".md")).read_text("utf-8"), flags=re.S
    )
    text = re.sub(r"\[=[^\]]*\]", "1", text)  # a number that is put in
    text = re.sub(r"<table.*?</table>", "", text, flags=re.S)
    prose = re.sub(r"<[^>]+>|^[#/|].*$|^    .*$|\*\*|^- ", "", text, flags=re.M)
    assert long_sentences(prose) == []


@pytest.mark.parametrize("name", PAGES)
def test_the_home_page_leads_only_to_pages_that_are(site: Path, name: str):
    home = tree(site / "index.html")
    linked = {link.get("href") for link in home.iter("a")}
    assert name in linked


def test_html_styles_and_scripts_stay_small(site: Path):
    """HTML, CSS and JS of a page before the engine: 300 KB at most (the house's own limit)."""
    heavy = {name: size for name in PAGES if (size := weights.page_weight(site / name)) >= 300_000}
    assert heavy == {}
