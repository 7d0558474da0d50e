"""Starts Firefox and WebKit, each in a fresh profile, and ends what it started."""

import os
import socket
import subprocess
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from build_tools import other_browsers
from build_tools.driving.webdriver import Http, Socket, Window

START_SECONDS = 120
SETTINGS = {
    "marionette.port": 0,  # any free one; it is written in the profile
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.homepage_override.mstone": "ignore",
    "datareporting.policy.dataSubmissionEnabled": False,
    "toolkit.telemetry.server": "",
    "app.update.disabledForTesting": True,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "extensions.update.enabled": False,
}
"""A profile that asks the reader nothing and looks nothing up by itself."""


@contextmanager
def firefox(program: str, profile: Path, settings: Mapping[str, Any] | None = None) -> Iterator[Window]:
    """A window of Firefox without a screen. settings: further ones, by their names in about:config."""
    lines = [f"user_pref({_js(name)}, {_js(value)});" for name, value in {**SETTINGS, **(settings or {})}.items()]
    (profile / "user.js").write_text("\n".join(lines), encoding="utf-8")
    port = profile / "MarionetteActivePort"
    command = [program, "--headless", "--no-remote", "--marionette", "--profile", str(profile)]
    with _running(command, dict(os.environ, HOME=str(profile), MOZ_CRASHREPORTER_DISABLE="1")):
        tell = _soon(lambda: Socket(int(port.read_text())))
        tell("NewSession", {"acceptInsecureCerts": False})
        yield Window(tell)
        tell.connection.close()


@contextmanager
def webkit(
    programs: other_browsers.WebKit, profile: Path, options: Sequence[str] = (), more: Mapping[str, str] | None = None
) -> Iterator[Window]:
    """A window of WebKit's own small browser on a screen that nobody sees.

    options: for its command line. more: environment variables for it.
    """
    reading, writing = os.pipe()
    screen = [programs.screen, "-displayfd", str(writing), "-screen", "0", "1366x900x24", "-nolisten", "tcp"]
    with _running(screen, dict(os.environ), pass_fds=(writing,)):
        os.close(writing)
        with os.fdopen(reading) as told:
            display = told.readline().strip()
        env = dict(
            os.environ,
            DISPLAY=f":{display}",
            HOME=str(profile),
            XDG_DATA_HOME=str(profile / "data"),
            XDG_CACHE_HOME=str(profile / "cache"),
            GDK_BACKEND="x11",
            LIBGL_ALWAYS_SOFTWARE="1",
            WEBKIT_DISABLE_COMPOSITING_MODE="1",
            WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS="1",  # a container gives it no namespaces to build one of
            **(more or {}),
        )
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            port = probe.getsockname()[1]
        with _running([programs.driver, f"--port={port}"], env):
            chosen = {"binary": programs.browser, "args": ["--automation", *options]}
            capabilities = {"browserName": "MiniBrowser", "webkitgtk:browserOptions": chosen}
            tell = _soon(lambda: Http(port, capabilities))
            try:
                yield Window(tell)
            finally:
                tell("DeleteSession", {})


def _js(value: Any) -> str:
    return str(value).lower() if isinstance(value, bool) else repr(value)


def _soon[T](attempt: Callable[[], T]) -> T:
    """What the attempt gives, once the program it needs is up."""
    end = time.monotonic() + START_SECONDS
    while True:
        try:
            return attempt()
        except (OSError, ValueError):
            if time.monotonic() > end:
                raise
            time.sleep(0.1)


@contextmanager
def _running(command: list[str], env: dict[str, str], pass_fds: tuple[int, ...] = ()) -> Iterator[None]:
    nothing = subprocess.DEVNULL
    process = subprocess.Popen(command, env=env, stdin=nothing, stdout=nothing, stderr=nothing, pass_fds=pass_fds)
    try:
        yield
    finally:
        process.terminate()
        try:
            process.wait(20)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
