"""The class edition holds no page for teachers, no text of one, and no link to one."""

from __future__ import annotations

import html
import re
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from build_tools import editions
from tests.page.pages import PAGES


def teachers(root: Path) -> set[str]:
    """Names of the pages for teachers, read here by the front matter's own line."""
    found = set()
    for file in (root / "docs").glob("*.md"):
        front = re.match(r"---\n(.*?)\n---\n", file.read_text("utf-8"), re.S)
        if front and re.search(r"^edition: teacher$", front[1], re.M):
            found.add(file.stem)
    return found


def lines(page: str) -> set[str]:
    """The words between tags in a page's main part, where there are enough of them to be told apart."""
    (main,) = re.findall(r"<main\b.*?</main>", page, re.S)
    main = re.sub(r'<nav class="book".*?</nav>', "", main, flags=re.S)
    found = {" ".join(html.unescape(text).split()) for text in re.split(r"<[^>]+>", main)}
    return {text for text in found if len(text) > 24 and not text.startswith("Version ")}


def test_the_pages_of_the_two_editions_differ_by_those_for_teachers(root: Path, site: Path, class_site: Path) -> None:
    mine, theirs = ({file.stem for file in folder.glob("*.html")} for folder in (site, class_site))
    assert mine == set(PAGES)
    assert {"exit-tickets", "changes", "week", "class-results"} <= teachers(root)
    assert mine - theirs == teachers(root)
    assert theirs <= mine


def test_no_text_of_a_page_for_teachers_is_anywhere_in_the_class_edition(
    root: Path, site: Path, class_site: Path
) -> None:
    """Keys, cards and notes alike: every line that no page for students has too is looked for in every file."""
    pages = {file.stem: lines(file.read_text("utf-8")) for file in site.glob("*.html")}
    students = " ".join(text for name, found in pages.items() if name not in teachers(root) for text in found)
    secret = {text for name in teachers(root) for text in pages[name] if text not in students}
    assert len(secret) > 50
    assert any(
        "The pivot nearer to the load, or the hand farther out." in text for text in secret
    )  # an answer to an exit ticket
    files = [file for file in class_site.rglob("*") if file.suffix in (".html", ".js", ".json", ".xml", ".txt")]
    texts = [html.unescape(file.read_text("utf-8")) for file in files if "/assets/engine/" not in file.as_posix()]
    together = " ".join(" ".join(re.sub(r"<[^>]+>", " ", text).split()) for text in texts)
    assert [text for text in sorted(secret) if text in together] == []


def test_no_link_of_the_class_edition_leads_nowhere_or_to_a_page_for_teachers(root: Path, class_site: Path) -> None:
    for page in class_site.glob("*.html"):
        for address in re.findall(r'\b(?:href|src)="([^"]*)"', page.read_text("utf-8")):
            path = unquote(urlsplit(html.unescape(address)).path)
            assert Path(path).stem not in teachers(root), f"{page.name}: {address}"
            assert not path or (class_site / path).is_file(), f"{page.name}: {address}"
    for name in teachers(root):
        assert f"{name}.html" not in (class_site / "search/search_index.json").read_text("utf-8")


def test_each_page_says_its_version_and_its_edition(root: Path, site: Path, class_site: Path) -> None:
    number, day = (root / "VERSION").read_text().split()
    year, _, date = day.partition("-")
    for folder, edition in ((site, "Teacher"), (class_site, "Class")):
        for page in folder.glob("*.html"):
            (said,) = re.findall(r'class="site-version">(.*?)</p>', page.read_text("utf-8"))
            assert said.startswith(f"Version {number}, {int(date[3:])} ")
            assert said.endswith(f" {year}. {edition} edition.")


def test_the_newest_version_of_the_list_of_changes_is_this_one(root: Path) -> None:
    heads = re.findall(r"^## (Version .*)$", (root / "docs/changes.md").read_text("utf-8"), re.M)
    assert heads[0] == editions.version(root).words


@pytest.mark.parametrize("text", ["1.0", "one 2026-01-31", "1.0 2026-13-01", ""])
def test_a_version_without_number_or_date_stops_the_build(tmp_path: Path, text: str) -> None:
    (tmp_path / "VERSION").write_text(text)
    with pytest.raises(ValueError, match=r"VERSION|month"):
        editions.version(tmp_path)


def test_a_front_matter_that_no_edition_follows_stops_the_build(tmp_path: Path) -> None:
    (tmp_path / "keys.md").write_text("---\nedition: teachers\n---\n# Keys\n")
    with pytest.raises(editions.EditionError, match=r"keys\.md.*'teachers'"):
        editions.for_teachers(tmp_path)


@pytest.mark.parametrize(
    ("page", "link", "leads"),
    [
        ("lever.html", "keys.html", True),
        ("lever.html", "./keys.html#top", True),
        ("a/lever.html", "../keys.html", True),
        ("a/lever.html", "keys.html", False),
        ("lever.html", "#keys", False),
    ],
)
def test_a_link_to_a_page_for_teachers_is_found(page: str, link: str, leads: bool) -> None:
    assert bool(editions.links_to(f'<p><a class="x" href="{link}">x</a></p>', page, {"keys.html"})) is leads


def test_a_part_of_the_navigation_that_is_empty_goes_with_its_pages() -> None:
    nav = [{"Home": "index.md"}, {"Teacher": [{"Keys": "keys.md"}]}, {"Work": [{"Keys": "keys.md"}, "lever.md"]}]
    assert editions.without(nav, {"keys.md"}) == [{"Home": "index.md"}, {"Work": ["lever.md"]}]
