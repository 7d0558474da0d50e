"""The teacher's part: the key of a set, the working of one seat, a sheet for each seat; HTML for screen and paper.

Nothing here is asked for by a student's page.
"""

from __future__ import annotations

from html import escape
from typing import Any

from calc import symbols
from calc.figures import plain, shown
from calc.practice.draw import SEATS, Draw, by_seat, drawn, worded
from calc.practice.families import MACHINES, Family
from calc.practice.mark import sentence
from calc.practice.prompts import prompts
from calc.practice.sets import Settings, questions
from calc.practice.solution import as_list, letters, steps

OWN_WORDS = 2
"""How many questions without a key stand on a sheet."""
FOR_PRACTICE = "Anyone with the set code can make this key. Use it for practice, not for grades that matter."


def seats(given: Any) -> list[int]:
    """The seats in a list, each once, in order; what is no seat is left out."""
    listed = given if isinstance(given, list | tuple) else []
    return sorted({n for n in listed if isinstance(n, int) and not isinstance(n, bool) and 1 <= n <= SEATS})


def printed(chosen: Settings, listed: list[int]) -> dict[str, str]:
    """The key: seats down, questions across; then for each question its formula and its slips."""
    asked = questions(chosen)
    columns = [by_seat(family.id, chosen.code, number) for number, family in enumerate(asked, 1)]
    heads = "".join(f'<th scope="col">{number}{_unit(family.unit)}</th>' for number, family in enumerate(asked, 1))
    rows = "".join(
        f'<tr><th scope="row">{seat}</th>'
        + "".join(f"<td>{shown(column[(seat - 1) % len(column)].answer)}</td>" for column in columns)
        + "</tr>"
        for seat in listed
    )
    table = (
        f'<div class="wide" role="region" aria-label="Answers" tabindex="0"><table class="p-key">'
        f'<caption>{_title(chosen)}</caption><thead><tr><th scope="col">Seat</th>{heads}</tr></thead>'
        f"<tbody>{rows}</tbody></table></div>"
    )
    first = listed[0] if listed else 1
    slips = "".join(_slips_of(chosen, family, number, first) for number, family in enumerate(asked, 1))
    return {
        "key": f'{table}<p class="p-fair">{FOR_PRACTICE}</p>',
        "slips": f'<div class="wide" role="region" aria-label="Known mistakes" tabindex="0"><table class="p-slips">'
        f'<caption>Known mistakes</caption><thead><tr><th scope="col">If a student wrote</th>'
        f'<th scope="col">that is</th><th scope="col">seat {first}</th></tr></thead>{slips}</table></div>',
    }


def _title(chosen: Settings) -> str:
    return f"Set {chosen.code}, {'US' if chosen.units == 'us' else 'SI'} units, answers to three figures"


def _unit(unit: str) -> str:
    return f' <span class="unit">{escape(unit)}</span>' if unit else ""


def _slips_of(chosen: Settings, asked: Family, number: int, seat: int) -> str:
    draw = drawn(asked.id, chosen.code, number, seat)
    lines = "".join(
        f"<tr><td>{letters(slip.formula)}</td><td>{escape(sentence(slip.words))}</td>"
        f'<td class="n">{shown(result)}</td></tr>'
        for slip, result in zip(asked.slips, draw.slips, strict=True)
    )
    head = (
        f'<tr class="p-asked"><th scope="rowgroup" colspan="3"><strong>{number}.</strong> {_in_letters(asked)} '
        f'<span class="formula">{letters(asked.answer, asked.symbol)}</span></th></tr>'
    )
    return f"<tbody>{head}{lines}</tbody>"


def _in_letters(asked: Family) -> str:
    """The problem's text with letters where each seat has its number."""
    return escape(asked.text).format_map({name: symbols.html(name) for name in asked.draws})


def worked(chosen: Settings, seat: int) -> str:
    """The working of every question of one seat, as HTML."""
    parts = []
    for number, asked in enumerate(questions(chosen), 1):
        draw = drawn(asked.id, chosen.code, number, seat)
        parts.append(f"<h3>{number}. {escape(worded(asked, draw))}</h3>{as_list(steps(asked, draw))}")
    return f'<section class="p-worked"><h2>Working, seat {seat}</h2>{"".join(parts)}</section>'


def sheets(chosen: Settings, listed: list[int]) -> dict[str, str]:
    """A printed sheet for each seat: its problems with room to work, and two questions to answer in words."""
    return {"sheets": "".join(_sheet(chosen, seat) for seat in listed)}


def _sheet(chosen: Settings, seat: int) -> str:
    asked = questions(chosen)
    draws: list[tuple[Family, Draw]] = [
        (family, drawn(family.id, chosen.code, number, seat)) for number, family in enumerate(asked, 1)
    ]
    problems = "".join(
        f'<li><p>{escape(worded(family, draw))}</p><p class="p-answer">{escape(family.name)} = <span></span></p></li>'
        for family, draw in draws
    )
    machines = list(dict.fromkeys(family.machine for family in asked))
    said = []
    for i in range(OWN_WORDS):
        machine = machines[(seat + i) % len(machines)]
        words = prompts(machine)
        said.append(words[(seat + 3 * i) % len(words)])
    own_words = "".join(f"<li><p>{escape(text)}</p><p><span></span></p><p><span></span></p></li>" for text in said)
    named = ", ".join(MACHINES[machine].lower() for machine in machines)
    return (
        f'<section class="p-sheet"><h2>Practice, {escape(named)}</h2>'
        f'<p class="p-head">Set {chosen.code} · seat {plain(seat)} · Name <span></span> Date <span></span></p>'
        f"<ol>{problems}</ol><h3>In your own words</h3><ol>{own_words}</ol></section>"
    )
