"""How long building takes."""

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

from build_tools.site_builder import INPUTS

PACKAGES = "node_modules"
PAGES_MORE = 40
UP_TO_DATE = "up to date"
TRIES = 3


class BuildNotMeasured(Exception):
    """A build went wrong; the message is what it printed."""


def copy_project(root: Path, folder: Path) -> Path:
    """A copy of what the site is made from in `folder`, which is emptied first; nothing in it has been built."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    for name in (*INPUTS, PACKAGES):
        if (root / name).is_dir():
            shutil.copytree(root / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"), symlinks=True)
        else:
            shutil.copyfile(root / name, folder / name)
    return folder


def clean(project: Path) -> float:
    """Seconds of a build of a project that has not been built."""
    for made in ("build", "site"):
        shutil.rmtree(project / made, ignore_errors=True)
    return _seconds([sys.executable, "-m", "build_tools.commands", "site"], project)[0]


def unchanged(root: Path) -> float:
    """Seconds of `python3 -m build_tools site`, from the prompt to the prompt, when nothing has changed."""
    for _ in range(TRIES):
        seconds, printed = _seconds([sys.executable, "-m", "build_tools", "site"], root)
        if UP_TO_DATE in printed:
            return seconds
    raise BuildNotMeasured("The project keeps changing while it is being measured.")


def with_more_pages(project: Path, times: int) -> float:
    """Seconds that the pages of a copied project take to build, with PAGES_MORE pages more, so many times."""
    docs, settings = project / "docs", project / "mkdocs.yml"
    source = (docs / "any-machine.md").read_text(encoding="utf-8")
    before = settings.read_text(encoding="utf-8")
    names = [f"page-{number}.md" for number in range(PAGES_MORE * times)]
    for name in names:
        (docs / name).write_text(source, encoding="utf-8")
    settings.write_text(before + "".join(f"  - {name}: {name}\n" for name in names), encoding="utf-8")
    try:
        command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--clean", "--site-dir", str(project / "more")]
        return _seconds(command, project)[0]
    finally:
        settings.write_text(before, encoding="utf-8")
        for name in names:
            (docs / name).unlink()


def _seconds(command: list[str], folder: Path) -> tuple[float, str]:
    start = time.perf_counter()
    env = dict(os.environ, NO_MKDOCS_2_WARNING="1")
    done = subprocess.run(command, cwd=folder, env=env, capture_output=True, text=True, check=False)
    seconds = time.perf_counter() - start
    if done.returncode:
        raise BuildNotMeasured(f"{done.stdout}{done.stderr}".strip())
    return seconds, done.stdout
