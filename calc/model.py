"""The declaration language: a calculator is quantities and the relations between them, written once as data."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING

from calc.rows import span_symbols, written_out

if TYPE_CHECKING:
    from calc.drawing.scene import Drawing, Scene

When = Mapping[str, str | tuple[str, ...]]


@dataclass(frozen=True)
class Quantity:
    """One number of a machine.

    ``symbol`` is the input's name, the link's parameter, the terminal's word and the key in data files. ``kind`` is
    one of ``units.KINDS``. ``us`` and ``si`` are the example as a reader would type it ("40 lbf"), or just the unit
    ("lbf") when the box starts empty. ``level`` says at which depth the box stands (0: no box, a result only).
    ``default`` is a formula that is assumed while nothing else gives a value. ``ideal`` marks a loss. ``measured``
    marks the one quantity that the class reads off its scale. ``low`` and ``high`` override the kind's limits (SI).
    ``slide`` is the slider's range in multiples of the example; a plain ratio is slid only if it has one. ``when``
    limits the box to a case. ``cut`` marks a length that somebody will saw to size: its sixteenths are rounded up.
    ``parts`` shows a length in so many parts of an inch, and in feet and inches if its unit is the foot. ``least`` is
    the condition that the smallest sought whole number fulfils; a symbol in ``typed(...)`` stands for what is typed in
    that box, which is then a limit while this one is empty ("E <= typed(E)"). ``none`` is the message code for when no
    number does.
    """

    symbol: str
    label: str
    kind: str
    us: str = ""
    si: str = ""
    level: int = 0
    hint: str = ""
    role: str = ""
    default: str = ""
    default_note: str = ""
    computed_note: str = ""
    loss: bool = False
    measured: bool = False
    low: float | None = None
    high: float | None = None
    slide: tuple[float, float] | None = None
    cut: bool = False
    parts: int = 0
    least: str = ""
    none: str = "e-noroot-plain"
    when: When = field(default_factory=dict)

    def row(self, i: int, us: str = "", si: str = "") -> Quantity:
        """The same quantity in row ``i``."""
        return replace(
            self,
            symbol=f"{self.symbol}_{i}",
            label=f"{self.label} {i}",
            us=us or self.us,
            si=si or self.si,
            default=written_out(self.default, {}, i),
        )


@dataclass(frozen=True)
class Fill:
    """What an option puts in a box that nobody has typed in, and the words that say where it comes from.

    ``us`` stands in both systems unless ``si`` gives another size, and carries its unit.
    """

    us: str
    si: str = ""
    note: str = ""

    def text(self, system: str) -> str:
        """What stands in the box when the sheet is in this system."""
        return self.si if system == "si" and self.si else self.us


@dataclass(frozen=True)
class Choice:
    """A question with named answers. The first option is the default; ``si`` names another one for SI examples.

    ``fills`` is what each option puts in boxes, by symbol. A filled box counts as given, is shown as assumed, and
    gives way to what is typed in it or follows from what is typed. ``before`` is the box that the choice stands above
    in the form; without one it stands above all boxes of its level.
    """

    symbol: str
    label: str
    options: tuple[tuple[str, str], ...]
    level: int = 1
    si: str = ""
    fills: Mapping[str, Mapping[str, Fill]] = field(default_factory=dict)
    before: str = ""

    def default(self, system: str) -> str:
        """The option that a sheet in this system starts with."""
        return self.si if system == "si" and self.si else self.options[0][0]


@dataclass(frozen=True)
class Relation:
    """A true statement about the machine, as formula text, with the words for its line of working.

    ``when`` limits it to a case: a choice's option (or several), or a view ("ideal", "expected", "measured").
    ``each`` names the rows for which it holds.
    """

    text: str
    words: str = ""
    when: When = field(default_factory=dict)
    each: str = ""


@dataclass(frozen=True)
class Condition:
    """Something that must hold (``stop``), or a remark for when ``text`` is true (not ``stop``).

    ``text`` is a comparison of formulas. A broken stop condition withdraws ``withdraws`` and all that follows from
    it (everything computed if it names nothing) and puts the message ``code`` at the box ``at``.
    """

    text: str
    code: str
    at: str
    stop: bool = True
    withdraws: tuple[str, ...] = ()
    when: When = field(default_factory=dict)


@dataclass(frozen=True)
class Sentence:
    """The answer in a sentence, for a case. ``{E}`` is a value, ``{E@ideal}`` the same in another view, ``{E@typed}``
    what stands in its box.

    Besides choices and the view, a case can ask whether the effort was ``typed``, ``found`` or a ``limit`` ("effort").
    The first sentence whose case holds and whose values are all known is used.
    """

    text: str
    when: When = field(default_factory=dict)


@dataclass(frozen=True)
class Lead:
    """A way on to another calculator, with numbers of this one in its boxes.

    ``to`` is its key, ``words`` the link's text. ``given`` is what stands in its boxes: its symbol to a formula in this
    calculator's symbols; all of them must be known. ``typed`` is what goes on only where the reader typed it: its
    symbol to this calculator's. ``choices`` are those of its choices that differ from its own start.
    """

    to: str
    words: str
    given: Mapping[str, str]
    typed: Mapping[str, str] = field(default_factory=dict)
    choices: Mapping[str, str] = field(default_factory=dict)
    when: When = field(default_factory=dict)


@dataclass(frozen=True)
class Rows:
    """A list of like things: the quantities that each row has, the example's rows, and the columns of its table.

    An example is text as a reader would type it, for both systems ("5") or for each ("40 lbf | 180 N"). The working
    tells the first row, unless it is not ``told``: where the rows only repeat the sheet's own steps.
    """

    name: str
    label: str
    quantities: tuple[Quantity, ...]
    example: tuple[Mapping[str, str], ...]
    columns: tuple[str, ...] = ()
    high: int = 8
    told: bool = True


@dataclass(frozen=True)
class Beside:
    """Results of several like things side by side: a column for each choice, headed by the option chosen in it.

    Column i has a line for each stem in ``lines``, with its label: ``symbol_i``. The option ``without`` of a choice
    leaves its column out.
    """

    choices: tuple[str, ...]
    lines: tuple[tuple[str, str], ...]
    without: str = ""

    def columns(self, chosen: Mapping[str, str]) -> list[tuple[int, str]]:
        """The number and the choice of each column that these choices have."""
        return [(i, name) for i, name in enumerate(self.choices, 1) if chosen.get(name) != self.without]

    def told(self, chosen: Mapping[str, str]) -> list[str]:
        """What the working leads to: the first column whole, and the first line of the others."""
        numbers = [i for i, _ in self.columns(chosen)]
        stems = [stem for stem, _ in self.lines]
        return [f"{stem}_{i}" for i in numbers for stem in (stems if i == numbers[0] else stems[:1])]


def when(case: When, *relations: Relation) -> tuple[Relation, ...]:
    """The relations, limited to one case."""
    return tuple(replace(relation, when={**relation.when, **case}) for relation in relations)


@dataclass(frozen=True)
class Calculator:
    """A machine as data. Everything that is shown about it follows from this declaration.

    A machine with load, effort and ideal advantage has the six lines of results. ``shows`` are further results to list,
    ``beside`` is a table of like results side by side; without any of these, all that it has is listed, or what the
    tables of its rows leave out. ``book_case`` marks what is calculated only, and never set up by a class. ``still``
    marks a picture that shows no machine in motion: it has no slider for the travel. ``draw_page`` draws a page to
    print at true size, in one width; ``page_act`` is what its button says.
    """

    key: str
    title: str
    quantities: tuple[Quantity, ...]
    relations: tuple[Relation, ...]
    choices: tuple[Choice, ...] = ()
    conditions: tuple[Condition, ...] = ()
    identities: tuple[Relation, ...] = ()
    rows: tuple[Rows, ...] = ()
    asks: tuple[str, ...] = ()
    sentences: tuple[Sentence, ...] = ()
    cautions: tuple[str, ...] = ()
    shows: tuple[str, ...] = ()
    leads: tuple[Lead, ...] = ()
    beside: Beside | None = None
    book_case: bool = False
    still: bool = False
    sources: tuple[str, ...] = ()
    draw: Callable[[Scene], Drawing | None] | None = None
    draw_work: Callable[[Scene], Drawing | None] | None = None
    draw_page: Callable[[Scene], Drawing | None] | None = None
    page_act: str = ""

    @cached_property
    def losses(self) -> frozenset[str]:
        """The symbols of the quantities that an ideal machine does not have, those in rows written out."""
        most = {group.name: group.high for group in self.rows}
        return frozenset(symbol for symbol, q in self.written_out(most).items() if q.loss)

    @cached_property
    def six_lines(self) -> bool:
        """Whether this is a machine with load, effort and ideal advantage, whose results are six lines."""
        return {"R", "E", "IMA"} <= {q.symbol for q in self.quantities}

    @cached_property
    def listed(self) -> tuple[str, ...]:
        """The results that are listed beside the six lines and the tables of rows."""
        if self.shows or self.six_lines or self.beside:
            return self.shows
        results = {q.symbol for rows in self.rows for q in rows.quantities if q.level == 0}
        tabled = {column for rows in self.rows for column in rows.columns}
        if tabled & results:
            return tuple(q.symbol for q in self.quantities if q.level == 0 and q.symbol not in tabled)
        return tuple(q.symbol for q in self.quantities)

    @cached_property
    def span_symbols(self) -> tuple[str, ...]:
        """The symbols that stand in a span: the number of terms of a sum depends on them."""
        return tuple(dict.fromkeys(name for relation in self.relations for name in span_symbols(relation.text)))

    @cached_property
    def measured(self) -> str:
        """The symbol that is read off the scale, or an empty string."""
        return next((q.symbol for q in self.quantities if q.measured), "")

    def row_counts(self, given: Iterable[str]) -> dict[str, int]:
        """How many rows of each kind the given symbols reach, at least one."""
        counts = {}
        for group in self.rows:
            names = {q.symbol for q in group.quantities}
            reached = [
                int(i)
                for symbol in given
                for stem, _, i in [symbol.rpartition("_")]
                if stem in names and i.isdecimal() and len(i) < 4
            ]
            counts[group.name] = max(1, min(max(reached, default=len(group.example)), group.high))
        return counts

    def written_out(self, counts: Mapping[str, int]) -> Mapping[str, Quantity]:
        """All quantities by symbol, those in rows written out for so many rows."""
        asked = tuple(counts[group.name] for group in self.rows)
        if asked not in self._quantities:
            self._quantities[asked] = self._rows_written_out(counts)
        return self._quantities[asked]

    @cached_property
    def _quantities(self) -> dict[tuple[int, ...], Mapping[str, Quantity]]:
        """What ``written_out`` found before."""
        return {}

    def _rows_written_out(self, counts: Mapping[str, int]) -> dict[str, Quantity]:
        found = {q.symbol: q for q in self.quantities}
        for group in self.rows:
            for i in range(1, counts[group.name] + 1):
                example = group.example[i - 1] if i <= len(group.example) else {}
                for q in group.quantities:
                    us, _, si = example.get(q.symbol, "").partition(" | ")
                    found[f"{q.symbol}_{i}"] = q.row(i, us, si or us)
        return found

    @cached_property
    def _active(self) -> dict[object, tuple[Relation, ...]]:
        """What ``active`` found before: a reader asks the same case again and again."""
        return {}

    def active(self, choices: Mapping[str, str], view: str, counts: Mapping[str, int]) -> tuple[Relation, ...]:
        """The relations of one case, rows written out.

        ``counts`` also holds the known whole numbers of spans; relations with a span of unknown length are left out.
        """
        case = {**choices, "view": view}
        asked = (tuple(case.items()), tuple(counts.items()))
        if asked not in self._active:
            self._active[asked] = self._in_case(case, counts)
        return self._active[asked]

    def _in_case(self, case: Mapping[str, str], counts: Mapping[str, int]) -> tuple[Relation, ...]:
        found: list[Relation] = []
        for relation in self.relations:
            if holds_in(relation.when, case) and counts.keys() >= set(span_symbols(relation.text)):
                rows = range(1, counts[relation.each] + 1) if relation.each else (None,)
                found.extend(self._in_row(relation, counts, i) for i in rows)
        return tuple(found)

    def _in_row(self, relation: Relation, counts: Mapping[str, int], i: int | None) -> Relation:
        label = next((rows.label for rows in self.rows if rows.name == relation.each), "")
        words = f"{label} {i}. {relation.words}" if i else relation.words
        return replace(relation, text=written_out(relation.text, counts, i), words=words)


def holds_in(case: When, chosen: Mapping[str, str]) -> bool:
    """Whether something limited to ``case`` holds for these choices."""
    return not case or all(
        chosen.get(name) in (wanted if isinstance(wanted, tuple) else (wanted,)) for name, wanted in case.items()
    )
