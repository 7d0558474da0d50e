"""What somebody may type, paste or write in a file, from honest numbers to markup, control characters and noise.

Drawn from dice with a seed, so that each case can be made again from its name. hypothesis would make its cases smaller
when one fails, but takes five times as long to make one as calc to answer it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random
from typing import Any, TypeVar

T = TypeVar("T")
UNITS = (
    *("lbf", "N", "kN", "ozf", "kgf", "kg", "g", "lb", "oz", "slug", "in", "ft", "yd", "mm", "cm", "m", "M", "'", '"'),
    *("°", "deg", "rad", "%", "s", "min", "h", "J", "ft·lbf", "N·m", "W", "hp", "rpm", "psi", "MPa", "turns", "TPI"),
    *("cubits", "μm", "K", "ſ", "N" * 30),
)
"""Units that are known, units that are not, and letters that lower case turns into others."""
MARKUP = (
    "<img src=x onerror=hit()>",
    "<script>hit()</script>",
    "</script><script>hit()</script>",
    '"><svg onload=hit()>',
    "'><iframe src=javascript:hit()>",
    "' onfocus=hit() autofocus='",
    '" onmouseover="hit()',
    "</td></table><marquee>",
    "<!--",
    "]]>",
    "&lt;img src=x onerror=hit()&gt;",
    "&#60;script&#62;",
    "javascript:hit()",
    "data:text/html,<script>hit()</script>",
    "<math><mtext></form><form><mglyph><style></math><img src onerror=hit()>",
    "${hit()}{{hit()}}#{hit()}",
    "{R}{0.__class__}%s%n",
    "\\u003cscript\\u003ehit()\\u003c/script\\u003e",
)
ODD = (
    *(
        "",
        " ",
        "\t",
        "\n",
        "\r\n",
        "\x00",
        "\x07",
        "\x1b[31m",
        "\x7f",
        "\ufeff",
        "\u200b",
        "\u202e12",
        "\u2028",
        "\xa0",
    ),
    *(
        "٣",
        "１２",
        "१.५",
        "²",
        "½",
        "5½",
        "¾ in",
        "Ⅷ",
        "𝟘",
        "∞",
        "−5",
        "–",
        "±",
        "±±",
        "1±",
        "±1",
        "1 ± -1",
        "9 ± 1e400",
    ),
    *(
        "nan",
        "inf",
        "-inf",
        "Infinity",
        "None",
        "true",
        "null",
        "undefined",
        "NaN lbf",
        "1_000",
        "0x1F",
        "1e",
        "e5",
        "1E+",
    ),
    *("0e9999", "1e9999", "1e-9999", "0e-9999", "1e308", "1e-308", "5e-324", "9" * 60, "9" * 400, "0." + "0" * 57),
    *(
        "1/0",
        "0/0",
        "1/3/5",
        "5 1/2 1/2",
        "3/2",
        "5-9/8",
        "1:0",
        "0:1",
        "1:4",
        "1 in 4",
        "1 in 0",
        "1,5",
        "1,234.5",
        "1,23",
    ),
    *("5' 3\"", "5'", "5 ft 3-1/2 in", "5.5 ft", "5'13\"", "-5' 3\"", "' \"", "5 ft -3 in", "5.. ft", "1e3 ft"),
    *("__proto__", "constructor", "toString", "__class__", "../../etc/passwd", "=1+1", "@SUM(A1)", "+1", "-1", "'=1"),
    *("(" * 80, "{" * 40, "[" * 40, "%" * 30, "_" * 30, "%00", "%E0%A4%A", "%F0%9F", "%u0041", "&" * 20, "=" * 20, "#"),
    *("a\u0301" * 20, "👩‍🔧", "\U0010ffff", "ﷺ", "İ", "ß", "ŉ", "1\u0660", "1 \u2215 2", "1\u20442"),
)

_SIGNS = "0123456789.,/-' eE±%:\"()<>&_[]{}=;+*\\#"


class Dice(Random):
    """Random numbers that choose what is asked."""

    def one(self, things: Sequence[T]) -> T:
        """One of these."""
        return things[int(self.random() * len(things))]

    def likely(self, share: float) -> bool:
        """True so often."""
        return self.random() < share

    def mostly(self, sane: Callable[[], Any]) -> Any:
        """Nine times in ten what the function gives, so that a case gets past its first gate; else any JSON value."""
        return sane() if self.likely(0.9) else self.json()

    def some(self, most: int) -> range:
        """As many turns as chance has it."""
        return range(int(self.random() * (most + 1)))

    # -- texts ------------------------------------------------------------------------------------

    def number(self) -> str:
        """A number in one of the forms that a box takes."""
        form = self.one("wwddddfme")
        if form == "w":
            return str(int(10 ** (self.random() * 4)))
        if form == "d":
            return f"{10 ** self.uniform(-3, 4):.{self.one((2, 3, 4, 9))}g}"
        if form == "f":
            return f"{int(self.random() * 40)}/{int(self.random() * 40)}"
        if form == "m":
            join = self.one(("-", " ", " - ", "  "))
            return f"{int(self.random() * 40)}{join}{int(self.random() * 20)}/{self.one((2, 4, 8, 16, 32, 3, 0))}"
        return f"{self.uniform(-10, 10):.{int(self.random() * 9)}f}e{int(self.uniform(-400, 400))}"

    def size(self) -> str:
        """A number with a unit, a doubt, feet and inches, or a slope."""
        form = self.one("ssssspfr")
        plain = f"{self.number()}{self.one(('', ' ', chr(160)))}{self.one(UNITS) if self.likely(0.6) else ''}"
        if form == "p":
            return f"{plain}{self.one((' ± ', '±', ' +/- ', '+-'))}{self.size() if self.likely(0.2) else self.number()}"
        if form == "f":
            feet, inches = self.one(("'", " ft ", "′", "foot")), self.one(('"', " in", "", "″"))
            return f"{self.number()}{feet}{self.number()}{inches}"
        if form == "r":
            return f"{self.number()}{self.one((':', ' : ', ' in '))}{self.number()}"
        return plain

    def noise(self) -> str:
        """Any signs at all, lone halves of a surrogate pair too: JSON can carry them."""
        length = int(self.random() ** 2 * 60)
        return "".join(self.one(_SIGNS) if self.likely(0.7) else chr(self._sign()) for _ in range(length))

    def _sign(self) -> int:
        return int(self.random() * self.one((0x20, 0x7F, 0x250, 0x2100, 0x3000, 0x10000, 0x110000)))

    def typed(self) -> str:
        """One box's text."""
        form = self.one("sssommnj")
        if form == "s":
            return self.size()
        if form == "o":
            return self.one(ODD)
        if form == "m":
            return self.one(MARKUP)
        if form == "n":
            return self.noise()
        parts = (self.size, lambda: self.one(ODD), lambda: self.one(MARKUP), self.noise)
        return self.one(parts)() + self.one(parts)()

    def near(self, text: str) -> str:
        """An example's number made larger or smaller; its text as it is where it is no plain number."""
        try:
            number = float(text)
        except (TypeError, ValueError):
            return text
        share = self.one((1, 1, 0.5, 2, 0.1, 10, 0.999, 1.0001, 1e-3, 1e3, self.uniform(0.2, 5), self.uniform(0.2, 5)))
        return f"{number * share:.5g}{self.one(('', '', '', '', ' ± 1 %', ' ± 0.1', f' ± {number}'))}"

    # -- JSON ---------------------------------------------------------------------------------------

    def json(self, depth: int = 0) -> Any:
        """Any JSON value, NaN and infinity included: Python's reader takes them."""
        form = self.one("tttttnbiifld") if depth < 3 else self.one("tnbif")
        if form == "t":
            return self.typed()
        if form == "l":
            return [self.json(depth + 1) for _ in self.some(4)]
        if form == "d":
            return {self.typed(): self.json(depth + 1) for _ in self.some(4)}
        if form == "i":
            return int(self.one((3, 40, 10**20)) * self.uniform(-1, 1))
        if form == "f":
            return self.one((self.uniform(-9, 9), 1e308, -1e-320, float("inf"), float("-inf"), float("nan"), -0.0))
        return None if form == "n" else self.likely(0.5)
