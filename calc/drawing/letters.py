"""How wide a text will be, whichever face the reader's machine sets it in.

A label is placed before any browser has set it, so each letter is taken as wide as in the
widest of the faces that `system-ui` commonly stands for.

The tables give advance widths in thousandths of the type size, rounded up to tens. They are
the maximum over Roboto, Liberation Sans (the metrics of Helvetica and Arial), DejaVu Sans,
Noto Sans and Open Sans, regular and bold, and for symbols over the italics of Liberation
Serif (the metrics of Times), DejaVu Serif and Noto Serif. They were read with fontTools
from the `hmtx` tables of the Debian packages fonts-roboto-unhinted, fonts-liberation,
fonts-dejavu-core, fonts-noto-core and fonts-open-sans (Debian 12). Segoe UI could not be
measured; from memory its figures are 539 wide, well inside the table.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache


def _by_letter(letters_of_width: Mapping[int, str]) -> dict[str, int]:
    """Turn widths with their letters into letters with their width."""
    return {letter: width for width, letters in letters_of_width.items() for letter in letters}


_REGULAR = _by_letter(
    {
        240: "′",
        280: "'ijl",
        320: " ,.\u00b7\u2019\u00a0\u2009\u202f",
        340: ":;I",
        360: "f",
        370: "-",
        390: "()[]",
        400: "t",
        410: "!²³″",
        420: "/\\r",
        460: '"',
        500: "°",
        530: "sz",
        550: "c",
        560: "*?JL_|",
        580: "`k",
        600: "vxyλ",
        620: "FTaeoθδ",
        640: "$0123456789bdghnpqu{}µμβη",
        660: "–α",
        670: "EKPSY",
        690: "ABVXZπ",
        730: "CRφ",
        740: "U",
        760: "HN",
        770: "Dψ",
        780: "&G",
        790: "OQ",
        820: "w",
        840: "#+<=>^~×−±÷≈",
        910: "M",
        950: "%",
        970: "½¼¾",
        980: "m",
        990: "W",
        1000: "…",
        1020: "@",
    }
)
"""Upright sans serif."""

_BOLD = _by_letter(
    {
        310: "'′",
        350: " ijl\u00a0\u2009\u202f",
        380: ",.·’",
        390: "I",
        400: ":;",
        420: "-/",
        430: "\\",
        440: "f²³",
        460: "!()[]",
        480: "t",
        500: "r°",
        530: '"″',
        550: "*",
        560: "J_|",
        590: "z",
        600: "cs",
        610: "`",
        620: "?",
        640: "L–λ",
        650: "x",
        660: "vy",
        670: "k",
        680: "ae",
        690: "EFToθαδ",
        700: "$0123456789",
        720: "Sbdghnpqu{}βη",
        730: "YZ",
        740: "CPµμ",
        770: "BR",
        780: "AKVX",
        800: "φπ",
        820: "U",
        830: "DG",
        840: "#+<=>HN^~×−±ψ÷≈",
        850: "OQ",
        880: "&",
        930: "w",
        1000: "@M…",
        1010: "%",
        1040: "½¼¾",
        1050: "m",
        1110: "W",
    }
)
"""Bold sans serif."""

_SYMBOL = _by_letter(
    {
        310: "j",
        320: "il",
        370: "f",
        400: "I",
        410: "t",
        450: "J",
        480: "r",
        520: "s",
        530: "z",
        560: "c",
        570: "vxy",
        600: "aeβη",
        610: "koθδ",
        640: "bdgpqλ",
        650: "hnuμ",
        660: "Yπ",
        670: "LT",
        680: "Pα",
        690: "S",
        700: "FZφ",
        720: "X",
        730: "AEV",
        740: "B",
        750: "K",
        760: "R",
        770: "C",
        790: "ψ",
        800: "G",
        810: "D",
        820: "OQ",
        850: "U",
        860: "w",
        880: "HN",
        950: "m",
        1030: "M",
        1050: "W",
    }
)
"""Italic serif, for the symbols of quantities."""

_UNKNOWN = 1000


@dataclass(frozen=True)
class Style:
    """A way of setting text: its class in the style sheet, its size in pixels, its table of widths."""

    name: str
    size: float
    bold: bool = False
    tracking: float = 0.0


PLAIN = Style("", 14)
EFFORT = Style("effort-name", 14, bold=True)
NOTE = Style("note", 12.5)
HEADING = Style("heading", 12, tracking=0.09)

_SYMBOL_SIZE = 1.08
"""A symbol in its book serif stands this much larger than the text round it."""


@lru_cache(maxsize=4096)
def width_of(words: str, style: Style = PLAIN) -> float:
    """Greatest width in pixels that a line of text may take."""
    table = _BOLD if style.bold else _REGULAR
    letters = sum(table.get(letter, _UNKNOWN) for letter in words) / 1000
    return style.size * (letters + style.tracking * len(words))


@lru_cache(maxsize=256)
def width_of_symbol(symbol: str, style: Style = PLAIN) -> float:
    """Greatest width in pixels of a quantity's symbol and the space after it."""
    if not symbol:
        return 0.0
    letters = sum(_SYMBOL.get(letter, _UNKNOWN) for letter in symbol) / 1000
    return style.size * _SYMBOL_SIZE * letters + width_of(" ", style)
