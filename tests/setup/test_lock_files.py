"""What is installed is fixed to the byte, and comes from wherever the machine is set up to fetch it."""

import ast
import json
import re
from importlib import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from build_tools import node_finder

PINNED = re.compile(r"^([a-z0-9][a-z0-9.-]*)==(\S+)(?: ; .*?)? \\$")
LOCKS = ["requirements.txt", "requirements-test.txt", "requirements-node.txt", "requirements-mutation.txt"]


def pins(lock: Path) -> dict[str, str]:
    return dict(match.groups() for line in lock.read_text().splitlines() if (match := PINNED.match(line)))


def asked_for(wishes: Path) -> list[Requirement]:
    lines = [line.strip() for line in wishes.read_text().splitlines()]
    return [Requirement(line) for line in lines if line and not line.startswith(("#", "-"))]


@pytest.mark.parametrize("name", LOCKS)
def test_every_line_is_a_pin_or_one_of_its_hashes(root, name):
    lines = (root / name).read_text().splitlines()
    for line, following in zip(lines, [*lines[1:], ""], strict=True):
        assert PINNED.match(line) or re.fullmatch(r"    --hash=sha256:[0-9a-f]{64}( \\)?", line), line
        assert following.startswith("    --hash=") == line.endswith("\\"), line


@pytest.mark.parametrize("name", [*LOCKS, "package-lock.json", "package.json", ".npmrc"])
def test_no_lock_file_names_a_place_on_the_network(root, name):
    text = (root / name).read_text()
    assert "://" not in text
    assert not re.search(r"index-url|find-links|registry=|\"resolved\"", text)


@pytest.mark.parametrize("name", LOCKS)
def test_every_package_asked_for_is_pinned_within_its_bounds(root, name):
    pinned = pins(root / name)
    for wish in asked_for((root / name).with_suffix(".in")):
        assert wish.specifier.contains(pinned[canonicalize_name(wish.name)]), wish


def test_what_is_tested_is_what_is_built_with(root):
    build, test = pins(root / "requirements.txt"), pins(root / "requirements-test.txt")
    assert {name: test.get(name) for name in build} == build


def test_the_npm_packages_are_pinned_exactly_and_checked_by_hash(root):
    wishes = json.loads((root / "package.json").read_text())
    locked = json.loads((root / "package-lock.json").read_text())["packages"]
    for name, version in (wishes["dependencies"] | wishes["devDependencies"]).items():
        assert locked[f"node_modules/{name}"]["version"] == version
    assert all(about["integrity"].startswith("sha512-") for place, about in locked.items() if place)


def test_the_oldest_node_is_the_same_in_package_json_and_in_the_finder(root):
    assert json.loads((root / "package.json").read_text())["engines"]["node"] == f">={node_finder.OLDEST_NODE}"


def test_npm_is_told_to_leave_addresses_out_of_its_lock_file(root):
    assert "omit-lockfile-registry-resolved=true" in (root / ".npmrc").read_text().splitlines()


# The bench drives a browser, so it runs with what the tests need.
@pytest.mark.parametrize(
    ("wishes", "folders"),
    [("requirements.in", ["calc", "build_tools"]), ("requirements-test.in", ["tests", "build_tools/bench"])],
)
def test_every_package_imported_is_asked_for_by_name(root, wishes, folders):
    asked = {canonicalize_name(wish.name) for wish in asked_for(root / "requirements.in")}
    asked |= {canonicalize_name(wish.name) for wish in asked_for(root / wishes)}
    owners = metadata.packages_distributions()
    files = [file for folder in folders for file in (root / folder).rglob("*.py")]
    if wishes == "requirements.in":
        files = [file for file in files if "bench" not in file.relative_to(root).parts]
    for file in files:
        for module in imported(ast.parse(file.read_bytes())) & owners.keys():
            assert {canonicalize_name(owner) for owner in owners[module]} & asked, f"{file} imports {module}"


def imported(tree: ast.Module) -> set[str]:
    names = [alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names]
    names += [node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module]
    return {name.partition(".")[0] for name in names}
