"""The verbs, and what may follow them; read before anything is installed, so that a slip is told at once."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path


def parser() -> argparse.ArgumentParser:
    """The parser of `python3 -m build_tools`."""
    top = argparse.ArgumentParser(
        prog="python3 -m build_tools",
        description="Builds, tests and serves the site, and answers in the terminal.",
    )
    verbs = top.add_subparsers(dest="verb", metavar="VERB", required=True)

    site = verbs.add_parser(
        "site",
        help="build everything into site/",
        description="Builds the teacher edition into site/, or the class edition, without keys, into site-class/.",
    )
    _edition(site)
    site.add_argument("--stock-engine", action="store_true", help="ship Pyodide's own files whole, larger and slower")

    test = verbs.add_parser("test", help="run all tests", description="Runs all tests.")
    test.add_argument("--quick", action="store_true", help="leave out the tests that start a browser")

    serve = verbs.add_parser(
        "serve",
        help="serve site/ on this machine and rebuild on change",
        description="Serves site/ on this machine only, and rebuilds it when a file it is made from changes.",
    )
    serve.add_argument("--port", type=_port, default=8000, help="the port to serve on (8000; 0 picks a free one)")

    _edition(serve)

    stick = verbs.add_parser(
        "stick",
        help="copy the site to a USB stick and check every byte",
        description="Copies the site to a USB stick, reads every file back, and mends a copy that was interrupted.",
    )
    stick.add_argument(
        "folder", metavar="FOLDER", type=Path, help="where the stick appears, like E:\\ or /media/you/STICK"
    )
    _edition(stick)

    verify = verbs.add_parser(
        "verify",
        help="check a stick again",
        description="Reads every file of a stick, or of another copy, and names what is damaged or missing.",
    )
    verify.add_argument(
        "folder", metavar="FOLDER", type=Path, help="where the stick appears, or the folder of the copy"
    )

    bench = verbs.add_parser(
        "bench",
        help="print the speed figures, each against its baseline",
        description="Prints the speed figures, each against an ordinary page measured in the same run.",
    )
    bench.add_argument("--rounds", type=_rounds, default=5, help="how often everything is measured (5)")
    bench.add_argument("--json", action="store_true", help="print the same table as JSON")
    bench.add_argument("--keep", action="store_true", help="keep the figures for the page that shows them")
    bench.add_argument("--one-core", action="store_true", help="let browser, server and builds share one core")

    calc = verbs.add_parser(
        "calc",
        help="answer in the terminal",
        description="Answers in the terminal as a page does: calc lever R='240 lbf' aR='6 in' aE='48 in'",
    )
    calc.add_argument("key", metavar="KEY", help="the calculator, for example lever; a wrong one lists them all")
    calc.add_argument("given", metavar="symbol=text", nargs="*", type=_given, help="what is known, as typed on a page")
    calc.add_argument("--find", metavar="symbol", help="print this quantity only, without its working")
    calc.add_argument(
        "--units", choices=("us", "si"), default="us", help="US customary (us, the default) or metric (si)"
    )
    calc.add_argument("--json", action="store_true", help="print values, errors and cautions as JSON")
    return top


def parse(arguments: Sequence[str]) -> argparse.Namespace:
    """The verb and what was said with it; ends the program with a usage line when that makes no sense."""
    return parser().parse_args(arguments)


def _edition(verb: argparse.ArgumentParser) -> None:
    verb.add_argument(
        "--edition",
        choices=("teacher", "class"),
        default="teacher",
        help="all pages (teacher, the default), or those without keys and teachers' notes (class)",
    )


def _given(text: str) -> tuple[str, str]:
    """Splits R=30 lbf; the text may hold further equals signs."""
    symbol, equals, typed = text.partition("=")
    if not equals or not symbol.strip():
        raise argparse.ArgumentTypeError(f"{text!r} is not of the form symbol=text, for example R='30 lbf'")
    return symbol.strip(), typed


def _rounds(text: str) -> int:
    rounds = int(text)
    if rounds < 1:
        raise ValueError
    return rounds


def _port(text: str) -> int:
    port = int(text)
    if not 0 <= port <= 65535:
        raise ValueError
    return port
