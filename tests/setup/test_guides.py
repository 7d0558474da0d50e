"""What the guides say is so."""

import argparse
import re

import pytest

from build_tools import command_line
from build_tools.commands import terminal


def verbs() -> set[str]:
    choosers = [action for action in command_line.parser()._actions if isinstance(action, argparse._SubParsersAction)]
    return set(choosers[0].choices)


def test_the_job_comes_first_and_then_the_two_commands(root):
    named = re.findall(r"python3 -m build_tools (\w+)", (root / "README.md").read_text())
    assert named[:2] == ["site", "serve"] or named[:2] == ["site", "test"]
    assert "test" in named[:3]


@pytest.mark.parametrize("guide", ["README.md", "DEVELOPERS.md"])
def test_every_verb_is_explained_and_no_other(root, guide):
    assert set(re.findall(r"python3 -m build_tools (\w+)", (root / guide).read_text())) == verbs()


@pytest.mark.parametrize("guide", ["README.md", "DEVELOPERS.md"])
def test_every_file_that_is_named_is_there(root, guide):
    made = {".venv", "node_modules", "build", "site", "site-class", "checksums.txt", "stick.txt"}
    for name in re.findall(r"`([\w./-]+/[\w./-]*|[\w-]+\.(?:py|toml|yml|json|txt|in))`", (root / guide).read_text()):
        if name.split("/")[0] not in made:
            places = [root / name, root / "calc" / name]
            assert any(place.exists() for place in places), name


def test_every_package_is_explained(root):
    guide = (root / "DEVELOPERS.md").read_text()
    for wishes in root.glob("requirements*.in"):
        for name in re.findall(r"^([A-Za-z][\w-]*)", wishes.read_text(), re.M):
            assert re.search(rf"\b{re.escape(name)}\b", guide), name


def test_the_example_of_the_terminal_prints_what_the_guide_says(root, capsys):
    example = re.search(r"\$ python3 -m build_tools (calc .*)\n((?:.+\n)+)```", (root / "README.md").read_text())
    arguments = [word.replace('"', "") for word in re.findall(r'(?:[^\s"]|"[^"]*")+', example[1])]
    said = command_line.parse(arguments)
    terminal.run(said.key, said.given, find=said.find, units=said.units, as_json=said.json)
    assert capsys.readouterr().out == example[2]
