"""Which numbers a seat gets: the whole grid of a family, what of it is fair, and its order for a set.

No random numbers: the order follows from SHA-256 (FIPS 180-4), so every machine and browser draws the same.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from itertools import combinations, product

from calc.figures import plain
from calc.practice.families import Family, family, holds, value

FROM_ANSWER = 0.05
"""How far a slip is from the answer at least, in shares of the answer."""
APART = 0.025
"""How far slips are from each other at least, in shares of the larger one."""
SEATS = 40
"""So many seats always get different numbers."""
_NOISE = 1e-9


@dataclass(frozen=True)
class Draw:
    """The numbers of one problem, its answer, and what each slip of the family gives."""

    numbers: Mapping[str, float]
    answer: float
    slips: tuple[float, ...]


@lru_cache(maxsize=256)
def fair(id_: str) -> tuple[Draw, ...]:
    """All draws of a family in grid order, the last number fastest, in which no two results can be confused."""
    asked = family(id_)
    found = []
    for values in product(*asked.draws.values()):
        numbers = dict(zip(asked.draws, values, strict=True))
        if not holds(asked.where, numbers):
            continue
        answer = value(asked.answer, numbers)
        if answer <= 0 or (asked.clean and not has_three_figures(answer)):
            continue
        draw = Draw(numbers, answer, tuple(value(slip.formula, numbers) for slip in asked.slips))
        if _is_fair(draw):
            found.append(draw)
    return tuple(found)


def has_three_figures(number: float) -> bool:
    """Whether a number has at most three figures, exactly but for the last bits of a double."""
    return abs(float(f"{number:.3g}") - number) <= _NOISE * max(1.0, abs(number))


def _is_fair(draw: Draw) -> bool:
    if any(abs(slip - draw.answer) <= (FROM_ANSWER + _NOISE) * draw.answer for slip in draw.slips):
        return False
    return all(abs(a - b) > (APART + _NOISE) * max(abs(a), abs(b)) for a, b in combinations(draw.slips, 2))


def fits_a_shop(asked: Family, draw: Draw) -> bool:
    """Whether no number in it would look absurd in a shop or ask too much of a student."""
    return holds(asked.shop, draw.numbers)


@lru_cache(maxsize=64)
def by_seat(id_: str, code: str, question: int) -> tuple[Draw, ...]:
    """The draws of a family in the order of the seats, for one question of a set.

    All fair draws are sorted by the hash of set, family, question and numbers. One that fits no shop gives its place to
    the last of the list that does; so the others keep theirs.
    """
    asked = family(id_)

    def rank(draw: Draw) -> bytes:
        numbers = ",".join(f"{number:g}" for number in draw.numbers.values())
        return sha256(f"{code}|{id_}|{question}|{numbers}".encode()).digest()

    order = sorted(fair(id_), key=rank)
    fits = [fits_a_shop(asked, draw) for draw in order]
    places = sum(fits)
    spare = [draw for draw, fit in zip(order[places:], fits[places:], strict=True) if fit]
    return tuple(draw if fit else spare.pop() for draw, fit in zip(order[:places], fits[:places], strict=True))


def drawn(id_: str, code: str, question: int, seat: int) -> Draw:
    """The numbers of a seat (from 1)."""
    order = by_seat(id_, code, question)
    return order[(seat - 1) % len(order)]


def worded(asked: Family, draw: Draw) -> str:
    """The problem's text with its numbers."""
    return asked.text.format_map({name: plain(number) for name, number in draw.numbers.items()})
