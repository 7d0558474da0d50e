"""Requests as a page sends them, with one part or another gone wrong, for every use of the door."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import calc
from calc.lab.plan import LABS
from calc.link import read
from calc.plan.kit import ITEM_KINDS
from calc.practice.families import MACHINES
from calc.registry import CALCULATORS
from tests.hostile.typed import MARKUP, ODD, Dice

Request = dict[str, Any]
GARDEN = (Path(__file__).parents[2] / "shared/kits/garden.toml").read_text("utf-8")
KIT = calc.answer({"kit_file": GARDEN})["kit"]
SYSTEMS = ("us", "si")
_KEYS = sorted(CALCULATORS)
_LABS = sorted(LABS)
_EXAMPLES = {(key, units): calc.example(key, units) for key in _KEYS for units in SYSTEMS}


def _symbols(key: str) -> list[str]:
    calculator = CALCULATORS[key]
    quantities = calculator.written_out(calculator.row_counts(()))
    rows = [f"{q.symbol}_{i}" for rows in calculator.rows for q in rows.quantities for i in (1, 2, 7, 10**6)]
    return [*quantities, *rows, "zz", "E_", "F_x"]


_SYMBOLS = {key: _symbols(key) for key in _KEYS}
_CHOICES = {choice.symbol for calculator in CALCULATORS.values() for choice in calculator.choices}


def units(dice: Dice) -> Any:
    """A system of units, or something else."""
    return dice.mostly(lambda: dice.one(SYSTEMS))


def sheet(dice: Dice, key: str) -> Request:
    """A calculator's sheet: some boxes of its example emptied, changed or spoiled, others filled."""
    example = _EXAMPLES[key, dice.one(SYSTEMS)]
    given: dict[str, Any] = {}
    for symbol, text in example["given"].items():
        action = dice.one("kkknnnne")
        if action != "e":
            given[symbol] = text if action == "k" else dice.near(text)
    for _ in dice.some(3):
        given[dice.one(_SYMBOLS[key])] = dice.mostly(dice.typed)
    choices = dict(example["choices"])
    for choice in CALCULATORS[key].choices:
        if dice.likely(0.5):
            choices[choice.symbol] = dice.mostly(lambda choice=choice: dice.one(choice.options)[0])
    request = {**example, "given": given, "choices": choices}
    for _ in dice.some(3):
        name = dice.one(_BESIDES)
        request[name] = dice.mostly(lambda name=name: _beside(dice, name, _SYMBOLS[key]))
    return request


_BESIDES = ("digits", "edited", "draw", "draw", "travel", "asked", "only", "from_link", "hide", "predicted", "units")


def _beside(dice: Dice, name: str, symbols: list[str]) -> Any:
    if name in ("asked", "from_link", "hide"):
        return [dice.mostly(lambda: dice.one(symbols)) for _ in dice.some(4)]
    if name == "predicted":
        texts = ({"text": dice.mostly(dice.typed), "units": units(dice)} for _ in dice.some(2))
        return {dice.one(symbols): text for text in texts}
    if name == "draw" and dice.likely(0.3):
        return {part: _picture(dice) for part in ("machine", "work", "page")}
    if name == "draw":
        return _picture(dice)
    one_of: dict[str, tuple[Any, ...]] = {
        "digits": (3, 6),
        "edited": tuple(symbols),
        "travel": (0, 33, 100, 50.5),
        "only": ("numbers", "working", "pictures"),
    }
    return dice.one(one_of[name]) if name in one_of else dice.one(SYSTEMS)


def _picture(dice: Dice) -> Any:
    return dice.mostly(lambda: dice.one(("wide", "narrow", "both")))


def fragment(dice: Dice) -> str:
    """The end of an address: parts of a true link, some spoiled, in any order."""
    key = dice.one(_KEYS) if dice.likely(0.9) else dice.typed()
    names = [*_SYMBOLS.get(key, ["R", "E"]), "v", "u", "c", "level", "hide", "lock", "class"]
    parts = [f"c={key}"]
    for symbol, text in _EXAMPLES.get((key, "us"), {"given": {}})["given"].items():
        parts.append(f"{symbol}={dice.near(text)}")
    for _ in dice.some(5):
        name = dice.one(names) if dice.likely(0.9) else dice.noise()
        parts.append(f"{name}{'=' if dice.likely(0.95) else ''}{dice.typed()}")
    dice.shuffle(parts)
    return "&".join(parts)


def link(dice: Dice) -> Request:
    """What the page asks for when such a link is opened."""
    return read(fragment(dice), _CHOICES)


def record_sheet(dice: Dice) -> Request:
    """A lab's record sheet: its sample with cells changed or spoiled, other instruments, more rows."""
    key = dice.one(_LABS)
    request: Request = calc.sample_record(key, dice.one(SYSTEMS))
    rows = [dict(row) for row in request["rows"]]
    names = [*(column.symbol for column in LABS[key].columns), "out", "zz"]
    for _ in dice.some(4):
        if not rows or dice.likely(0.4):
            rows.append({})
        row, name = dice.one(rows), dice.one(names)
        row[name] = dice.mostly(lambda row=row, name=name: dice.near(row[name]) if name in row else dice.typed())
    once = {
        s: dice.one((text, dice.near(text), dice.typed())) for s, text in request["once"].items() if dice.likely(0.9)
    }
    tools = dict(request["tools"])
    for _ in dice.some(3):
        tool = dice.one([*tools, "hook", "position", "accuracy", "zz"])
        tools[tool] = dice.mostly(lambda: dice.one(_INSTRUMENTS) if dice.likely(0.6) else dice.typed())
    request |= {
        "rows": dice.mostly(lambda: rows),
        "once": dice.mostly(lambda: once),
        "tools": dice.mostly(lambda: tools),
    }
    more = {
        "tare": dice.typed,
        "group": dice.typed,
        "draw": lambda: _picture(dice),
        "file": lambda: True,
        "units": lambda: units(dice),
    }
    return request | {name: dice.mostly(value) for name, value in more.items() if dice.likely(0.3)}


_INSTRUMENTS = ("lbf", "N", "kg", "g", "slope", "use", "level", "0.001", "1e5")


def csv_file(dice: Dice) -> str:
    """A record sheet as a file: lines of true ones and spoiled ones, cut at any sign, with any end of line."""
    lines: list[list[str]] = []
    for _ in dice.some(4):
        lines.append([dice.one(_SETTINGS), *(_cell(dice) for _ in dice.some(2))])
    for _ in range(dice.one((0, 1, 1, 1, 1, 2))):
        lines.append(["trial", *(dice.one(_HEADS) if dice.likely(0.85) else dice.typed() for _ in dice.some(6))])
    for _ in dice.some(6):
        lines.append([dice.one(("1", "2", "")), *(_cell(dice) for _ in dice.some(6))])
    cut, end = dice.one((",", ",", ";", "\t", ", ")), dice.one(("\n", "\r\n", "\r", "\n\n"))
    before, after = dice.one(("", "", "", "\ufeff", '"', "\x00")), dice.one(("", "\n", '"', dice.typed()))
    return before + end.join(cut.join(cells) for cells in lines) + after


_SETTINGS = ("record", "units", "group", "tare", "scale unit", "scale division", "tape division", "L", "h", "zz")
_HEADS = (
    "R (lbf)",
    "E (lbf)",
    "E (N)",
    "dR (in)",
    "dE [mm]",
    "dE (in)",
    "E_lower (lbf)",
    "out",
    "note",
    "R",
    "E",
    "zz",
)
_CELLS = ("36", "12.5", "36", "12.5", "96", "24", "x", '"', '""', *_LABS, *SYSTEMS, "N", "")


def _cell(dice: Dice) -> str:
    return dice.one(_CELLS) if dice.likely(0.7) else dice.typed()


def opened_sheet(dice: Dice) -> Request:
    """A file chosen on a record sheet."""
    return {"record": "ramp-lab", "open": csv_file(dice)}


def group_table(dice: Dice) -> str:
    """A table with a line for each group."""
    names = ["group", "R", "E", "dR", "dE"]
    if dice.likely(0.3):
        dice.shuffle(names)
        names.insert(0, "group")
    rows = [[dice.one(_SIZES) if dice.likely(0.8) else dice.typed() for _ in range(dice.one((5, 5, 5, 3, 6)))]]
    rows += [[dice.typed(), *(dice.one(_SIZES) for _ in range(4))] for _ in dice.some(5)]
    cut = dice.one((",", ";", "\t"))
    return "\n".join(cut.join(cells) for cells in [names, *rows])


_SIZES = ("36", "12.5", "96", "24", "0", "1e9", "1e-6", "7")


def class_file(dice: Dice) -> Request:
    """A file chosen on the class's page: a record sheet, or a table of groups."""
    text = group_table(dice) if dice.likely(0.5) else csv_file(dice)
    return {"group_file": text, "name": dice.mostly(dice.typed)}


def class_of_groups(dice: Dice) -> Request:
    """A class's groups as they came back from the page, or as somebody made them up."""

    def size() -> float:
        return dice.uniform(0.01, 100) if dice.likely(0.8) else dice.one((0, 1, -1, 1e30, 1e308, -1e308, 5e-324, 1e-9))

    def group() -> Request:
        numbers = {name: dice.mostly(size) if dice.likely(0.3) else size() for name in _NUMBERS}
        lab = dice.one(_LABS) if dice.likely(0.95) else dice.json()
        impossible = dice.likely(0.2) if dice.likely(0.9) else dice.json()
        counted = dice.one((0, 1, 9)) if dice.likely(0.9) else dice.json()
        return {**numbers, "name": dice.mostly(dice.typed), "lab": lab, "n": counted, "impossible": impossible}

    return {"class": dice.mostly(lambda: [dice.mostly(group) for _ in dice.some(7)])}


_NUMBERS = ("load", "effort", "ama", "ama_doubt", "ima", "ima_doubt", "eta", "eta_doubt")


def _thing(dice: Dice) -> Request:
    names = ((dice.one(_FIELDS) if dice.likely(0.95) else dice.noise()) for _ in dice.some(5))
    return {name: dice.mostly(lambda: _field(dice)) for name in names}


_FIELDS = sorted({field.name for kind in ITEM_KINDS.values() for field in kind.fields} | {"name", "zz"})
_VALUES = ("12 ft", "50 lbf", "9 in", "0.02 to 0.05", "90 % to 94 %", "3/4-6-Acme", "M12", " to ", "1 to 2 to 3", "2")


def _field(dice: Dice) -> str:
    return dice.one(_VALUES) if dice.likely(0.7) else dice.typed()


def kit(dice: Dice) -> Any:
    """The garden's kit with things taken out, changed, spoiled and added."""
    kinds = [*ITEM_KINDS, "piano"]
    gone = {dice.one(kinds) for _ in dice.some(4)}
    found: Request = {kind: [dict(thing) for thing in things] for kind, things in KIT.items() if kind not in gone}
    for things in found.values():
        for thing in things:
            if dice.likely(0.15):
                thing[dice.one([*thing])] = dice.mostly(lambda: _field(dice))
    for _ in dice.some(3):
        found.setdefault(dice.one(kinds), []).append(dice.mostly(lambda: _thing(dice)))
    return dice.mostly(lambda: found)


_BOXES = {box["symbol"]: box["us"].partition(" ")[0] for box in calc.describe_plan()["boxes"]}
_ASKED = [choice["symbol"] for choice in calc.describe_plan()["choices"]]


def plan(dice: Dice) -> Request:
    """A task for the planner with such a kit."""
    task: Request = {"R": "60 lbf", "h": "24 in"}
    for symbol, text in _BOXES.items():
        if symbol in task or dice.likely(0.2):
            task[symbol] = dice.mostly(lambda text=text: dice.near(text or "24") if dice.likely(0.7) else dice.typed())
    for symbol in _ASKED:
        if dice.likely(0.2):
            task[symbol] = dice.mostly(lambda: dice.one(("thing", "thing", "person", "people")))
    request = {"plan": dice.mostly(lambda: task), "kit": kit(dice)}
    more = {"units": lambda: dice.one(SYSTEMS), "card": lambda: dice.one((0, 1, 2, 5, 11, -1)), "name": dice.typed}
    return request | {name: dice.mostly(value) for name, value in more.items() if dice.likely(0.6)}


def kit_text(dice: Dice) -> str:
    """A kit file: the garden's with lines cut out, changed or put in."""
    if dice.likely(0.05):
        return dice.noise()
    lines = GARDEN.split("\n")
    start = int(dice.random() * len(lines)) if dice.likely(0.5) else 0
    part = lines[start : start + int(dice.random() * 90)]
    for _ in dice.some(5):
        part.insert(int(dice.random() * (len(part) + 1)), _line(dice))
    return dice.one(("\n", "\n", "\n", "\r\n", "\r")).join(part)


def _line(dice: Dice) -> str:
    form = dice.one("vvvht")
    if form == "t":
        return dice.typed()
    if form == "h":
        return f"[[{dice.one([*ITEM_KINDS]) if dice.likely(0.8) else dice.typed()}]]"
    key = dice.one(_FIELDS) if dice.likely(0.8) else dice.typed()
    value = dice.one(_TOML) if dice.likely(0.4) else '"' + _field(dice).replace('"', '\\"') + '"'
    return f"{key} = {value}"


_TOML = (
    *("1", "1.5", "inf", "nan", "-0", "0x1F", "true", "1979-05-27", "07:32:00", "1979-05-27T07:32:00Z", "[1, 2]", "2"),
    *("{ a = 1 }", '"""a\nb"""', "'''", "[[", "[" * 50, "1" * 5000, "0x" + "f" * 900, '"\\uD800"', '"\\U00110000"'),
)


def kit_file(dice: Dice) -> Request:
    """A kit's file chosen on the planner's page, or a kit to be written."""
    if dice.likely(0.8):
        return {"kit_file": dice.mostly(lambda: kit_text(dice))}
    return {"write_kit": kit(dice), "name": dice.mostly(dice.typed), "units": units(dice)}


def practice(dice: Dice) -> Request:
    """Practice: a set's settings, an answer to be marked, paper for the teacher."""
    settings: Request = {"families": ["lever", "ramp"], "seat": 3}
    more = {
        "set": lambda: dice.one(("garden-1", dice.noise())),
        "families": lambda: [dice.mostly(lambda: dice.one([*MACHINES])) for _ in dice.some(3)],
        "level": lambda: dice.one((0, 1, 2, 3, "1", dice.typed())),
        "count": lambda: dice.one((0, 1, 6, 20, 21)),
        "units": lambda: dice.one(SYSTEMS),
        "seat": lambda: dice.one((0, 1, 7, 40, "3")),
        "version": lambda: "1",
        "link": lambda: dice.one((fragment(dice), f"p={dice.typed()}", "p=garden-1;lever;2;6;us;7&v=1")),
    }
    settings |= {name: dice.mostly(value) for name, value in more.items() if dice.likely(0.2)}
    request = {"practice": dice.mostly(lambda: settings)}

    def question() -> int:
        return int(dice.random() * 9)

    def seats() -> list[Any]:
        return [dice.mostly(lambda: dice.one((0, 1, 2, 30, 33))) for _ in dice.some(3)]

    use = dice.one(("mark", "mark", "mark", "picture", "key", "sheets", ""))
    if use == "mark":
        told = {"question": dice.mostly(question), "typed": dice.mostly(dice.typed)}
        told |= {"misses": dice.mostly(lambda: dice.one((0, 1, 2, 3)))} if dice.likely(0.5) else {}
        told |= {"hint": dice.mostly(lambda: dice.likely(0.5))} if dice.likely(0.2) else {}
        request["mark"] = dice.mostly(lambda: told)
    elif use:
        request[use] = dice.mostly(question if use == "picture" else seats)
    return request


_DOORS = (
    "calculator",
    "record",
    "open",
    "class",
    "group_file",
    "plan",
    "kit",
    "kit_file",
    "write_kit",
    "practice",
    "mark",
)
_NAMES = (
    *_DOORS,
    "given",
    "choices",
    "units",
    "draw",
    "rows",
    "once",
    "tools",
    "card",
    "key",
    "sheets",
    "picture",
    "name",
)


def anything(dice: Dice) -> Request:
    """Any JSON object, most often with names that the door knows."""

    def value() -> Any:
        return dice.json() if dice.likely(0.6) else dice.one((*_KEYS, *_LABS, *MARKUP, *ODD))

    return {(dice.one(_NAMES) if dice.likely(0.9) else dice.typed()): value() for _ in dice.some(6)}
