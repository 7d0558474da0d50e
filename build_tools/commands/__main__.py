"""Runs one verb with everything it needs already installed; `build_tools.bootstrap` starts it."""

import sys
from pathlib import Path

from build_tools import command_line

ROOT = Path(__file__).resolve().parent.parent.parent


def run(arguments: list[str]) -> int:
    """Runs the verb; returns the exit code."""
    said = command_line.parse(arguments)
    if said.verb == "site":
        from build_tools.commands import site

        return site.run(ROOT, said.edition, prune=not said.stock_engine)
    if said.verb == "serve":
        from build_tools.commands import serve

        return serve.run(ROOT, said.port, said.edition)
    if said.verb in ("stick", "verify"):
        from build_tools.commands import stick

        return stick.run(ROOT, said.folder, said.edition) if said.verb == "stick" else stick.verify(said.folder)
    if said.verb == "test":
        from build_tools.commands import test

        return test.run(ROOT, quick=said.quick)
    if said.verb == "bench":
        from build_tools.commands import bench

        return bench.run(ROOT, said.rounds, as_json=said.json, one_core=said.one_core, keep=said.keep)
    from build_tools.commands import terminal

    return terminal.run(said.key, said.given, find=said.find, units=said.units, as_json=said.json)


if __name__ == "__main__":
    try:
        sys.exit(run(sys.argv[1:]))
    except KeyboardInterrupt:
        sys.exit(130)
