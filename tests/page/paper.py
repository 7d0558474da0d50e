"""What stands on a printed page, in inches: read from the PDF's own path operators, so that no viewer can scale it."""

from __future__ import annotations

import re
import zlib

Path = list[complex]


def paths(pdf: bytes) -> list[Path]:
    """Every path and rectangle of a PDF as Chromium writes it, its corners in inches from the page's lower left."""
    found: list[Path] = []
    for stream in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.S):
        try:
            text = zlib.decompress(stream)
        except zlib.error:
            continue  # a font or a picture
        if re.search(rb"\bcm\b", text[:200]):
            found += _paths_of(text.decode("latin-1"))
    return found


def _paths_of(text: str) -> list[Path]:
    """The paths of one content stream; a point in it is the stream's matrices times 1/72 in (ISO 32000-1, 8.3)."""
    found: list[Path] = []
    matrix, kept, path, operands = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), [], [], []

    def point(x: float, y: float) -> complex:
        a, b, c, d, e, f = matrix
        return complex(a * x + c * y + e, b * x + d * y + f) / 72

    for word in re.sub(r"\(.*?\)|<.*?>", " ", text).split():
        if re.fullmatch(r"[-+]?[\d.]+", word):
            operands.append(float(word))
            continue
        if word == "q":
            kept.append(matrix)
        elif word == "Q":
            matrix = kept.pop()
        elif word == "cm":
            a, b, c, d, e, f = operands[-6:]
            p, q, r, s, t, u = matrix
            matrix = (
                *(a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s),
                *(e * p + f * r + t, e * q + f * s + u),
            )
        elif word == "re":
            x, y, w, h = operands[-4:]
            found.append([point(x, y), point(x + w, y), point(x + w, y + h), point(x, y + h)])
        elif word == "m":
            path = [point(*operands[-2:])]
            found.append(path)
        elif word == "l":
            path.append(point(*operands[-2:]))
        operands = []
    return found
