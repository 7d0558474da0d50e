"""What a page weighs, and the engine, and the whole site: bytes as they lie there, unpacked."""

import importlib.util
import re
from dataclasses import dataclass
from pathlib import Path

from build_tools.bench.pages import PYODIDE_FILES, Sites

CODE = re.compile(r'CODE = "([A-Za-z0-9+/=]*)"')
"""The engine's code, which travels in the page's own script."""
NEEDED_BY_PAGE = re.compile(r'<(?:script[^>]*\bsrc|link[^>]*\brel="stylesheet"[^>]*\bhref)="([^"]+)"')


@dataclass(frozen=True)
class Weights:
    """Bytes of our heaviest page, of the parts of our engine, of the ordinary one, of our site and the ordinary one."""

    page: int
    parts: dict[str, int]
    ordinary_engine: int
    site: int
    ordinary_site: int


def weigh(sites: Sites) -> Weights:
    """What the sites of a run weigh."""
    ours, ordinary = sites.ours, sites.ordinary
    return Weights(heaviest_page(ours), engine_parts(ours), ordinary_engine(ordinary), whole(ours), whole(ordinary))


def heaviest_page(site: Path) -> int:
    """Bytes of the heaviest page before its engine: HTML and the style sheets and scripts it names, but the theme's."""
    return max(page_weight(page) for page in site.rglob("*.html"))


def page_weight(page: Path) -> int:
    """Bytes of one page and of what it names that is not a file of the theme."""
    html = page.read_bytes()
    named: set[Path] = {
        (page.parent / name.partition("?")[0]).resolve() for name in NEEDED_BY_PAGE.findall(html.decode("utf-8"))
    }
    ours = [file.stat().st_size - _code_in(file) for file in named if not _is_the_themes(file)]
    return len(html) + sum(ours)


def engine_parts(site: Path) -> dict[str, int]:
    """Bytes of each part of the engine, by its name: the code in the page's script, the others a file each."""
    scripts = sorted((site / "assets" / "engine").glob("*.js"))
    sizes = {script.name.partition(".")[0]: script.stat().st_size for script in scripts}
    return {"code": _code_in(site / "assets" / "engine.js"), **sizes}


def ordinary_engine(site: Path) -> int:
    """Bytes that the ordinary page loads before its first answer: Pyodide's files and the wheels."""
    folder = site / "assets" / "pyodide"
    loaded = [folder / name for name in PYODIDE_FILES]
    return sum(file.stat().st_size for file in (*loaded, *folder.glob("*.whl")))


def whole(folder: Path) -> int:
    """Bytes of all files in a folder."""
    return sum(file.stat().st_size for file in folder.rglob("*") if file.is_file())


def _code_in(script: Path) -> int:
    if script.name != "engine.js" or not script.exists():
        return 0
    found = CODE.search(script.read_text(encoding="utf-8"))
    return len(found[1]) if found else 0


def _is_the_themes(file: Path) -> bool:
    """Whether the theme's package brings a file of this very name: its names carry a digest of their content."""
    spec = importlib.util.find_spec("material")
    if spec is None or spec.origin is None:
        return False
    return any((Path(spec.origin).parent / "templates").rglob(file.name))
