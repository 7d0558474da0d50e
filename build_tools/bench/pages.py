"""The sites that are compared, laid side by side in one folder for one server.

`site` is a copy of the built site. `ordinary` is the same with its engine exchanged for the one that Pyodide's
documentation describes. `foreign` is ours with a memory snapshot that was made for other files, so that Python has to
start the ordinary way. Once they are watched, each one's engine.js begins with `watch.js`, which takes the times, and
there is a page more, CROWDED, which has on it what the site spreads over four.
"""

import json
import re
import shutil
from dataclasses import dataclass
from pathlib import Path

from build_tools.engine import archives, contents, payload

ORDINARY_ENGINE = Path(__file__).with_name("ordinary_engine.js")
WATCH = Path(__file__).with_name("watch.js")
PYODIDE_FILES = ("pyodide.js", "pyodide.asm.js", "pyodide.asm.wasm", "pyodide-lock.json", "python_stdlib.zip")
CROWDED = "crowded.html"
ON_IT = ("inclined-plane.html", "more-ramps.html", "practice.html", "planner.html")
"""What stands one below the other on the crowded page: several calculators, practice problems, the planner."""
ARTICLE = re.compile(r"<article[^>]*md-content__inner[^>]*>(.*)</article>", re.DOTALL)
LOADED = re.compile(r'<script src="[^"]+"[^>]*></script>|<link rel="stylesheet" href="[^"]+"[^>]*>')
ENGINE_TAGS = re.compile(r'(<script src="([^"]*)assets/engine\.js[^"]*"></script>)')


@dataclass(frozen=True)
class Sites:
    """Folders of the three sites; all lie in `folder`, which is what a server serves."""

    folder: Path

    @property
    def ours(self) -> Path:
        """A copy of the site."""
        return self.folder / "site"

    @property
    def ordinary(self) -> Path:
        """The baseline."""
        return self.folder / "ordinary"

    @property
    def foreign(self) -> Path:
        """Ours, with a snapshot that does not fit."""
        return self.folder / "foreign"


def lay_out(root: Path, folder: Path) -> Sites:
    """Write the three sites into `folder`, which is emptied first; the project in `root` must have been built."""
    shutil.rmtree(folder, ignore_errors=True)
    sites = Sites(folder)
    shutil.copytree(root / "site", sites.ours)
    shutil.copytree(sites.ours, sites.foreign)
    exchange_snapshot(sites.foreign / "assets" / "engine")
    shutil.copytree(sites.ours, sites.ordinary, ignore=shutil.ignore_patterns("engine"))
    exchange_engine(root, sites.ordinary)
    return sites


def watch(sites: Sites) -> None:
    """Make each page take its times, and add the crowded one; from now on the sites weigh more than they did."""
    for site in (sites.ours, sites.foreign, sites.ordinary):
        crowd(site)
        engine = site / "assets" / "engine.js"
        engine.write_text(f"{WATCH.read_text('utf-8')}\n{engine.read_text('utf-8')}", "utf-8")


def exchange_engine(root: Path, site: Path) -> None:
    """Make a copy of the site ask an ordinary Pyodide, with the same packages as wheels from the same place."""
    own_folder = site / "assets" / "pyodide"
    own_folder.mkdir()
    for name in PYODIDE_FILES:
        shutil.copyfile(root / "node_modules" / "pyodide" / name, own_folder / name)
    wheels = []
    for bundle in (contents.own_bundle(root, {}), *contents.library_bundles(root)):
        wheels.append(archives.wheel_name(bundle))
        (own_folder / wheels[-1]).write_bytes(archives.wheel(bundle))
    source = ORDINARY_ENGINE.read_text(encoding="utf-8")
    script = f"const ordinaryWheels = {json.dumps(wheels)};\n{source}"
    (site / "assets" / "engine.js").write_text(script, encoding="utf-8")
    for page in site.rglob("*.html"):
        html = page.read_text(encoding="utf-8")
        page.write_text(ENGINE_TAGS.sub(_with_pyodide, html), encoding="utf-8")


def exchange_snapshot(engine: Path) -> None:
    """Put into an engine's folder a snapshot that says it was made for other files than these."""
    files = archives.listed(payload.read_part(engine, "snapshot"))
    about = json.loads(files["about.json"]) | {"madeFor": "others"}
    payload.exchange_part(engine, "snapshot", archives.file_list(files | {"about.json": json.dumps(about).encode()}))


def crowd(site: Path) -> None:
    """Add the crowded page: its first page, with what stands on the others, and the scripts and styles for that."""
    first, *others = ((site / name).read_text(encoding="utf-8") for name in ON_IT)
    head, body, foot = _parted(first)
    for other in others:
        body += _parted(other)[1]
        foot += "".join(tag for tag in LOADED.findall(other) if tag not in head + foot)
    (site / CROWDED).write_text(head + body + foot, encoding="utf-8")


def _parted(html: str) -> tuple[str, str, str]:
    article = ARTICLE.search(html)
    if not article:
        raise ValueError("This page of the site has no article.")
    return html[: article.start(1)], article[1], html[article.end(1) :]


def calculators_on(page: Path) -> list[str]:
    """The keys of the calculators on a page of the site."""
    return re.findall(r'<calculator-sheet key="([^"]+)"', page.read_text(encoding="utf-8"))


def _with_pyodide(tags: re.Match[str]) -> str:
    return f'<script src="{tags[2]}assets/pyodide/pyodide.js"></script>\n  {tags[1]}'
