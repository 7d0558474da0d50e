"""`bench`: the site's speed figures, each against an ordinary page in the same run."""

import json
import os
import sys
import time
from contextlib import redirect_stdout
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from build_tools.missing import Missing
from build_tools.one_at_a_time import one_at_a_time

KEPT = "shared/pages/speed.json"
"""The figures that the page "How fast it is" shows."""
ENOUGH_ROUNDS = 5
BUSY_BEFORE, BUSY_AFTER = 0.5, 1.5
"""Load for each core above which a machine has too much else to do for its figures to be quoted; the bench's own work
makes about 1."""


def run(root: Path, rounds: int, as_json: bool, one_core: bool, keep: bool) -> int:
    """Measures and prints the table; returns 1 only if something could not be measured.

    keep: also for the site's own page of figures, unless they may not be quoted.
    """
    from build_tools.bench import builds, figures, report
    from build_tools.bench import rounds as bench_rounds

    begin = time.monotonic()
    before, cores = _load(), _cores()
    loads: list[float | None] = []

    def say(words: str) -> None:
        loads.append(_load())
        print(words, file=sys.stderr, flush=True)

    if one_core and not _keep_to_one_core():
        print("This system cannot keep a program to one core.", file=sys.stderr)
        return 1
    try:
        with redirect_stdout(sys.stderr), one_at_a_time(root / "build" / "bench.lock"):
            measured = bench_rounds.measure(root, rounds, say)
    except (builds.BuildNotMeasured, Missing) as problem:
        print(f"\n{problem}", file=sys.stderr)
        return 1
    rows = report.figures(measured)
    day = datetime.now(UTC).date().isoformat()
    about = {
        "rounds": rounds,
        "cores": _cores(),
        "chromium": measured.chromium,
        "load_per_core": [None if load is None else round(load / cores, 2) for load in (before, *loads)],
        "seconds": round(time.monotonic() - begin),
    }
    if as_json:
        print(json.dumps({"about": about, "figures": figures.as_data(rows)}, indent=1))
    else:
        print(figures.as_table(rows))
        print()
        print("\n".join(remarks(about)))
    if keep and (reasons := doubts(about)):
        print("Not kept. " + " ".join(reasons), file=sys.stderr)
        return 1
    if keep:
        kept = {"day": day, "remarks": remarks(about), "figures": figures.as_data(rows)}
        (root / KEPT).write_text(json.dumps(kept, indent=1) + "\n", "utf-8")
    return 0


def remarks(about: dict[str, Any]) -> list[str]:
    """What a reader of the table has to know: how it was measured, and whether it may be quoted."""
    lines = [
        "{rounds} rounds on {cores} core{plural}, Chromium {chromium}, {seconds} s in all. A time is the median of its "
        "rounds.".format(**about, plural="" if about["cores"] == 1 else "s"),
        "Baseline: the same page with an ordinary Pyodide on the page's own thread, first visit over http.",
        "The disk's files are in the system's cache, as the server's are; every visit has an empty browser cache.",
    ]
    return lines + doubts(about)


def doubts(about: dict[str, Any]) -> list[str]:
    """Why the figures may not be quoted; nothing if they may."""
    lines = []
    if about["rounds"] < ENOUGH_ROUNDS:
        lines.append(f"Fewer than {ENOUGH_ROUNDS} rounds are a trial: quote none of this.")
    loads = [load for load in about["load_per_core"] if load is not None]
    if loads and (loads[0] > BUSY_BEFORE or max(loads) > BUSY_AFTER):
        lines.append(f"The machine had other work meanwhile (load up to {max(loads):g} a core): quote none of this.")
    return lines


def _cores() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _load() -> float | None:
    return os.getloadavg()[0] if hasattr(os, "getloadavg") else None


def _keep_to_one_core() -> bool:
    """Keeps this process, and every one that it starts, to one core: browser, server and builds share it."""
    if not hasattr(os, "sched_setaffinity"):
        return False
    os.sched_setaffinity(0, {max(os.sched_getaffinity(0))})
    return True
