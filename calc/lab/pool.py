"""A class's sheets together: one result for each group, their mean and spread, and the odd one gently pointed out.

Source of the outlier rule's second half: the modified z-score 3.5 of Iglewicz and Hoaglin, as restated in the
NIST/SEMATECH e-Handbook, 1.3.5.17; the first half asks that the group's own doubt does not explain the distance.
Means, experimental standard deviation and standard error: JCGM 100:2008, 4.2.

Two requests reach the door: ``group_file`` (the text of one file, with its ``name``) gives the groups in it;
``class`` (a list of such groups) gives the table, the graph and what they say together.
"""

from __future__ import annotations

import csv
import io
import math
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field
from html import escape
from itertools import islice
from typing import Any

from calc.drawing import groups as drawn
from calc.drawing.scene import NARROW, WIDE
from calc.figures import shown, with_doubt
from calc.lab import files, sheet
from calc.lab.judge import Judged
from calc.lab.plan import LABS
from calc.measure import shortened
from calc.messages import message

MOST_GROUPS = 60
SMALLEST, LARGEST = 1e-6, 1e9
"""Of a force or a distance in a table of groups, in whatever unit it is."""
FLAG_FROM = 5
ODD = 3.5
MAD_TO_Z = 0.6745


@dataclass(frozen=True)
class Group:
    """One group's result: its name, its lab, how many trials; AMA, IMA and efficiency, each with its k = 2 doubt.

    ``eta`` is a share of one. ``impossible``: the actual advantage beats the ideal one beyond their doubt.
    """

    name: str
    lab: str
    n: int
    load: float
    effort: float
    ama: float
    ama_doubt: float
    ima: float
    ima_doubt: float
    eta: float
    eta_doubt: float
    impossible: bool = False
    note: str = ""


@dataclass
class Pooled:
    """What the groups say together; efficiencies as shares. ``odd`` are the names of groups far from the others."""

    counted: list[Group] = field(default_factory=list)
    left_out: list[Group] = field(default_factory=list)
    mean: float = 0.0
    s: float = 0.0
    error: float = 0.0
    median: float = 0.0
    odd: list[str] = field(default_factory=list)
    differ: bool = False


def groups_in(text: str, name: str) -> dict[str, Any]:
    """The groups of one file and what of it could not be used. Never raises."""
    if _first_word(text) == "group":
        return _table_of_groups(text, name)
    opened = files.opened(text)
    problems = [f"{_place(p)}{p.words}" for p in opened.problems]
    lab = LABS.get(opened.lab)
    if lab is None:
        if opened.lab == "" and not problems:
            problems.append("The file does not say which lab it belongs to.")
        return {"groups": [], "problems": problems or ["This is not a record sheet."]}
    read = sheet.read_sheet(lab, {**opened.as_answer()["opened"], "record": opened.lab})
    problems += [f"{it.text}" for part in read.errors.values() for it in part.values()]
    problems += [f"Trial {row}, {symbol}: {it.text}" for (row, symbol), it in read.cells.errors.items()]
    judged = sheet.judge_sheet(read)
    group = _group(opened.group or name.removesuffix(".csv"), lab.key, judged)
    if group is None:
        problems.append("No trial in it is complete.")
    return {"groups": [asdict(group)] if group else [], "problems": problems}


def _place(problem: files.Problem) -> str:
    if not problem.line:
        return ""
    return f"Line {problem.line}, column {problem.column}: " if problem.column else f"Line {problem.line}: "


def _first_word(text: str) -> str:
    line = next((line for line in text.lstrip("\ufeff").splitlines() if line.strip()), "")
    return line.replace(";", ",").replace("\t", ",").partition(",")[0].strip().strip('"').lower()


def _group(name: str, lab: str, judged: Judged) -> Group | None:
    if not {"AMA", "IMA"} <= judged.values.keys() or not {"R", "E"} <= judged.columns.keys():
        return None
    (ama, u_ama), (ima, u_ima) = judged.values["AMA"], judged.values["IMA"]
    eta, u_eta = judged.values.get("eta", (ama / ima, ama / ima * math.hypot(u_ama / ama, u_ima / ima)))
    over = ama - ima > 2 * math.hypot(u_ama, u_ima)
    load, effort = judged.columns["R"].mean, judged.columns["E"].mean
    n = len(judged.good)
    return Group(name, lab, n, load, effort, ama, 2 * u_ama, ima, 2 * u_ima, eta, 2 * u_eta, over)


def _table_of_groups(text: str, name: str) -> dict[str, Any]:
    """A table with one line a group: group, R, E, dR, dE, the units in a second line or none of them."""
    delimiter = max(",;\t", key=text.split("\n", 1)[0].count)
    try:
        lines = list(islice(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter), MOST_GROUPS + 2))
    except csv.Error:
        return {
            "groups": [],
            "problems": ["This is not a table: one of its cells is too long, or a quote is not closed."],
        }
    heads = [cell.partition("(")[0].strip() for cell in lines[0]]
    problems, found = [], []
    missing = [symbol for symbol in ("R", "E", "dR", "dE") if symbol not in heads]
    if missing:
        return {"groups": [], "problems": [f"Line 1: these columns are missing: {', '.join(missing)}."]}
    for number, cells in enumerate(lines[1:], 2):
        row = dict(zip(heads, (cell.strip() for cell in cells), strict=False))
        texts = [row.get(symbol, "") for symbol in ("R", "E", "dR", "dE")]
        if not any(texts) or (number == 2 and not any(any(c.isdigit() for c in it) for it in texts)):
            continue  # a line of units
        if not all(_is_size(it) for it in texts):
            place = next(
                (heads.index(s) + 1 for s, it in zip(("R", "E", "dR", "dE"), texts, strict=True) if not _is_size(it)), 1
            )
            cell = shortened(cells[place - 1]) if place <= len(cells) else ""
            problems.append(f"Line {number}, column {place}: “{cell}” is not a size above zero.")
            continue
        load, effort, up, along = (float(it) for it in texts)
        ama, ima = load / effort, along / up
        label = row.get("group") or f"{name.removesuffix('.csv')} {number - 1}"
        found.append(
            asdict(Group(label, "any-lab", 1, load, effort, ama, 0.0, ima, 0.0, ama / ima, 0.0, ama > ima * (1 + 1e-9)))
        )
    return {"groups": found, "problems": problems}


def _is_size(text: str) -> bool:
    """Whether this is a force or a distance that a class could have measured, in whatever unit."""
    try:
        return SMALLEST <= float(text) <= LARGEST
    except ValueError:
        return False


def pooled(groups: Sequence[Group]) -> Pooled:
    """Mean, spread and median of the groups' efficiencies; impossible ones are shown but not pooled."""
    result = Pooled([g for g in groups if not g.impossible], [g for g in groups if g.impossible])
    values = [group.eta for group in result.counted]
    if not values:
        return result
    result.mean, result.median = math.fsum(values) / len(values), statistics.median(values)
    if len(values) > 1:
        result.s = statistics.stdev(values)
        result.error = result.s / math.sqrt(len(values))
        doubts = [group.eta_doubt / 2 for group in result.counted if group.eta_doubt]
        result.differ = bool(doubts) and result.s > 2 * math.fsum(doubts) / len(doubts)
    if len(values) >= FLAG_FROM:
        mad = statistics.median(abs(value - result.median) for value in values)
        result.odd = [
            group.name
            for group in result.counted
            if abs(group.eta - result.median) > max(3 * group.eta_doubt, ODD * mad / MAD_TO_Z, 0.005)
        ]
    return result


def answer(request: Mapping[str, Any]) -> dict[str, Any]:
    """Answer for a file of groups or for a class. Never raises for a dict of JSON values."""
    if isinstance(request.get("group_file"), str):
        name = str(request.get("name") or "")[:60]
        return groups_in(request["group_file"], name)
    groups = [group for it in _listed(request.get("class")) if (group := _trusted(it))]
    if not groups:
        return {"html": {"table": "", "say": ""}, "values": {}, "odd": []}
    result = pooled(groups)
    pictures: dict[str, str] = {}
    for width, word in ((WIDE, "wide"), (NARROW, "narrow")):
        points = [
            drawn.Dot(g.name, 100 * g.eta, 100 * g.eta_doubt, not g.impossible, g.name in result.odd) for g in groups
        ]
        drawing = drawn.draw(f"class-{width}", width, points, 100 * result.mean, 100 * result.s)
        pictures |= {f"groups_{word}": drawing.svg, "groups_caption": escape(drawing.caption)}
    values = {name: getattr(result, name) for name in ("mean", "s", "error", "median")}
    return {
        "html": {"table": _table(groups, result), "say": _say(result), **pictures},
        "values": values,
        "odd": result.odd,
    }


def _listed(given: Any) -> list[Any]:
    return given[:MOST_GROUPS] if isinstance(given, list) else []


def _trusted(given: Any) -> Group | None:
    """A group as it came back from the page, if it is one."""
    try:
        numbers: dict[str, Any] = {name: float(given[name]) for name in _NUMBERS}
        group = Group(
            str(given["name"])[:60], str(given["lab"]), int(given["n"]), **numbers, impossible=bool(given["impossible"])
        )
    except (KeyError, TypeError, ValueError, OverflowError):
        return None
    return group if group.lab in LABS and all(0 <= value <= _MOST for value in numbers.values()) else None


_MOST = (LARGEST / SMALLEST) ** 2
"""What an efficiency of such forces and distances can come to."""
_NUMBERS = ("load", "effort", "ama", "ama_doubt", "ima", "ima_doubt", "eta", "eta_doubt")


def _table(groups: Sequence[Group], result: Pooled) -> str:
    heads = ("Group", "Lab", "Trials", "IMA", "AMA", "Efficiency", "")
    lines = []
    for group in sorted(groups, key=_by_name):
        mark = (
            "not possible: re-measure"
            if group.impossible
            else "far from the others"
            if group.name in result.odd
            else ""
        )
        eta = f"{_text(100 * group.eta, 100 * group.eta_doubt)} %"
        cells = [
            LABS[group.lab].title.partition(":")[0],
            str(group.n),
            _text(group.ima, group.ima_doubt),
            _text(group.ama, group.ama_doubt),
            f"<s>{eta}</s>" if group.impossible else eta,
            f'<span class="mark">{mark}</span>' if mark else "",
        ]
        lines.append(
            f'<tr><th scope="row">{escape(group.name)}</th>{"".join(f"<td>{cell}</td>" for cell in cells)}</tr>'
        )
    head = "".join(f'<th scope="col">{word}</th>' if word else "<td></td>" for word in heads)
    return (
        '<div class="wide" role="region" aria-label="Groups" tabindex="0"><table class="record">'
        f"<thead><tr>{head}</tr></thead><tbody>{''.join(lines)}</tbody></table></div>"
    )


def _by_name(group: Group) -> tuple[int, str]:
    digits = "".join(c for c in group.name if c.isdecimal())
    return (int(digits[:9]) if digits else 10**9, group.name)


def _text(value: float, doubt: float) -> str:
    return " ± ".join(with_doubt(value, doubt / 2)) if doubt > 0 else shown(value)


def _say(result: Pooled) -> str:
    n = len(result.counted)
    said = []
    labs = {group.lab for group in (*result.counted, *result.left_out)}
    if len(labs) > 1:
        said.append(message("c-labs"))
    if n == 1:
        said.append(message("c-one"))
    elif n > 1:
        said.append(
            message(
                "c-mean",
                n=n,
                mean=f"{100 * result.mean:.1f} %",
                s=f"{100 * result.s:.1f} %",
                se=f"{100 * result.error:.1f} %",
                median=f"{100 * result.median:.1f} %",
            )
        )
    if result.differ:
        said.append(message("c-differ"))
    for name in result.odd:
        said.append(message("c-odd", name=name))
    if result.left_out:
        said.append(message("c-left", names=", ".join(group.name for group in result.left_out)))
    if 1 < n < FLAG_FROM:
        said.append(message("c-few"))
    return "".join(f"<p><strong>{escape(it.start)}</strong> {escape(it.words)}</p>" for it in said)
