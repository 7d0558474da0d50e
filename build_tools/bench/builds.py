"""How long building takes."""

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

from build_tools.site_builder import INPUTS

PACKAGES = "node_modules"
PAGES_MORE = 80
"""Twice as many make a site of 200 pages with more than 100 calculators."""
UP_TO_DATE = "up to date"
TRIES = 3
PAGE = "any-machine.md"
NEWS = "A line that was not there before."
LONGEST_SECONDS = 60


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
    source = (docs / PAGE).read_text(encoding="utf-8")
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


def while_serving(project: Path) -> float:
    """Seconds from saving a page of a built project until `serve` has put the new one in its place."""
    source, page = project / "docs" / PAGE, (project / "site" / PAGE).with_suffix(".html")
    command = [sys.executable, "-m", "build_tools.commands", "serve", "--port", "0"]
    before = source.read_text(encoding="utf-8")
    with subprocess.Popen(command, cwd=project, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as server:
        try:
            _wait_for_line("Serving", server)
            source.write_text(f"{before}\n\n{NEWS}\n", encoding="utf-8")
            start = time.perf_counter()
            while NEWS not in page.read_text(encoding="utf-8"):
                if time.perf_counter() - start > LONGEST_SECONDS:
                    raise BuildNotMeasured("The changed page was not served.")
                time.sleep(0.01)
            seconds = time.perf_counter() - start
            _wait_for_line("Built", server)
            return seconds
        finally:
            source.write_text(before, encoding="utf-8")
            server.terminate()


def _wait_for_line(begin: str, server: subprocess.Popen[str]) -> None:
    """Read what a server prints up to a line that begins so."""
    said = []
    for line in server.stdout or ():
        said.append(line)
        if line.startswith(begin):
            return
    raise BuildNotMeasured("".join(said).strip())


def _seconds(command: list[str], folder: Path) -> tuple[float, str]:
    start = time.perf_counter()
    env = dict(os.environ, NO_MKDOCS_2_WARNING="1")
    done = subprocess.run(command, cwd=folder, env=env, capture_output=True, text=True, check=False)
    seconds = time.perf_counter() - start
    if done.returncode:
        raise BuildNotMeasured(f"{done.stdout}{done.stderr}".strip())
    return seconds, done.stdout
