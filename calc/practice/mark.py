"""Marking one typed answer: right, or which mistake it looks like, or an honest 'not one that this page knows'."""

from __future__ import annotations

import re
from dataclasses import dataclass

from calc.measure import LONGEST, read, shortened
from calc.messages import Message, Refused, message
from calc.practice.draw import Draw
from calc.practice.families import Family
from calc.practice.solution import STEPS, answer_text
from calc.units import KINDS, in_unit

NEAR = 0.01
"""So close to the key, in shares of it, is right; so close to a slip is that slip."""
CLOSE = 0.05
TENTH = 0.05
"""Angles and percents are shown to a tenth elsewhere on this site: an answer rounded so is right."""
_NOISE = 1e-9
_BARE = re.compile(r"[\d\s.,/+\-−–eE¼½¾⅛⅜⅝⅞⅓⅔]+")
_AS_RATIO = re.compile(r"\s*(?:[x×]|:\s*1|to\s+1)\s*$", re.I)
_NUMBER_FIRST = re.compile(r"\s*([-−–]?\s*[\d\s.,/\-½¼¾]*[\d½¼¾])\s*(\D*)$")


@dataclass(frozen=True)
class Mark:
    """What an answer is: ``right``, ``unit``, ``slip``, ``close``, ``unknown`` (a miss), or ``unread`` (no miss)."""

    state: str
    message: Message

    @property
    def missed(self) -> bool:
        """Whether it counts as a miss."""
        return self.state not in ("right", "unread")


def mark(asked: Family, draw: Draw, typed: str) -> Mark:
    """Mark a typed answer: against the key, then this family's slips, then slips that any sum can have."""
    if not typed.strip():
        return Mark("unread", message("p-empty"))
    text = typed.strip()
    if asked.kind.name == "ratio":
        text = _AS_RATIO.sub("", text)
    bare = _BARE.fullmatch(text) is not None
    try:
        number = _number(asked, text, bare)
    except Refused as refused:
        return _refused(asked, draw, text, refused.message)
    if _is_right(asked, draw, number):
        code = "p-nounit" if bare and asked.unit else "p-right"
        return Mark("right", message(code, answer=answer_text(asked, draw.answer)))
    return _wrong(asked, draw, number)


def _number(asked: Family, text: str, bare: bool) -> float:
    """The typed number in the unit of the answer. Raises Refused for what can't be read."""
    if bare:
        return read(text, KINDS["ratio"], asked.name, "", asked.system).nominal
    return float(in_unit(read(text, asked.kind, asked.name, asked.unit, asked.system).nominal, asked.unit))


def _is_right(asked: Family, draw: Draw, number: float) -> bool:
    allowed = NEAR * draw.answer
    if asked.unit in ("°", "%"):
        allowed = max(allowed, TENTH)
    return abs(number - draw.answer) <= allowed + _NOISE * draw.answer


def _near(number: float, other: float) -> bool:
    return abs(number - other) <= (NEAR + _NOISE) * abs(other)


def _refused(asked: Family, draw: Draw, text: str, problem: Message) -> Mark:
    """A text with no number is unread; a number with a unit that can't be is a mistake with a name."""
    if problem.code not in ("e-dim", "e-massforce", "e-nounit"):
        return Mark("unread", problem)
    found = _NUMBER_FIRST.match(text[:LONGEST])
    try:
        right = found is not None and _is_right(asked, draw, _number(asked, found[1], bare=True))
    except Refused:
        right = False
    if problem.code == "e-nounit" and not right:
        return Mark("unit", message("p-plainunit", u=shortened(found[2].strip() if found else text)))
    why = problem.text
    if problem.code == "e-massforce":
        why = "Kilograms and grams measure mass. A force is in lbf or N."
    return Mark("unit", message("p-onlyunit" if right else "p-wrongunit", why=why))


def _wrong(asked: Family, draw: Draw, number: float) -> Mark:
    for slip, result in zip(asked.slips, draw.slips, strict=True):
        if _near(number, result):
            return Mark("slip", message("p-slip", why=sentence(slip.words), step=STEPS[slip.step]))
    factors = (("p-twelve", 12.0), ("p-newton", 4.4482216152605), ("p-hundred", 100.0), ("p-two", 2.0))
    for code, factor in factors:
        if code == "p-twelve" and asked.system == "si":  # nothing metric is twelve of anything
            continue
        for size, wrong in (("large", draw.answer * factor), ("small", draw.answer / factor)):
            if _near(number, wrong):
                return Mark("slip", message(code, size=size))
    if _near(number, 1 / draw.answer):
        return Mark("slip", message("p-upside"))
    if _near(number, -draw.answer):
        return Mark("slip", message("p-sign"))
    if abs(number - draw.answer) <= (CLOSE + _NOISE) * draw.answer:
        return Mark("close", message("p-close"))
    return Mark("unknown", message("p-unknown"))


def sentence(words: str) -> str:
    """A slip's words as a sentence."""
    return f"{words[:1].upper()}{words[1:]}{'' if words[-1:] in '.!?' else '.'}"
