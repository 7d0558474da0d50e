"""Half of one processor core for a whole browser, as a stand-in for a slow machine. Linux only, for root.

The browser is kept to one core as well as to half of a core's time. With the time alone, the system gives all of it now
to one core and now to another, and whoever waits in a loop for a thread there takes from that thread the very time that
it needs: Chromium does so whenever a page hires a worker. No core that is merely slow holds a page up in that way.
"""

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from playwright.sync_api import Browser

from build_tools.bench import visits
from build_tools.bench.others import FirstAnswers
from build_tools.bench.pages import Sites

PERIOD_US = 10_000
"""Shorter than a frame, so that the browser is slow at all times and not now quick, now frozen."""
QUOTA_US = PERIOD_US // 2
GROUPS = Path("/sys/fs/cgroup")
MEMBERS = "cgroup.procs"
NAME = f"half-core-{os.getpid()}"


def visit_all(browser: Browser, into: FirstAnswers, sites: Sites, home: str, page: str, key: str) -> None:
    """One visit of each kind to a page, whose calculator has this key; none where a browser cannot be kept so."""
    with kept_to_half_a_core(browser) as group:
        if group is None:
            return
        for readings, address in (
            (into.disk, f"{sites.ours.as_uri()}/"),
            (into.server, f"{home}{sites.ours.name}/"),
            (into.ordinary, f"{home}{sites.ordinary.name}/"),
        ):
            with visits.visit(browser) as opened:
                readings.append(visits.first_answer(opened, address + page, [key]))


@contextmanager
def kept_to_half_a_core(browser: Browser) -> Iterator[Path | None]:
    """All processes of the browser, those to come too, share half of one core while this lasts.

    Gives the control group that they are in, of the kernel's first kind or its second; None where there cannot be one.
    """
    group = _new_group()
    if group is None:
        yield None
        return
    every_core = os.sched_getaffinity(0)
    for pid in _family(_main_process(browser)):
        _move(pid, group)
        _keep_to_cores(pid, {max(every_core)})
    try:
        yield group
    finally:
        while members := (group / MEMBERS).read_text().split():
            for member in members:
                _move(int(member), group.parent)
                _keep_to_cores(int(member), every_core)
        group.rmdir()


def _new_group() -> Path | None:
    first = GROUPS / "cpu"
    parent = first if first.is_dir() else GROUPS
    group = parent / NAME
    try:
        group.mkdir()
    except OSError:
        return None
    limits = (
        {"cpu.cfs_period_us": str(PERIOD_US), "cpu.cfs_quota_us": str(QUOTA_US)}
        if parent == first
        else {"cpu.max": f"{QUOTA_US} {PERIOD_US}"}
    )
    try:
        for name, limit in limits.items():
            (group / name).write_text(limit)
    except OSError:
        group.rmdir()
        return None
    return group


def _move(pid: int, group: Path) -> None:
    with suppress(ProcessLookupError):  # it has just ended
        (group / MEMBERS).write_text(str(pid))


def _keep_to_cores(pid: int, cores: set[int]) -> None:
    """Let the threads of a process run on these cores only, and those that they start."""
    with suppress(FileNotFoundError):
        for task in Path(f"/proc/{pid}/task").iterdir():
            with suppress(ProcessLookupError):
                os.sched_setaffinity(int(task.name), cores)


def _main_process(browser: Browser) -> int:
    session = browser.new_browser_cdp_session()
    try:
        processes = session.send("SystemInfo.getProcessInfo")["processInfo"]
    finally:
        session.detach()
    return next(int(process["id"]) for process in processes if process["type"] == "browser")


def _family(pid: int) -> Iterator[int]:
    """A process, and then all that it has started until then, and what those have."""
    yield pid
    with suppress(FileNotFoundError, ProcessLookupError):
        for task in Path(f"/proc/{pid}/task").iterdir():
            for child in (task / "children").read_text().split():
                yield from _family(int(child))
