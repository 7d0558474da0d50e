"""What a lab owns: the kinds of things in a kit, and each thing's sizes as a teacher writes them and in SI.

A kit is lists of things, each thing a few texts with units ("12 ft"). A thing with a part that can't be read is left
out, and named with the part and the reason.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from calc.measure import read, shortened
from calc.messages import Refused
from calc.thread import THREAD_SIZE
from calc.units import KINDS

MOST_ITEMS = 200
LONGEST = 60


@dataclass(frozen=True)
class Field:
    """One size of a thing. ``kind`` is one of ``units.KINDS``, or "name" or "thread".

    ``us`` and ``si`` are the unit of a bare number. ``default`` stands where nothing is written; without one the thing
    can do without only if ``spare``. ``span`` allows "0.02 to 0.05".
    """

    name: str
    label: str
    kind: str
    us: str = ""
    si: str = ""
    default: str = ""
    spare: bool = False
    span: bool = False
    hint: str = ""


@dataclass(frozen=True)
class ItemKind:
    """A kind of thing: its word in the file, its words on the page, its sizes, and a usual one for who has none."""

    key: str
    title: str
    one: str
    fields: tuple[Field, ...]
    usual: Mapping[str, str] = field(default_factory=dict)
    hint: str = ""


_RATED = Field(
    "rated", "Maker’s rated limit", "force", "lbf", "N", spare=True, hint="Without the maker’s figure it is not used."
)
_COUNT = Field("count", "How many", "count", default="1")

ITEM_KINDS: Mapping[str, ItemKind] = {
    kind.key: kind
    for kind in (
        ItemKind(
            "scale",
            "Spring scales",
            "spring scale",
            (
                Field("capacity", "Reads up to", "force", "lbf", "N"),
                Field("division", "Division", "force", "lbf", "N", spare=True),
            ),
            {"capacity": "50 lbf"},
        ),
        ItemKind(
            "plank",
            "Planks",
            "plank",
            (
                Field("length", "Length", "length", "in", "mm"),
                Field("width", "Width", "length", "in", "mm", hint="Measured: a dressed 2×10 is 9-1/4 in wide."),
                Field("thickness", "Thickness", "length", "in", "mm", hint="Measured: a dressed 2× is 1-1/2 in thick."),
                Field("bending", "Bending limit", "stress", "psi", "MPa", default="800 psi", hint="From a stamp."),
                Field("stiffness", "Stiffness", "stress", "psi", "MPa", default="1200000 psi", hint="From a stamp."),
                Field("heft", "Weight of the wood", "heft", "lbf/ft³", "kN/m³", default="35 lbf/ft³"),
            ),
            {"length": "96 in", "width": "9.25 in", "thickness": "1.5 in"},
        ),
        ItemKind("prop", "Props for under a plank", "prop", (_RATED,)),
        ItemKind(
            "rope",
            "Ropes",
            "rope",
            (
                Field("length", "Length", "length", "ft", "m"),
                Field("diameter", "Diameter", "length", "in", "mm"),
                _RATED,
            ),
            {"length": "12 in", "diameter": "0.5 in"},
        ),
        ItemKind(
            "block",
            "Pulley blocks",
            "pulley block",
            (
                _COUNT,
                Field("sheaves", "Sheaves in one", "count"),
                Field("weight", "Weight of one", "force", "lbf", "N"),
                Field("diameter", "Sheave diameter", "length", "in", "mm", default="2.5 in"),
                Field("keeps", "A sheave passes on", "efficiency", "%", "%", default="90 % to 94 %", span=True),
                _RATED,
            ),
            {"count": "2", "sheaves": "1", "weight": "2 lbf"},
        ),
        ItemKind(
            "anchor",
            "Anchors",
            "anchor",
            (
                _RATED,
                Field(
                    "side",
                    "Rated limit, pulled sideways",
                    "force",
                    "lbf",
                    "N",
                    spare=True,
                    hint="Along a floor or a plank. Without the maker’s figure it is not pulled so.",
                ),
            ),
            hint="Rated to hang from, or to be pulled sideways. Facilities staff decide what a building carries.",
        ),
        ItemKind(
            "bar",
            "Bars",
            "bar",
            (
                Field("length", "Length", "length", "in", "mm"),
                Field("weight", "Weight", "force", "lbf", "N"),
                Field("arm", "Load arm", "length", "in", "mm", default="6 in", hint="From the load to the pivot."),
                Field("balance", "Balance point", "length", "in", "mm", spare=True, hint="From the load’s end."),
                Field("efficiency", "Efficiency", "efficiency", "%", "%", default="95 % to 100 %", span=True),
            ),
            {"length": "54 in", "weight": "8 lbf"},
        ),
        ItemKind(
            "packing",
            "Packing under a load",
            "stack of packing",
            (Field("height", "Height, stacked", "length", "in", "mm"),),
            {"height": "6 in"},
        ),
        ItemKind(
            "cart",
            "Carts",
            "cart",
            (
                Field("weight", "Weight", "force", "lbf", "N"),
                Field("rolling", "Rolling coefficient", "friction", default="0.02 to 0.05", span=True),
                _RATED,
            ),
            {"weight": "25 lbf"},
        ),
        ItemKind(
            "windlass",
            "Windlasses",
            "windlass",
            (
                Field("crank", "Crank radius", "length", "in", "mm"),
                Field("drum", "Drum diameter", "length", "in", "mm"),
                Field("width", "Drum width", "length", "in", "mm", default="8 in"),
                Field(
                    "cheek",
                    "Cheek height",
                    "length",
                    "in",
                    "mm",
                    spare=True,
                    hint="From the bare drum to the edge. Without it one layer of rope is planned.",
                ),
                Field("efficiency", "Efficiency", "efficiency", "%", "%", default="80 % to 95 %", span=True),
                _RATED,
            ),
            {"crank": "15 in", "drum": "6 in"},
        ),
        ItemKind(
            "wedge",
            "Levelling wedges",
            "levelling wedge",
            (
                Field("length", "Length", "length", "in", "mm"),
                Field("thickness", "Thickness at the butt", "length", "in", "mm"),
                Field("friction", "Friction, every face", "friction", default="0.20 to 0.50", span=True),
            ),
            {"length": "9 in", "thickness": "1.5 in"},
        ),
        ItemKind(
            "screw",
            "Screw stands",
            "screw stand",
            (
                Field("thread", "Thread", "thread"),
                Field("handle", "Handle radius", "length", "in", "mm"),
                Field("collar", "Collar mean diameter", "length", "in", "mm", default="1.1 in"),
                Field("travel", "Travel", "length", "in", "mm"),
                Field("friction", "Friction, thread and collar", "friction", default="0.10 to 0.20", span=True),
                _RATED,
            ),
            {"thread": "3/4-6-Acme", "handle": "5 in", "travel": "4 in"},
        ),
    )
}
THREADS: Mapping[str, str] = dict(THREAD_SIZE.options)


@dataclass(frozen=True)
class Item:
    """One thing of the kit. Sizes in SI; a size that may lie in a range has its two ends in ``spans``."""

    kind: str
    name: str
    sizes: Mapping[str, float] = field(default_factory=dict)
    spans: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)

    def __getitem__(self, name: str) -> float:
        """A size (SI). Raises KeyError for one that was not written."""
        return self.sizes[name]

    def get(self, name: str) -> float | None:
        """A size (SI), or None."""
        return self.sizes.get(name)

    @property
    def rated(self) -> float:
        """The maker's rated limit (N); zero where there is none, since without one nothing may hang on it."""
        return self.sizes.get("rated", 0.0)

    def changed(self, name: str, **sizes: float) -> Item:
        """Another such thing that differs in these sizes."""
        return replace(self, name=name, sizes={**self.sizes, **sizes})


@dataclass(frozen=True)
class Kit:
    """Everything the lab owns that could be read."""

    items: tuple[Item, ...] = ()

    def of(self, kind: str) -> list[Item]:
        """The things of one kind, in the file's order."""
        return self._by_kind.get(kind, [])

    @cached_property
    def _by_kind(self) -> dict[str, list[Item]]:
        found: dict[str, list[Item]] = {}
        for item in self.items:
            found.setdefault(item.kind, []).append(item)
        return found

    def and_also(self, *items: Item) -> Kit:
        """The kit with more things in it."""
        return Kit((*self.items, *items))


@dataclass(frozen=True)
class Problem:
    """Something in a kit that could not be used: which kind, which thing (from 0), which field, and why."""

    kind: str
    index: int
    field: str
    words: str
    left_out: bool = True


Rows = Mapping[str, list[dict[str, str]]]


def read_kit(rows: Any, system: str = "us") -> tuple[Kit, list[Problem]]:
    """A kit from its texts: kind to a list of things, each field to text. Never raises."""
    items: list[Item] = []
    problems: list[Problem] = []
    for kind, index, row in things(rows):
        if kind not in ITEM_KINDS:
            problems.append(Problem(kind, index, "", f"I do not know “{shortened(kind)}”. It was passed over.", False))
        elif len(items) >= MOST_ITEMS:
            problems.append(Problem(kind, index, "", f"A kit holds {MOST_ITEMS} things. The rest was left out."))
            break
        elif item := _item(ITEM_KINDS[kind], index, row, system, problems):
            items.append(item)
    return Kit(tuple(items)), problems


def things(rows: Any) -> Iterator[tuple[str, int, dict[str, str]]]:
    """Every thing of a kit's texts: its kind, its place among its kind from 0, and its filled fields."""
    for kind, listed in rows.items() if isinstance(rows, Mapping) else ():
        for index, row in enumerate(listed if isinstance(listed, list) else ()):
            if isinstance(row, Mapping):
                texts = {str(k): str(v).strip() for k, v in row.items() if isinstance(v, str | int | float)}
                if filled := {name: text for name, text in texts.items() if text}:
                    yield str(kind), index, filled


def _item(kind: ItemKind, index: int, row: Mapping[str, str], system: str, problems: list[Problem]) -> Item | None:
    sizes: dict[str, float] = {}
    spans: dict[str, tuple[float, float]] = {}
    words: dict[str, str] = {}
    whole = True
    known = {spec.name for spec in kind.fields} | {"name"}
    for name in row:
        if name not in known:
            note = f"A {kind.one} has no “{shortened(name)}”. It was passed over."
            problems.append(Problem(kind.key, index, name, note, left_out=False))
    for spec in kind.fields:
        text = row.get(spec.name) or spec.default
        if not text:
            if not spec.spare:
                problems.append(Problem(kind.key, index, spec.name, f"Fill in {spec.label.lower()} first."))
                whole = False
            continue
        try:
            _take(spec, text, system, sizes, spans, words)
        except Refused as refused:
            problems.append(Problem(kind.key, index, spec.name, refused.message.text))
            whole = False
    name = row.get("name", "")[:LONGEST] or kind.one.capitalize()
    return Item(kind.key, name, sizes, spans, words) if whole else None


def _take(
    spec: Field,
    text: str,
    system: str,
    sizes: dict[str, float],
    spans: dict[str, tuple[float, float]],
    words: dict[str, str],
) -> None:
    """Read one field into its place. Raises Refused."""
    if spec.kind == "thread":
        if text not in THREADS or not any(ch.isdigit() for ch in text):
            raise Refused("e-choice", x=shortened(text), name=spec.label, list="3/4-6-Acme, 1/2-10-Acme, Tr20x4, M12")
        words[spec.name] = text
        return
    ends = [part.strip() for part in text.split(" to ")] if spec.span else [text]
    values = sorted(_size(spec, part, system) for part in (ends if len(ends) == 2 else [text]))
    if spec.span:
        spans[spec.name] = (values[0], values[-1])
    else:
        sizes[spec.name] = values[0]


def _size(spec: Field, text: str, system: str) -> float:
    kind = KINDS[spec.kind]
    value = read(text, kind, spec.label, spec.us if system == "us" else spec.si, system).nominal
    if value < 0:
        raise Refused("e-neg", name=spec.label)
    if value == 0 and not kind.zero:
        raise Refused("e-zero", name=spec.label)
    if kind.whole and value != round(value):
        raise Refused("e-int", name=spec.label)
    if kind.name == "efficiency" and value > 1:
        raise Refused("e-eff100")
    if not kind.low <= value <= kind.high:
        low, high = (f"{edge:g}" for edge in (kind.low, kind.high))
        raise Refused("e-range", name=spec.label, a=f"{low} {kind.si}".strip(), b=f"{high} {kind.si}".strip())
    return value


def usual(kind: str) -> Item:
    """A usual thing of this kind without a maker's rating, for a kit that has none."""
    spec = ITEM_KINDS[kind]
    found: list[Problem] = []
    item = _item(spec, 0, {"name": f"another {spec.one}", **spec.usual}, "us", found)
    assert item is not None, found
    return item


def columns() -> dict[str, Any]:
    """What the page needs to edit a kit: each kind with its fields and their words."""
    return {
        kind.key: {
            "title": kind.title,
            "one": kind.one,
            "a": f"{'an' if kind.one[0] in 'aeio' else 'a'} {kind.one}",
            "hint": kind.hint,
            "fields": [
                {"name": f.name, "label": f.label, "default": f.default, "hint": f.hint}
                | {"units": {"us": f.us, "si": f.si}, "needed": not (f.default or f.spare)}
                for f in (Field("name", "Name", "name", spare=True), *kind.fields)
            ],
        }
        for kind in ITEM_KINDS.values()
    }
