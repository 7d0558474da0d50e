"""The set-up itself runs on any Python from 3.9 on, with nothing installed."""

import ast
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def reached_from(module: str) -> set[str]:
    """The project's modules that get imported before anything is installed."""
    reached, waiting = set(), [module]
    while waiting:
        name = waiting.pop()
        if name in reached:
            continue
        reached.add(name)
        waiting += [other for other in imported(tree_of(name)) if file_of(other).exists()]
    return reached


def file_of(module: str) -> Path:
    return ROOT / (module.replace(".", "/") + ".py")


def tree_of(module: str) -> ast.Module:
    return ast.parse(file_of(module).read_text(), feature_version=(3, 9))


def imported(tree: ast.Module) -> set[str]:
    names = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            names.add(node.module)
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


SET_UP = sorted(reached_from("build_tools.__main__"))


def test_the_set_up_is_what_it_is_thought_to_be():
    assert {"build_tools.bootstrap", "build_tools.python_finder", "build_tools.environment"} <= set(SET_UP)
    assert "build_tools.commands.__main__" not in SET_UP


@pytest.mark.parametrize("module", SET_UP)
def test_it_is_written_in_the_syntax_of_python_3_9(module):
    tree = tree_of(module)
    unions = [node for node in ast.walk(tree) if isinstance(node, ast.BinOp) and isinstance(node.op, ast.BitOr)]
    postponed = "__future__.annotations" in imported(tree)
    assert not unions or postponed
    assert not any(isinstance(node, ast.Match) for node in ast.walk(tree))


@pytest.mark.parametrize("module", SET_UP)
def test_it_imports_nothing_but_the_standard_library_and_itself(module):
    first_names = {name.partition(".")[0] for name in imported(tree_of(module))}
    assert first_names <= {*sys.stdlib_module_names, "build_tools"}
    assert not first_names & {"tomllib", "distutils", "imp"}, "not in every Python from 3.9 on"
