"""Finds a Chromium for the tests, or installs one as the platform allows."""

import glob
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

from build_tools import system_packages
from build_tools.missing import Missing
from build_tools.one_at_a_time import one_at_a_time
from build_tools.proof import answer_of

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "microsoft-edge", "msedge")
"""Names it goes by on PATH."""

LAUNCH = ("--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking")
"""Switches to start it with: it must run as root in a container, and look nothing up by itself."""


def find(env: Mapping[str, str] = os.environ) -> str | None:
    """The first Chromium that answers, or None."""
    return next((path for path in places(env) if _answers(path)), None)


def find_or_install(root: Path) -> str:
    """A Chromium, installed first if there is none. Raises Missing when that cannot be done here."""
    found = find()
    if found is None:
        with one_at_a_time(root / "build" / "chromium.lock"):
            found = find() or _installed()
    if found is None:
        raise Missing("The browser tests need Chromium, and none was found on this machine.", _commands())
    return found


def places(env: Mapping[str, str]) -> Iterator[str]:
    """Files that may be a Chromium: PATH, the usual places, Playwright's own folders."""
    named = env.get("PLAYWRIGHT_CHROMIUM_EXECUTABLE_PATH")
    if named:
        yield named
    for name in NAMES:
        on_path = shutil.which(name, path=env.get("PATH", ""))
        if on_path:
            yield on_path
    for pattern in _patterns(env):
        yield from sorted(glob.glob(pattern), reverse=True)


def _patterns(env: Mapping[str, str]) -> Iterator[str]:
    home = env.get("HOME", "")
    local = env.get("LOCALAPPDATA", "")
    for name in ("Chromium", "Google Chrome", "Microsoft Edge"):
        for folder in ("/Applications", os.path.join(home, "Applications")):
            yield f"{folder}/{name}.app/Contents/MacOS/{name}"
    for folder in filter(None, (env.get("PROGRAMFILES"), env.get("PROGRAMFILES(X86)"), local)):
        yield os.path.join(folder, "Chromium", "Application", "chrome.exe")
        yield os.path.join(folder, "Google", "Chrome", "Application", "chrome.exe")
        yield os.path.join(folder, "Microsoft", "Edge", "Application", "msedge.exe")
    playwright = (
        env.get("PLAYWRIGHT_BROWSERS_PATH"),
        os.path.join(home, ".cache", "ms-playwright"),
        os.path.join(home, "Library", "Caches", "ms-playwright"),
        os.path.join(local, "ms-playwright"),
    )
    for folder in filter(None, playwright):
        yield os.path.join(folder, "chromium-*", "chrome-linux*", "chrome")
        yield os.path.join(folder, "chromium-*", "chrome-win*", "chrome.exe")
        yield os.path.join(folder, "chromium-*", "chrome-mac*", "*.app", "Contents", "MacOS", "*")


def _answers(path: str) -> bool:
    if not os.access(path, os.X_OK):
        return False
    # Chrome for Windows opens a window when asked for its version.
    return os.name == "nt" or bool(answer_of([path, "--version"], seconds=20))


def _installed() -> str | None:
    """Installs one by the system's packages where this process may, else by Playwright; None if neither works."""
    if system_packages.install("Chromium for the browser tests", ["chromium"]):
        found = find()
        if found:
            return found
    subprocess.call([sys.executable, "-m", "playwright", "install", "chromium"], stdin=subprocess.DEVNULL)
    return find()


def _commands() -> list[str]:
    if os.name == "nt":
        return ["winget install Google.Chrome"]
    if sys.platform == "darwin":
        return ["brew install --cask chromium"]
    if os.path.exists("/etc/debian_version"):
        return ["sudo apt-get update && sudo apt-get install chromium"]
    return ["Install Chromium with the system's package manager, so that `chromium --version` answers."]
