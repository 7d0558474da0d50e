"""Names that a stick cannot hold are found: the rules of exFAT and of Windows, as Microsoft publishes them."""

import pytest

from build_tools.stick import checksums, names


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("a:b.html", "':'"),  # exFAT specification, 7.7.3, table of invalid characters
        ("what?.html", "'?'"),
        ("assets/a\x1fb", "cannot stand"),
        ("assets./x.html", "end in a dot"),  # "Naming Files, Paths, and Namespaces"
        ("lever .html/ ", "end in a dot or a space"),
        ("con.html", "for a device"),
        ("assets/LPT1", "for a device"),
        ("a" * 256, "255"),
        ("a/" * 101 + "b", "200"),
    ],
)
def test_a_name_that_no_stick_holds_is_named(path: str, words: str) -> None:
    assert any(words in problem for problem in names.problems([path]))


@pytest.mark.parametrize(
    "pair", [("Lever.html", "lever.html"), ("Assets/a.js", "assets/b.js"), ("é.html", "e\u0301.html")]
)
def test_two_names_that_are_one_on_a_stick_are_named(pair: tuple[str, str]) -> None:
    assert any("the same name" in problem for problem in names.problems(pair))


def test_ordinary_names_are_fine() -> None:
    assert names.problems(["index.html", "assets/code.14a1.js", "é/open me.html", "a" * 199, "console.js"]) == []


def test_every_name_of_both_editions_fits_on_a_stick(site, class_site) -> None:
    for folder in (site, class_site):
        assert names.problems(checksums.files_below(folder)) == []
