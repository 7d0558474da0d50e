"""What the readings of a sheet say together: means with their doubt, the machine's answer for them, and the verdict.

The relations are the calculators' own: the means go in as typed values with their doubt, and come out propagated.
Sources: JCGM 100:2008 (the GUM), clauses 4 to 6 (k = 2 for about 95 %). The verdict compares AMA and IMA within the
expanded uncertainty of their difference.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from uncertainties import nominal_value, std_dev

from calc.answer import solved
from calc.figures import shown, with_doubt
from calc.lab.cells import Row
from calc.lab.plan import Lab
from calc.lab.scale import Instruments, hook_share, in_good_range, of_reading, rectangular
from calc.lab.statistics import StraightLine, Summary, odd_ones, straight_line, summary
from calc.library import table_of
from calc.messages import Message, message
from calc.question import box_unit
from calc.units import KINDS, factor

TRIALS_FOR_A_VERDICT = 3
FEW = 5


@dataclass(frozen=True)
class Trial:
    """One complete row: its number, load and effort in newtons (corrected), and what comes of them."""

    number: int
    load: float
    effort: float
    ama: float
    impossible: bool = False


@dataclass
class Judged:
    """All that a sheet's readings say. Values in SI, ``u`` standard uncertainties."""

    columns: dict[str, Summary] = field(default_factory=dict)
    trials: list[Trial] = field(default_factory=list)
    waiting: list[int] = field(default_factory=list)
    left_out: list[int] = field(default_factory=list)
    odd: dict[str, list[int]] = field(default_factory=dict)
    values: dict[str, tuple[float, float]] = field(default_factory=dict)
    ima: tuple[float, float] | None = None
    paths_ima: tuple[float, float] | None = None
    line: StraightLine | None = None
    verdicts: list[tuple[str, Message]] = field(default_factory=list)
    causes: tuple[str, ...] = ()

    @property
    def good(self) -> list[Trial]:
        """The trials that count: the possible ones, or all if none is."""
        return [trial for trial in self.trials if not trial.impossible] or self.trials


def judge(
    lab: Lab,
    once: Mapping[str, Any],
    choices: Mapping[str, str],
    rows: Sequence[Row],
    tools: Instruments,
    tare: float,
    system: str,
) -> Judged:
    """Judge the rows of a sheet.

    ``once`` are readable boxes by symbol (SI, nominal); ``tare`` is what holds an empty bar up (N), added to each pull.
    """
    judged = Judged(left_out=[row.number for row in rows if row.out])
    used = [row for row in rows if not row.out]
    corrected, u_added = _corrections(once, tools, tare)
    loads, complete = _trials(lab, rows, judged)
    if not complete:
        _say_what_is_missing(judged, used)
        return judged
    given = _once_in_words(lab, once, tools, system)
    judged.ima = ima = _ima(lab, given, choices, complete[0][0], system)
    for row, load in complete:
        effort = row.values["E"] + corrected
        judged.trials.append(_trial(row, load, effort, ima, tools, u_added))
    counted = {trial.number for trial in judged.good}
    columns = {c.symbol: c for c in lab.columns}
    for symbol, column in columns.items():
        values = [row.values[symbol] for row in used if row.number in counted and symbol in row.values]
        if symbol == "R":
            values = [
                row.values["R"] for row in used if "R" in row.values and (row.number in counted or len(loads) == 1)
            ] or [load for row, load in complete if row.number in counted][:1]
        if not values:
            continue
        found = summary(values, of_reading(column.kind, tools))
        if column.along:
            found = replace(found, mean=found.mean + corrected, u=math.hypot(found.u, u_added))
        judged.columns[symbol] = found
        division = tools.division if column.kind == "force" else tools.tape
        numbers = [row.number for row in used if row.number in counted and symbol in row.values]
        if symbol in ("R", "E") and len(numbers) == len(values) and not several_loads(judged.trials):
            odd = [numbers[i] for i in odd_ones(values, division)]
            if odd:
                judged.odd[symbol] = odd
    _solve(lab, given, choices, judged, tools, system)
    _verdict(lab, judged, tools)
    return judged


def fitted(good: Sequence[Trial], tools: Instruments) -> StraightLine | None:
    """The line E = a + b R (N) through the means at each load, or None for fewer than three loads.

    Loads within two divisions of the scale count as one. The doubt of each mean is its repeats' and the scale's.
    """
    groups: list[list[Trial]] = []
    for trial in sorted(good, key=lambda it: it.load):
        if groups and trial.load - groups[-1][0].load <= 2 * tools.division:
            groups[-1].append(trial)
        else:
            groups.append([trial])
    if len(groups) < 3:
        return None
    u = of_reading("force", tools)
    sums = [summary([trial.effort for trial in group], u) for group in groups]
    loads = [math.fsum(trial.load for trial in group) / len(group) for group in groups]
    return straight_line(loads, [it.mean for it in sums], [it.u for it in sums])


def several_loads(trials: Sequence[Trial]) -> bool:
    """Whether the trials were made with loads so different that their mean says nothing."""
    loads = [trial.load for trial in trials]
    return bool(loads) and max(loads) > 1.15 * min(loads)


def slope_of(once: Mapping[str, float]) -> float | None:
    """The ramp's angle in radians from its rise and slope length, or None if they do not give one."""
    return math.asin(min(once["h"] / once["L"], 1.0)) if {"h", "L"} <= once.keys() and once["L"] else None


def _corrections(once: Mapping[str, Any], tools: Instruments, tare: float) -> tuple[float, float]:
    """What to add to each pull (N), and the standard uncertainty of that."""
    slope = slope_of(once)
    if tools.position == "slope" and slope is None:
        return tare, 0.0
    share = hook_share(tools.position, slope)
    u_hook = share * rectangular(tools.division / 2) if tools.hook else 0.0
    u_tare = rectangular(tools.division / 2) if tare else 0.0
    return share * tools.hook + tare, math.hypot(u_hook, u_tare)


def _trials(lab: Lab, rows: Sequence[Row], judged: Judged) -> tuple[set[float], list[tuple[Row, float]]]:
    """The rows that are trials, each with its load: an empty load is that of the row above."""
    needed = [c.symbol for c in lab.columns if c.needed]
    load, loads, complete = None, set(), []
    for row in rows:
        load = row.values.get("R", load if "R" not in row.typed else None)
        if row.out:  # its load was weighed all the same, and may stand for the rows below
            continue
        if load is not None and all(symbol in row.values for symbol in needed):
            complete.append((row, load))
            loads.add(load)
        elif set(row.typed) - {"note"}:
            judged.waiting.append(row.number)
    return loads, complete


def _say_what_is_missing(judged: Judged, used: Sequence[Row]) -> None:
    code = "v-load" if any("E" in row.values for row in used) else "v-empty"
    judged.verdicts.append(("look", message(code)))


def _typed(value: float, u: float, unit: str) -> str:
    """A value with its doubt as a reader would type it (k = 2), in full figures."""
    return f"{value:.12g} ± {2 * u:.12g} {unit}" if u > 0 else f"{value:.10g} {unit}"


def _once_in_words(lab: Lab, once: Mapping[str, Any], tools: Instruments, system: str) -> dict[str, str]:
    """The boxes that are measured once, as the calculator takes them, with their instruments' doubt."""
    quantities = {q.symbol: q for q in lab.calculator.quantities}
    words = {}
    for symbol, value in once.items():
        kind = quantities[symbol].kind
        if kind in ("force", "length", "pitch"):
            u = of_reading("force" if kind == "force" else "calliper" if symbol in lab.calliper else "length", tools)
            u /= lab.shared_by.get(symbol, 1)
            words[symbol] = _typed(value, u, "N" if kind == "force" else "m")
        else:
            unit = box_unit(quantities[symbol], system)
            words[symbol] = f"{value / factor(unit):.10g} {unit}".strip() if KINDS[kind].us else f"{value:.10g}"
    return words


def _ima(
    lab: Lab, given: Mapping[str, str], choices: Mapping[str, str], row: Row, system: str
) -> tuple[float, float] | None:
    """The ideal advantage of the machine and its standard uncertainty, or None if the sizes do not give it.

    No force goes in: with a size missing, the calculator would take the effort for an ideal one.
    """
    paths = {symbol: f"{row.values[symbol]:.10g} m" for symbol in ("dR", "dE")} if not lab.once else {}
    return _ask(lab, {**given, **paths}, choices, system).get("IMA")


def _ask(lab: Lab, boxes: Mapping[str, str], choices: Mapping[str, str], system: str) -> dict[str, tuple[float, float]]:
    """What the calculator says, each value with its standard uncertainty."""
    request = {"calculator": lab.calculator_key, "given": dict(boxes), "choices": dict(choices), "units": system}
    return {s: (float(nominal_value(v)), float(std_dev(v))) for s, v in solved(request).items()}


def _trial(
    row: Row, load: float, effort: float, ima: tuple[float, float] | None, tools: Instruments, u_added: float
) -> Trial:
    ama = load / effort
    if ima is None:
        return Trial(row.number, load, effort, ama)
    u = of_reading("force", tools)
    u_ama = ama * math.hypot(u / load, math.hypot(u, u_added) / effort)
    return Trial(row.number, load, effort, ama, ama - ima[0] > 2 * math.hypot(u_ama, ima[1]))


def _solve(
    lab: Lab, given: Mapping[str, str], choices: Mapping[str, str], judged: Judged, tools: Instruments, system: str
) -> None:
    """Put the means into the calculator and keep what it says of them."""
    columns = judged.columns
    boxes = dict(given)
    if judged.ima is None:
        return
    if several_loads(judged.trials):  # a mean of different loads means nothing; the line through them says more
        judged.line = fitted(judged.good, tools)
        return
    for symbol in ("R", "E"):
        if symbol in columns:
            boxes[symbol] = _typed(columns[symbol].mean, columns[symbol].u, "N")
    symbols = {q.symbol for q in lab.calculator.quantities}
    if not lab.once:
        boxes |= {s: _typed(columns[s].mean, columns[s].u, "m") for s in ("dR", "dE") if s in columns}
    elif "dR" in columns and "h" in symbols and "h" not in given:
        boxes["h"] = _typed(columns["dR"].mean, columns["dR"].u, "m")
    found = _ask(lab, boxes, choices, system)
    judged.values = {s: found[s] for s in ("IMA", "AMA", "eta", "Win", "Wout", "Wlost", "dR", "dE") if s in found}
    if lab.once and {"dR", "dE"} <= columns.keys():
        hand, load = columns["dE"], columns["dR"]
        ratio = hand.mean / load.mean
        judged.paths_ima = (ratio, ratio * math.hypot(hand.u / hand.mean, load.u / load.mean))


def _verdict(lab: Lab, judged: Judged, tools: Instruments) -> None:
    """Name what the numbers say, the gravest first."""
    say = judged.verdicts.append
    n = len(judged.good)
    if judged.ima is None and n >= TRIALS_FOR_A_VERDICT:
        say(("look", message("v-sizes")))
    elif several_loads(judged.trials):
        _say_the_law(judged)
    elif n < TRIALS_FOR_A_VERDICT:
        say(("look", message("v-repeat", n=f"{n} trial" if n == 1 else f"{n} trials")))
    elif {"AMA", "IMA"} <= judged.values.keys():
        _compare(lab, judged)
    for trial in judged.trials:
        if trial.impossible and trial not in judged.good:
            say(("stop", message("v-row", row=trial.number)))
    for symbol, rows in judged.odd.items():
        name = "load" if symbol == "R" else "effort"
        say(("look", message("v-odd", name=name, rows=_listed([str(row) for row in rows]))))
    if "E" in judged.columns and (code := in_good_range(judged.columns["E"].mean, tools)):
        say(("look", message(f"v-{code}")))
    if judged.paths_ima and "IMA" in judged.values:
        (a, u_a), (b, u_b) = judged.paths_ima, judged.values["IMA"]
        if abs(a - b) > 2 * math.hypot(u_a, u_b) and abs(a - b) > 0.02 * b:
            say(("look", message("v-paths", a=shown(a), b=shown(b))))
    if TRIALS_FOR_A_VERDICT <= n < FEW:
        say(("fine", message("v-few")))


def _say_the_law(judged: Judged) -> None:
    """With several loads: what the line through them says, or that it takes a third load."""
    if judged.ima and all(trial.impossible for trial in judged.trials):
        found = [trial.ama for trial in judged.trials]
        _say_over(judged, {"ama": f"{shown(min(found))} to {shown(max(found))}", "ima": shown(judged.ima[0])})
        return
    if judged.line is None or judged.ima is None:
        judged.verdicts.append(("look", message("v-loads")))
        return
    line, (ima, u_ima) = judged.line, judged.ima
    if line.b <= 0:  # the effort does not grow with the load at all
        _say_with_causes(judged, message("v-steep"))
        return
    eta = 1 / (ima * line.b)
    u_eta = eta * math.hypot(line.u_b / line.b, u_ima / ima)
    if eta - 1 > 2 * u_eta:
        _say_with_causes(judged, message("v-steep"))
    else:
        judged.verdicts.append(("fine", message("v-law", eta=_percent((eta, u_eta)))))


def _compare(lab: Lab, judged: Judged) -> None:
    say = judged.verdicts.append
    (ama, u_ama), (ima, u_ima) = judged.values["AMA"], judged.values["IMA"]
    difference, doubt = ama - ima, 2 * math.hypot(u_ama, u_ima)
    words = {
        "ama": " ± ".join(with_doubt(ama, u_ama)),
        "ima": " ± ".join(with_doubt(ima, u_ima)) if u_ima else shown(ima),
    }
    eta = judged.values.get("eta", (ama / ima, 0.0))
    if difference > doubt:
        _say_over(judged, words)
    elif abs(difference) <= doubt:
        say(("fine", message("v-none", **words)))
    elif eta[0] < lab.low:
        say(("look", message("v-low", eta=_percent(eta), **words)))
    else:
        say(("fine", message("v-normal", eta=_percent(eta), **words)))


def _say_over(judged: Judged, words: Mapping[str, str]) -> None:
    _say_with_causes(judged, message("v-over", **words))


def _say_with_causes(judged: Judged, problem: Message) -> None:
    judged.causes = tuple(table_of("messages.toml")["v-over"]["causes"])
    judged.verdicts.append(("stop", problem))


def _percent(eta: tuple[float, float]) -> str:
    return " ± ".join(with_doubt(100 * eta[0], 100 * eta[1])) + " %" if eta[1] else f"{shown(100 * eta[0])} %"


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]
