"""Finds Firefox and WebKit for the tests, or installs them as the platform allows."""

from __future__ import annotations

import glob
import os
import shutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from build_tools import system_packages
from build_tools.missing import Missing
from build_tools.one_at_a_time import one_at_a_time
from build_tools.proof import answer_of

FIREFOX_PLACES = (
    "/Applications/Firefox.app/Contents/MacOS/firefox",
    r"C:\Program Files\Mozilla Firefox\firefox.exe",
)
MINI_BROWSERS = ("/usr/lib/*/webkit2gtk-4*/MiniBrowser", "/usr/libexec/webkit2gtk-4*/MiniBrowser")
FIREFOX_PACKAGES = ["firefox-esr"]
WEBKIT_PACKAGES = ["webkit2gtk-driver", "xvfb"]


@dataclass(frozen=True)
class WebKit:
    """The programs that driving WebKit takes: its driver, its small browser, and a screen that nobody sees."""

    driver: str
    browser: str
    screen: str


def find_firefox(env: Mapping[str, str] = os.environ) -> str | None:
    """The first Firefox that answers, or None."""
    path = env.get("PATH", "")
    places = [shutil.which(name, path=path) for name in ("firefox-esr", "firefox")]
    if path:
        places += [place for place in FIREFOX_PLACES if os.access(place, os.X_OK)]
    return next((place for place in places if place and answer_of([place, "--version"], seconds=30)), None)


def find_webkit(env: Mapping[str, str] = os.environ) -> WebKit | None:
    """WebKit for GTK with its driver, or None when a part is missing."""
    path = env.get("PATH", "")
    driver, screen = shutil.which("WebKitWebDriver", path=path), shutil.which("Xvfb", path=path)
    browsers = [found for pattern in MINI_BROWSERS for found in sorted(glob.glob(pattern), reverse=True)]
    return WebKit(driver, browsers[0], screen) if driver and screen and browsers else None


def firefox(root: Path) -> str:
    """A Firefox, installed first if there is none. Raises Missing when that cannot be done here."""
    return _found_or_installed(root, "Firefox", find_firefox, FIREFOX_PACKAGES)


def webkit(root: Path) -> WebKit:
    """WebKit and what drives it, installed first if a part is missing. Raises Missing when that cannot be done here."""
    return _found_or_installed(root, "WebKit", find_webkit, WEBKIT_PACKAGES)


def _found_or_installed[T](root: Path, name: str, find: Callable[[], T | None], packages: list[str]) -> T:
    found = find()
    if found is None:
        with one_at_a_time(root / "build" / "browsers.lock"):
            found = find()
            if found is None and system_packages.install(f"{name} for the browser tests", packages):
                found = find()
    if found is None:
        command = f"sudo apt-get update && sudo apt-get install {' '.join(packages)}"
        raise Missing(
            f"Tests in {name} need it with what drives it, and that was not found here. On Debian:", [command]
        )
    return found
