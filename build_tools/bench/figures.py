"""One figure of the bench, its bar, and the table of them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

HEADS = ("figure", "ours", "baseline", "ratio", "bar", "")


@dataclass(frozen=True)
class Bar:
    """What a figure is held to.

    limit: the most it may be. of: "ratio" of ours to the baseline, or "ours", in the figure's own unit.
    """

    limit: float
    of: str = "ratio"


@dataclass(frozen=True)
class Figure:
    """A measured figure.

    ours, baseline: in `unit` (ms, s, kB, MB; a kB is 1000 bytes); None where it cannot be measured or has no baseline.
    """

    name: str
    unit: str
    ours: float | None
    baseline: float | None = None
    bar: Bar | None = None

    @property
    def ratio(self) -> float | None:
        """Ours against the baseline, or None without one."""
        if self.ours is None or not self.baseline:
            return None
        return self.ours / self.baseline

    @property
    def verdict(self) -> str:
        """ "ok", "over", or nothing when there is no bar or no value."""
        if self.bar is None:
            return ""
        value = self.ratio if self.bar.of == "ratio" else self.ours
        if value is None:
            return ""
        return "ok" if value <= self.bar.limit else "over"


def as_table(figures: Sequence[Figure]) -> str:
    """The figures as lines of plain text, a column each for name, ours, baseline, ratio, bar and verdict."""
    rows = [HEADS, *(words(figure) for figure in figures)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(HEADS))]
    lines = []
    for row in rows:
        name, *values, verdict = row
        cells = [name.ljust(widths[0])]
        cells += [value.rjust(width) for value, width in zip(values, widths[1:], strict=False)]
        lines.append("  ".join([*cells, verdict]).rstrip())
    return "\n".join(lines)


def as_data(figures: Sequence[Figure]) -> list[dict[str, Any]]:
    """The same table for JSON, numbers at full precision and null where there is none."""
    return [
        {
            "figure": figure.name,
            "unit": figure.unit,
            "ours": figure.ours,
            "baseline": figure.baseline,
            "ratio": figure.ratio,
            "bar": None if figure.bar is None else {"limit": figure.bar.limit, "of": figure.bar.of},
            "verdict": figure.verdict or None,
        }
        for figure in figures
    ]


def words(figure: Figure) -> tuple[str, ...]:
    """A figure as a row of the table: name, ours, baseline, ratio, bar, verdict."""
    bar = ""
    if figure.bar is not None:
        bar = f"<= {figure.bar.limit:g}" + (f" {figure.unit}" if figure.bar.of == "ours" else "")
    ratio = "" if figure.ratio is None else f"{figure.ratio:.3f}"
    return (figure.name, _shown(figure, figure.ours), _shown(figure, figure.baseline), ratio, bar, figure.verdict)


def _shown(figure: Figure, value: float | None) -> str:
    if value is None:
        return "-"
    return f"{value:.0f} {figure.unit}" if value >= 100 else f"{value:.3g} {figure.unit}"
