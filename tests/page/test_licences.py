"""The page of licences lists all that others wrote and this site carries, and each text is what it is said to be."""

import json
import re
import tomllib
from importlib import metadata
from pathlib import Path
from urllib.parse import unquote
from xml.etree.ElementTree import Element

import html5lib
import pytest
from packaging.utils import canonicalize_name

from build_tools.engine import archives, payload
from build_tools.shipped import pieces

ROOT = Path(__file__).parents[2]
DATA = tomllib.loads((ROOT / "shared/pages/licences.toml").read_text("utf-8"))["piece"]
EDITIONS = ("site", "class_site")

TELLTALES = {
    "MIT": "Permission is hereby granted, free of charge",
    "BSD-2-Clause": "Redistribution and use in source and binary forms",
    "BSD-3-Clause": "used to endorse or promote products derived from this software",
    "0BSD": "for any purpose with or without fee is hereby granted",
    "Apache-2.0": "TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION",
    "LLVM-exception": "As an exception, if, as a result of your compiling your source code",
    "MPL-2.0": "Mozilla Public License Version 2.0",
    "PSF-2.0": "PYTHON SOFTWARE FOUNDATION LICENSE VERSION 2",
    "NCSA": "this list of conditions and the following disclaimers",
    "Zlib": "This notice may not be removed or altered from any source distribution",
    "bzip2-1.0.6": "The origin of this software must not be misrepresented",
    "W3C-20150513": "The full text of this NOTICE in a location viewable to users",
    "CC-BY-4.0": "Attribution 4.0 International",
}
"""Words that the list of licences of SPDX has in the text of each; an expression needs those of all its parts."""


def rows(folder: Path) -> dict[str, Element]:
    page = html5lib.parse((folder / "licences.html").read_text("utf-8"), namespaceHTMLElements=False)
    tables = [table for table in page.iter("table") if "trade-table" in table.get("class", "")]
    found = [row for table in tables for body in table.iter("tbody") for row in body.iter("tr")]
    named = {words(row.find("th")): row for row in found}
    assert len(named) == len(found)
    return named


def words(part: Element) -> str:
    return " ".join("".join(part.itertext()).split())


def listed(key: str) -> set[str]:
    return {piece[key] for piece in DATA if key in piece}


@pytest.fixture(params=EDITIONS)
def edition(request: pytest.FixtureRequest) -> Path:
    return request.getfixturevalue(request.param)


def test_both_editions_show_every_piece_with_version_licence_and_text(edition: Path) -> None:
    shown = rows(edition)
    assert set(shown) == {piece["name"] for piece in DATA}
    for piece in DATA:
        licence, version, does = shown[piece["name"]].findall("td")
        assert words(licence).startswith(piece["licence"])
        assert words(does) == piece["does"]
        assert words(version)
        text = (edition / unquote(licence.find("a").get("href"))).read_text("utf-8")
        for part in re.split(" OR | WITH ", piece["licence"]):
            assert TELLTALES[part] in " ".join(text.split()), f"{piece['name']}: {part}"


def test_every_page_leads_to_it(edition: Path) -> None:
    for page in edition.glob("*.html"):
        assert 'href="licences.html"' in page.read_text("utf-8"), page.name


def test_no_text_lies_there_that_no_piece_has(edition: Path) -> None:
    linked = {unquote(row.find("td/a").get("href")) for row in rows(edition).values()}
    assert {file.relative_to(edition).as_posix() for file in (edition / "licences").iterdir()} == linked
    used = {name for piece in DATA for name in piece.get("texts", ())}
    assert {file.name for file in (ROOT / "shared/pages/licences").iterdir()} == used


def test_a_version_is_the_locked_one(site: Path) -> None:
    """Read here from the lock files themselves, where the page reads what is installed."""
    lock = (ROOT / "requirements.txt").read_text()
    npm = json.loads((ROOT / "package-lock.json").read_text())["packages"]
    shown = rows(site)
    for piece in DATA:
        version = words(shown[piece["name"]].findall("td")[1])
        if "pip" in piece:
            assert re.search(rf"^{re.escape(piece['pip'])}=={re.escape(version)} ", lock, re.M), piece["name"]
        elif "npm" in piece:
            assert npm[f"node_modules/{piece['npm']}"]["version"] == version
        elif "inside" in piece:
            assert version == f"with {piece['inside']}"
            assert piece["inside"] in shown
        else:
            assert re.fullmatch(r"\d+(\.\d+)+", version)


def test_a_licence_is_the_one_that_the_package_names() -> None:
    for piece in DATA:
        if "pip" in piece and (said := metadata.metadata(piece["pip"]).get("License-Expression")):
            assert said == piece["licence"], piece["name"]
        if "npm" in piece:
            about = json.loads((ROOT / "node_modules" / piece["npm"] / "package.json").read_text("utf-8"))
            assert about["license"] == piece["licence"], piece["name"]


def test_the_packages_in_the_engine_are_those_that_are_listed(site: Path) -> None:
    """Found in the engine itself: whom each of its files belongs to, as pip has it."""
    files = archives.listed(payload.read_part(ROOT / "build/engine", "packages"))
    owners = metadata.packages_distributions()
    tops = {name.partition("/")[0].removesuffix(".pyc") for name in files if not name.split("/")[0].endswith("-info")}
    others = tops - {"calc", "shared", "engine_door"}
    found = {canonicalize_name(owner) for top in others for owner in owners[top]}
    assert found == {piece["pip"] for piece in DATA if piece["on"] == "engine" and "pip" in piece}


def test_what_the_themes_scripts_and_styles_are_made_of_is_listed(site: Path) -> None:
    """Found in the maps that the theme's makers give with each file that ships."""
    theme = Path(str(metadata.distribution("mkdocs-material").locate_file("material/templates/assets")))
    made_of: set[str] = set()
    shipped = [file for file in (site / "assets").rglob("*") if re.search(r"\.min\.(?:js|css)$", file.name)]
    assert len(shipped) >= 4
    for file in shipped:
        sources = json.loads((theme / file.relative_to(site / "assets")).with_suffix(f"{file.suffix}.map").read_text())
        for source in sources["sources"]:
            made_of |= set(re.findall(r".*node_modules/((?:@[^/]+/)?[^/]+)/", source))
    assert made_of == listed("map")


def test_the_icons_in_pages_and_styles_are_of_the_sets_that_are_listed(site: Path) -> None:
    """Every outline that one of the theme's sets of icons has too, and no other's."""
    icons = Path(str(metadata.distribution("mkdocs-material").locate_file("material/templates/.icons")))
    drawn = {
        outline
        for file in (*site.glob("*.html"), *(site / "assets").rglob("*.css"), *(site / "assets").glob("*.svg"))
        for outline in re.findall(r"""\bd=["']([^"']{12,})["']""", file.read_text("utf-8"))
    }
    found: dict[str, set[str]] = {}
    for file in icons.rglob("*.svg"):
        for outline in re.findall(r'\bd="([^"]{12,})"', file.read_text("utf-8")):
            if outline in drawn:
                found.setdefault(outline, set()).add(file.relative_to(icons).parts[0])
    assert len(found) > 20
    sets = listed("icons")
    assert all(owners & sets for owners in found.values())
    assert {owner for owners in found.values() if len(owners) == 1 for owner in owners} == sets


def test_what_is_compiled_into_pyodide_is_there() -> None:
    wasm = (ROOT / "node_modules/pyodide/pyodide.asm.wasm").read_bytes()
    glue = (ROOT / "node_modules/pyodide/pyodide.asm.js").read_bytes()
    for piece in DATA:
        if "seen" in piece:
            assert piece["seen"].encode() in wasm + glue, piece["name"]


def test_what_pyodides_own_script_takes_from_others_is_listed() -> None:
    sources = json.loads((ROOT / "node_modules/pyodide/pyodide.js.map").read_text("utf-8"))["sources"]
    vendored = {Path(source).stem for source in sources if "/vendor/" in source or "node_modules" in source}
    assert vendored == {"stackframe", "error-stack-parser"} <= {piece["name"] for piece in DATA}


def test_a_table_taken_from_others_under_a_licence_is_listed() -> None:
    """The tables name such a source as "… of NAME VERSION (LICENCE)"."""
    taken = {
        found
        for file in (ROOT / "shared/tables").glob("*.csv")
        for found in re.findall(r"of ([\w-]+) ([\d.]+) \(([A-Z][\w.]*-[\w.-]+)\)", file.read_text("utf-8"))
    }
    assert taken == {
        (piece.name, piece.version, piece.licence)
        for piece in pieces()
        if piece.name in {entry["name"] for entry in DATA if "table" in entry}
    }
    assert taken


def test_every_npm_package_that_ships_is_listed() -> None:
    assert listed("npm") == set(json.loads((ROOT / "package.json").read_text())["dependencies"])


def test_every_file_of_the_site_is_ours_or_of_a_listed_piece(site: Path) -> None:
    """A file from anywhere else needs a piece first, and then its place here."""
    ours = {file.relative_to(ROOT / "docs").as_posix() for file in (ROOT / "docs").rglob("*") if file.is_file()}
    made = {"assets/calculator-pages.js", "checksums.txt", "search/search_index.js", "search/search_index.json"}
    others = r"""assets/engine/[a-z]+(\.\d\.[0-9a-f]{12})?\.js   # Pyodide and the packages in it
        | assets/qr/code\.js                                  # qrcode-generator
        | assets/(images|javascripts|stylesheets)/.*          # the theme
        | licences/[a-z0-9-]+\.txt"""
    for file in site.rglob("*"):
        name = file.relative_to(site).as_posix()
        if file.is_file() and name not in ours | made and f"{name.removesuffix('.html')}.md" not in ours:
            assert re.fullmatch(others, name, re.X), name
