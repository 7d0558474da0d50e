"""What goes into the engine: calc, its data, and the installed packages that it imports."""

import ast
import sys
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import metadata
from pathlib import Path, PurePosixPath

from packaging.requirements import Requirement

OWN_FOLDERS = ("calc", "shared")
"""Folders of the project that calc needs at run time, side by side as they are in the project."""

NOT_SHIPPED_FOLDERS = frozenset({"__pycache__", "checks", "pages", "tests", "testsuite", "testing"})
NOT_SHIPPED_FILES = frozenset({"shop_objects.toml"})
"""Data that only the builder of the pages reads, as all in shared/pages/."""
NOT_SHIPPED_ENDINGS = frozenset({".pyc", ".pyi", ".typed", ".so", ".pyd"})

LEFT_OUT = Path(__file__).with_name("library_left_out.txt")

STAND_INS = Path(__file__).with_name("stand_ins")
"""Modules of a few lines, each in the place of a large one of Python or Pyodide that is imported and never used."""

KEPT_ENCODINGS = ("__init__", "aliases", "ascii", "charmap", "cp437", "idna", "latin_1", "punycode")
"""The page gives text, never bytes: of the library's encodings these, and Unicode's own, may be asked for."""
UNICODES_OWN = ("utf_", "unicode_", "raw_unicode_")


@dataclass(frozen=True)
class Bundle:
    """One package of the engine.

    name, version: as a wheel is named.
    files: path inside site-packages -> content.
    """

    name: str
    version: str
    files: dict[str, bytes]


def own_bundle(root: Path, extra: dict[str, bytes]) -> Bundle:
    """Return calc with shared/ beside it, and `extra` files (path -> content), as one bundle."""
    files = dict(extra)
    for folder in OWN_FOLDERS:
        for path in sorted((root / folder).rglob("*")):
            inside = PurePosixPath(path.relative_to(root).as_posix())
            if path.is_file() and _is_shipped(inside):
                files[str(inside)] = path.read_bytes()
    return Bundle("calc", "0", files)


def library_bundles(root: Path) -> tuple[Bundle, ...]:
    """Return the installed packages that calc imports, with what these need in turn, by name."""
    imported = _imported_names(root / "calc") - {"calc", "shared"} - sys.stdlib_module_names
    owners = metadata.packages_distributions()
    first = {name for module in imported for name in owners.get(module, ())}
    return tuple(_bundle(dist) for dist in _with_requirements(first))


def is_needed_of_the_library(name: str) -> bool:
    """Whether a file of Python's standard library, by its path inside it, goes into the engine."""
    top, _, rest = name.partition("/")
    if top == "encodings":
        return rest.startswith(UNICODES_OWN) or rest.removesuffix(".py") in KEPT_ENCODINGS
    return top.removesuffix(".py") not in _left_out()


def with_stand_ins(library: Mapping[str, bytes]) -> dict[str, bytes]:
    """Return Python's standard library (path -> content) with the stand-ins in the places of what they stand for."""
    ours = {path.relative_to(STAND_INS).as_posix(): path.read_bytes() for path in sorted(STAND_INS.rglob("*.py"))}
    replaced = tuple(name.removesuffix(".py") + end for name in ours for end in (".py", "/"))
    return {name: content for name, content in library.items() if not name.startswith(replaced)} | ours


@cache
def _left_out() -> frozenset[str]:
    lines = LEFT_OUT.read_text("utf-8").splitlines()
    return frozenset(name for line in lines if not line.startswith("#") for name in line.split())


def _imported_names(folder: Path) -> set[str]:
    names: set[str] = set()
    for path in folder.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_bytes())):
            if isinstance(node, ast.Import):
                names.update(alias.name.partition(".")[0] for alias in node.names)
            elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                names.add(node.module.partition(".")[0])
    return names


def _with_requirements(names: Iterable[str]) -> tuple[metadata.Distribution, ...]:
    found: dict[str, metadata.Distribution] = {}
    wanted = sorted(names)
    while wanted:
        dist = metadata.distribution(wanted.pop())
        key = dist.metadata["Name"].lower().replace("-", "_")
        if key in found:
            continue
        found[key] = dist
        for line in dist.requires or ():
            requirement = Requirement(line)
            if requirement.marker is None or requirement.marker.evaluate({"extra": ""}):
                wanted.append(requirement.name)
    return tuple(found[key] for key in sorted(found))


def _bundle(dist: metadata.Distribution) -> Bundle:
    return Bundle(dist.metadata["Name"], dist.version, dict(_installed_files(dist)))


def _installed_files(dist: metadata.Distribution) -> Iterator[tuple[str, bytes]]:
    for path in dist.files or ():
        if ".." in path.parts or not _is_shipped(path):
            continue
        content = path.read_binary()
        if path.parts[0].endswith(".dist-info") and "licen" not in str(path).lower():
            continue  # only the licence text has to travel with the code
        yield path.as_posix(), content


def _is_shipped(path: PurePosixPath) -> bool:
    hidden = any(part.startswith(".") for part in path.parts)
    if hidden or path.name in NOT_SHIPPED_FILES:
        return False
    return NOT_SHIPPED_FOLDERS.isdisjoint(path.parts) and path.suffix not in NOT_SHIPPED_ENDINGS
