"""How a symbol is written: its letter, its index, upright or slanted, in HTML, MathML and plain text."""

from __future__ import annotations

import re
from functools import cache

_GREEK = {
    "eta": "η",
    "mu": "μ",
    "phi": "φ",
    "theta": "θ",
    "alpha": "α",
    "delta": "δ",
    "beta": "β",
    "psi": "ψ",
    "gamma": "γ",
    "lam": "λ",
    "ell": "ℓ",
    "pi": "π",
}
_SPECIAL = {"Win": ("W", "in"), "Wout": ("W", "out"), "Wlost": ("W", "lost")}
_UPRIGHT = {"IMA", "AMA"}


@cache
def letter_and_index(symbol: str) -> tuple[str, str]:
    """The letter and the index of a symbol: 'aR' a, R; 'mu_s' μ, s; 'Win_2' W, in,2."""
    stem, _, index = symbol.partition("_")
    letter, first = _SPECIAL.get(stem, (stem, ""))
    if not first and (match := re.fullmatch(r"([a-z])([A-Z])", stem)):
        letter, first = match[1], match[2]
    return _GREEK.get(letter, letter), ",".join(part for part in (first, *index.split("_")) if part)


def html(symbol: str, effort: bool = False) -> str:
    """The symbol as HTML; one that belongs to the effort carries the class for it."""
    letter, index = letter_and_index(symbol)
    below = f"<sub>{index}</sub>" if index else ""
    if symbol in _UPRIGHT:
        return letter + below
    return f'<var class="effort">{letter}{below}</var>' if effort else f"<var>{letter}{below}</var>"


def mathml(symbol: str) -> str:
    """The symbol as MathML. Slanted by CSS: an italic <mi> needs a math font that ordinary machines lack."""
    letter, index = letter_and_index(symbol)
    base = f"<mi>{letter}</mi>" if len(letter) > 1 else f'<mi mathvariant="normal" class="s">{letter}</mi>'
    if not index:
        return base
    mark = f'<mi mathvariant="normal">{index}</mi>' if len(index) == 1 else f"<mtext>{index}</mtext>"
    return f"<msub>{base}{mark}</msub>"
