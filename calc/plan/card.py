"""A demonstration card: what to bring, the set-up to scale, what to ask, what the scale will show, the way down.

The sum and the drawing are those of the way's own calculator. Cautions are put in by the page, which has their words.
"""

from __future__ import annotations

from html import escape
from typing import Any

from calc.answer import answer as of_a_calculator
from calc.link import write
from calc.plan import words
from calc.plan.kit import Item
from calc.plan.ranking import Option
from calc.plan.rig import Bench
from calc.registry import CALCULATORS
from calc.shown import typed_text

_ROLES = ("plank", "cart", "prop", "bar", "standing", "moving", "anchor", "windlass", "wedge", "screw", "rope")
_SAID = {"standing": "standing block", "moving": "moving block", "prop": "under the plank’s middle"}
_SHORT = ("chain", "ramp", "cart-ramp", "loaded-bar")
"""Calculators whose picture leaves room under it."""
_PREDICT = (
    "Will the pull be more or less than the load? How many times?",
    "How far will the hand move while the load rises {h}?",
    "What happens if the hand lets go?",
)


def request(option: Option, bench: Bench, system: str) -> dict[str, Any]:
    """The calculator's question for an option, every box filled in as text. Ranges go in by their middle."""
    asked = option.way.request(bench, option.rigged)
    calculator = CALCULATORS[str(asked["calculator"])]
    given: dict[str, float] = dict(asked["given"])  # type: ignore[call-overload]
    boxes = calculator.written_out(calculator.row_counts(given))
    texts = {symbol: typed_text(boxes[symbol], value, system) for symbol, value in given.items()}
    return {"calculator": calculator.key, "units": system, "given": texts, "choices": asked["choices"]}


def link(option: Option, bench: Bench, system: str) -> tuple[str, str]:
    """The calculator's key, and the part of an address after '#' that opens it with these numbers."""
    question = request(option, bench, system)
    calculator = CALCULATORS[question["calculator"]]
    boxes = calculator.written_out(calculator.row_counts(question["given"]))
    levels = {boxes[symbol].level for symbol in question["given"]}
    levels |= {choice.level for choice in calculator.choices if choice.symbol in question["choices"]}
    return calculator.key, write(question, levels=sorted(level for level in levels if level > 1))


def materials(option: Option) -> list[tuple[str, Item]]:
    """What the set-up is made of, each thing with its place in it."""
    found = {**option.rigged.setup.parts, **option.rigged.picked}
    listed = [(_SAID.get(role, ""), found[role]) for role in _ROLES if role in found]
    return [*listed, ("", option.scale)]


def card(option: Option, bench: Bench, name: str, system: str) -> str:
    """The card as HTML, for one page."""
    question = request(option, bench, system)
    solved = of_a_calculator({**question, "draw": {"machine": "narrow"}})
    task, pulls = bench.task, option.pulls
    load = escape(name) if name else "the load"
    items = "".join(
        f"<li>{escape(item.name)}{f', {escape(place)}' if place else ''}</li>" for place, item in materials(option)
    )
    stands = "".join(f"<li>{line}</li>" for line in words.STANDS[words.PLACE[option.way.key]])
    lift = words.size(task.h, "length", system)
    ask = "".join(f"<li>{line.format(h=lift)}</li>" for line in _PREDICT)
    reading = [
        ("To start", f"up to {words.size(pulls.start, 'force', system)}"),
        ("Moving up", words.forces(pulls.moving, system)),
        ("Coming down", words.forces(pulls.lowering, system)),
        ("The hand moves", words.path(pulls.path, system)),
    ]
    rows = "".join(f'<tr><th scope="row">{head}</th><td>{value}</td><td></td></tr>' for head, value in reading)
    board = "".join(
        f'<li><p>{escape(line["words"])}</p><p class="formula">{" ".join(line["mathml"])}</p></li>'
        for line in _on_the_board(solved)
    )
    picture = solved["html"].get("machine_narrow", "")
    caption = solved["html"].get("machine_caption", "")
    ask = f"<h3>Ask first</h3><ol>{ask}</ol>"
    left, right = (ask, "") if question["calculator"] in _SHORT else ("", ask)
    cautions = " ".join(words.CAUTIONS[option.way.key])
    parts = f"{n} part{'s' if n > 1 else ''} of rope. " if (n := option.rigged.setup.n) else ""
    return (
        f"<header><h2>{escape(option.way.title)}</h2><p>Raise {load}, {words.size(task.R, 'force', system)}, by {lift}."
        f" {parts}</p></header>"
        f'<div class="p-halves"><div><figure>{picture}<figcaption>{caption}</figcaption></figure>{left}</div>'
        f"<section><h3>Bring</h3><ul>{items}</ul><h3>Who stands where</h3><ul>{stands}</ul>"
        f"{right}<h3>The scale should read</h3>"
        f'<table class="record"><thead><tr><td></td><th scope="col">expected</th>'
        f'<th scope="col">measured</th></tr></thead><tbody>{rows}</tbody></table>'
        f"<h3>The way down</h3><p>{words.LETS_GO[pulls.stays][1]} {_down(option, system)}</p></section></div>"
        f'<section><h3>On the board</h3><ol class="p-board">{board}</ol></section>'
        f'<div class="p-cautions" data-cautions="{cautions}"></div>'
    )


def _down(option: Option, system: str) -> str:
    lowering = option.pulls.lowering
    if lowering[1] <= 0:
        return "Nothing has to be held while it comes down."
    return f"Easing it down slowly takes {words.forces(lowering, system)}. Go back the way it came, hand under hand."


def _on_the_board(solved: dict[str, Any]) -> list[dict[str, Any]]:
    """The lines of working that make the ideal advantage, and the effort with its friction."""
    lines = {line["text"].rpartition(", so ")[2].partition(" ")[0]: line for line in solved["working"]}
    found = solved["values"].get("E")  # none where a load is so small that the sheet's boxes refuse what follows
    efforts = [line for line in solved["working"] if found and line["text"].endswith(f"= {found['text']}")]
    before = [lines[symbol] for symbol in ("IMA", "K", "E_0") if symbol in lines]
    needed = [lines["AMA"]] if efforts and "AMA" in efforts[-1]["text"] and "AMA" in lines else []
    board = [*before, *needed, *efforts[-1:]]
    return list({id(line): line for line in board}.values())
