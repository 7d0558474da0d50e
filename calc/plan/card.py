"""A demonstration card: what to bring, the set-up to scale, what to ask, what the scale will show, the way down.

The sum and the drawing are those of the way's own calculator. Cautions are put in by the page, which has their words.
"""

from __future__ import annotations

from collections.abc import Mapping
from html import escape
from typing import Any

from calc.answer import answer as of_a_calculator
from calc.figures import plain
from calc.link import write
from calc.plan import words
from calc.plan.kit import Item
from calc.plan.ranking import Option
from calc.plan.rig import Bench
from calc.question import box_unit
from calc.registry import CALCULATORS
from calc.shown import typed_text, with_unit
from calc.units import in_unit

_ROLES = ("plank", "cart", "prop", "bar", "standing", "moving", "anchor", "windlass", "wedge", "screw", "rope")
_SAID = {"standing": "standing block", "moving": "moving block", "prop": "under the plank’s middle"}
_SHORT = ("chain", "ramp", "cart-ramp", "level-drag", "loaded-bar")
"""Calculators whose picture leaves room under it."""
_PREDICT = {
    "raise": (
        "Will the pull be more or less than the load? How many times?",
        "How far will the hand move while the load rises {far}?",
        "What happens if the hand lets go?",
    ),
    "level": (
        "Will the pull be more or less than the load’s weight? How many times?",
        "How far will the hand move while the load goes {far}?",
        "What happens if the hand lets go while it moves?",
    ),
}
_RATIOS = ("IMA_1", "eta_1", "IMA_2", "eta_2")
_HANDED_FIGURES = 4
"""Significant figures of what one machine hands on to the next."""
_TURN = 2.0
"""Time for a turn of a crank or a handle (s): common practice, no source."""


def request(option: Option, bench: Bench, system: str) -> dict[str, Any]:
    """The calculator's question for an option, every box filled in as text. Ranges go in by their middle."""
    asked = option.way.request(bench, option.rigged)
    first = next(iter(option.way.stages(bench, option.rigged)), None)
    return _filled(asked, system, handed_on="R" if asked == first else "")


def stages(option: Option, bench: Bench, system: str) -> list[dict[str, Any]]:
    """The questions of the two machines in a row, the hand's first; none where there is one machine.

    The load at the hand is the other machine's answer. It is handed on as a class would write it.
    """
    asked = option.way.stages(bench, option.rigged)
    return [_filled(it, system, handed_on="R" if at == 0 else "") for at, it in enumerate(asked)]


def _filled(asked: Mapping[str, Any], system: str, handed_on: str = "") -> dict[str, Any]:
    calculator = CALCULATORS[str(asked["calculator"])]
    given: dict[str, float] = dict(asked["given"])
    boxes = calculator.written_out(calculator.row_counts(given))
    texts = {symbol: typed_text(boxes[symbol], value, system) for symbol, value in given.items()}
    for symbol in [*handed_on, *(_RATIOS if calculator.key == "chain" else ())]:
        unit = box_unit(boxes[symbol], system)
        texts[symbol] = with_unit(plain(in_unit(given[symbol], unit), _HANDED_FIGURES), unit)
    return {"calculator": calculator.key, "units": system, "given": texts, "choices": asked["choices"]}


def link(question: Mapping[str, Any]) -> tuple[str, str]:
    """A calculator's key, and the part of an address after '#' that opens it with these numbers."""
    calculator = CALCULATORS[question["calculator"]]
    boxes = calculator.written_out(calculator.row_counts(question["given"]))
    levels = {boxes[symbol].level for symbol in question["given"]}
    levels |= {choice.level for choice in calculator.choices if choice.symbol in question["choices"]}
    return calculator.key, write(dict(question), levels=sorted(level for level in levels if level > 1))


def materials(option: Option) -> list[tuple[str, Item]]:
    """What the set-up is made of, each thing with its place in it."""
    found = {**option.rigged.setup.parts, **option.rigged.picked}
    listed = [(_SAID.get(role, ""), found[role]) for role in _ROLES if role in found]
    return [*listed, ("", option.scale)]


def card(option: Option, bench: Bench, name: str, system: str) -> str:
    """The card as HTML, for one page."""
    question = request(option, bench, system)
    solved = _solved(question)
    two = [_solved(stage) for stage in stages(option, bench, system)]
    task, pulls = bench.task, option.pulls
    load = escape(name) if name else "the load"
    items = "".join(
        f"<li>{escape(item.name)}{f', {escape(place)}' if place else ''}</li>" for place, item in materials(option)
    )
    stands = "".join(f"<li>{line}</li>" for line in words.STANDS[words.PLACE[option.way.key]])
    level = task.job == "level"
    far = words.size(task.d if level else task.h, "length", system)
    ask = "".join(f"<li>{line.format(far=far)}</li>" for line in _PREDICT[task.job])
    reading = [
        ("To start", f"up to {words.size(pulls.start, 'force', system)}"),
        ("Moving", words.forces(pulls.moving, system)),
        *(() if level else (("Coming down", words.forces(pulls.lowering, system)),)),
        ("The hand moves", words.path(pulls.path, system)),
    ]
    rows = "".join(f'<tr><th scope="row">{head}</th><td>{value}</td><td></td></tr>' for head, value in reading)
    board = "".join(
        f'<li><p>{escape(line["words"])}</p><p class="formula">{" ".join(line["mathml"])}</p></li>'
        for line in _sum(question, solved, two)
    )
    level_end = "The way to stop" if level else "The way down"
    bring = f"<h3>Bring</h3><ul>{items}</ul>"
    stand = f"<h3>Who stands where</h3><ul>{stands}</ul>"
    ask = f"<h3>Ask first</h3><ol>{ask}</ol>"
    read = (
        f'<h3>The scale should read</h3><table class="record"><thead><tr><td></td><th scope="col">expected</th>'
        f'<th scope="col">measured</th></tr></thead><tbody>{rows}</tbody></table>'
    )
    on_board = f'<section><h3>On the board</h3><ol class="p-board">{board}</ol></section>'
    end = f"<h3>{level_end}</h3><p>{words.LETS_GO[pulls.stays][1]} {'' if level else _down(option, system)}</p>"
    if two:
        pictures = "".join(f"<figure>{_picture(it, option.way.key, at)}</figure>" for at, it in enumerate(two))
        beside, below = ("", end) if level else (end, "")
        body = (
            f'<div class="p-two">{pictures}<section>{bring}{stand}{ask}{beside}</section></div>'
            f'<div class="p-halves"><section>{read}{below}</section>{on_board}</div>'
        )
    else:
        under, beside = (ask, "") if question["calculator"] in _SHORT else ("", ask)
        body = (
            f'<div class="p-halves"><div><figure>{_picture(solved, option.way.key)}</figure>{under}</div>'
            f"<section>{bring}{stand}{beside}{read}{end}</section></div>{on_board}"
        )
    does = ("Move", " on the level") if level else ("Raise", "")
    to_do = f"{does[0]} {load}, {words.size(task.R, 'force', system)}, by {far}{does[1]}."
    parts = f"{n} part{'s' if n > 1 else ''} of rope. " if (n := option.rigged.setup.n) else ""
    return (
        f"<header><h2>{escape(option.way.title)}</h2>"
        f"<p>{to_do} {parts}{_facts(option, bench, system)}</p></header>{body}"
        f'<div class="p-cautions" data-cautions="{" ".join(words.CAUTIONS[option.way.key])}"></div>'
    )


def _solved(question: Mapping[str, Any]) -> dict[str, Any]:
    return {**of_a_calculator({**question, "draw": {"machine": "narrow"}}), "calculator": question["calculator"]}


def _picture(solved: Mapping[str, Any], way: str, at: int | None = None) -> str:
    """A machine to scale with its caption; of two in a row, which one it is, and how it differs from the set-up."""
    said = [solved["html"].get("machine_caption", "")]
    key = solved["calculator"]
    if at is not None:
        said.insert(
            0, f"{('At the hand', 'At the load')[at]}: {CALCULATORS[key].title.lower()}, to a scale of its own."
        )
    said.append(words.unlike(way, key, hand=at == 0))
    return f"{solved['html'].get('machine_narrow', '')}<figcaption>{' '.join(filter(None, said))}</figcaption>"


def _facts(option: Option, bench: Bench, system: str) -> str:
    """What a way counts besides: what rides along, turns and their time, the layers of rope, the swings of a bar."""
    found, facts = [], option.pulls.facts
    if facts.get("moved", 0.0) > bench.task.R:
        found.append(f"With what rides along it weighs {words.size(facts['moved'], 'force', system)}.")
    if "turns" in facts:
        found.append(words.turned(facts["turns"], _TURN))
    if facts.get("layer", 1.0) > 1:
        found.append(f"The rope comes to lie in {facts['layer']:.0f} layers.")
    if facts.get("stages", 1.0) > 1:
        found.append(f"It goes up in {facts['stages']:.0f} swings, packed up after each.")
    return " ".join(found)


def _sum(question: Mapping[str, Any], solved: dict[str, Any], two: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The lines of the board: a chain's, or those of the machines one by one, the load's first."""
    if question["calculator"] == "chain" or not two:
        return _on_the_board(solved)
    return [line for stage in reversed(two) for line in _on_the_board(stage, alone=False)]


def _down(option: Option, system: str) -> str:
    lowering = option.pulls.lowering
    if lowering[1] <= 0:
        return "Nothing has to be held while it comes down."
    return f"Easing it down slowly takes {words.forces(lowering, system)}. Go back the way it came, hand under hand."


def _on_the_board(solved: dict[str, Any], *, alone: bool = True) -> list[dict[str, Any]]:
    """The lines of working that make the ideal advantage, and the effort with its friction."""
    lines = {line["text"].rpartition(", so ")[2].partition(" ")[0]: line for line in solved["working"]}
    found = solved["values"].get("E")  # none where a load is so small that the sheet's boxes refuse what follows
    efforts = [line for line in solved["working"] if found and line["text"].endswith(f"= {found['text']}")]
    floor = ("F_f", "W")[: 1 + alone] if solved["calculator"] == "level-drag" else ()
    before = [lines[symbol] for symbol in ("IMA", "K", "E_0", *floor) if symbol in lines]
    needed = [lines["AMA"]] if efforts and "AMA" in efforts[-1]["text"] and "AMA" in lines else []
    board = [*before, *needed, *efforts[-1:]]
    return list({id(line): line for line in board}.values())
