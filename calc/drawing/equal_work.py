"""Effort against effort distance: the line of equal work, and one machine as a rectangle under it.

Force is height and distance is width, each to one scale, so that area is work. While the machine changes, the scales
stay; only a machine beyond the paper's edge changes them, and then so that the same work keeps its area.
"""

from __future__ import annotations

from dataclasses import dataclass

from .axes import number, round_step
from .canvas import BACKGROUND, BODY, EDGE, HARD, OVERLAY, Canvas, Words, polyline, shape
from .labels import Label, settle, wrapped
from .letters import EFFORT, NOTE
from .scene import Drawing, Scene
from .work import CAPTION

_TALL, _TALL_NARROW = 250.0, 190.0
_FARTHEST, _HIGHEST = 8.6, 1.45
"""What the paper shows of distance and force, in heights and loads."""

_AIR = 1.06
"""A machine beyond that reaches so far into the paper."""

_DOT = 3.2
_ACCENT = 4.0
_POINTS = 48
_SAMPLE = 26.0
_DISTANCES = (9.0, 15.0, 23.0, 35.0, 52.0, 70.0, 90.0)


@dataclass(frozen=True)
class _Paper:
    """Pixels per metre and per newton, and how far the paper reaches in metres and newtons; its corner is at 0."""

    left: float
    across: float
    up: float
    far: float
    high: float

    @property
    def top(self) -> float:
        """The y of the paper's upper edge."""
        return -self.high * self.up

    def at(self, distance: float, force: float) -> complex:
        """The point for a distance in metres and a force in newtons."""
        return complex(self.left + distance * self.across, -force * self.up)

    def line(self, work: float) -> list[complex]:
        """The points of the line on which force times distance is so many joules."""
        first = work / self.high
        if first >= self.far:
            return []
        grow = (self.far / first) ** (1 / _POINTS)
        return [self.at(d, work / d) for d in (first * grow**i for i in range(_POINTS + 1))]


@dataclass(frozen=True)
class _Machine:
    """The reader's own machine: effort in newtons, effort distance in metres, the share of the work that was lost."""

    force: float
    distance: float
    lost: float


def draw(scene: Scene) -> Drawing | None:
    """Draw the line of equal work and the reader's machine; None while load or height is unknown.

    Values: R, E in newtons, h, dE in metres, Win, Wout, Wlost in joules.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    machine = _machine(scene)
    caption = f"{CAPTION} Every machine on one line does the same work."
    alt = _alt(scene, machine)
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while load or height is unknown."""
    load, height = scene.values.get("R", 0.0), scene.values.get("h", 0.0)
    if not (load > 0 and height > 0):
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Effort against effort distance")
    machine = _machine(scene)
    paper = _paper(scene, machine)
    _key(canvas, scene, machine, _axes(canvas, scene, paper))
    _curve(canvas, paper, load * height, "lesser")
    labels = []
    if machine:
        if machine.lost:
            _curve(canvas, paper, load * height / (1 - machine.lost), "hidden")
        _rectangle(canvas, paper, machine)
        labels.append(_own_label(scene, paper, machine))
    seen = load < paper.high * 0.9 and height < paper.far * 0.9
    if scene.wide and seen and not (machine and _covers(machine, load, height)):
        labels.append(_by_hand(canvas, scene, paper.at(height, load)))
    settle(canvas, labels)
    return canvas


def _covers(machine: _Machine, load: float, height: float) -> bool:
    """Whether the point of the bare hand lies in the machine's rectangle, or so near its corner that they would mix."""
    inside = machine.force > load and machine.distance > height
    return inside or 0.7 < machine.distance / height < 1.5


def _machine(scene: Scene) -> _Machine | None:
    values = scene.values
    if not (values.get("E", 0) > 0 and values.get("dE", 0) > 0):
        return None
    lost, put_in = values.get("Wlost", 0.0), values.get("Win", 0.0)
    return _Machine(values["E"], values["dE"], lost / put_in if 0 < lost < put_in and lost / put_in > 1e-9 else 0.0)


def _paper(scene: Scene, machine: _Machine | None) -> _Paper:
    far, high = _FARTHEST * scene.values["h"], _HIGHEST * scene.values["R"]
    room = far * high
    if machine and machine.distance * _AIR > far:
        far = machine.distance * _AIR
        high = room / far
    if machine and machine.force * _AIR > high:
        high = machine.force * _AIR
        far = max(room / high, machine.distance * _AIR)
    newtons = scene.force_unit[1]
    step = round_step(high / newtons, 6)
    left = EDGE + max(Words((number(step * i),), NOTE).width for i in range(int(high / newtons / step) + 1)) + 5
    return _Paper(
        left, (scene.width - EDGE - 6 - left) / far, (_TALL if scene.wide else _TALL_NARROW) / high, far, high
    )


def _axes(canvas: Canvas, scene: Scene, paper: _Paper) -> float:
    """Grid, figures along both edges, and what they count; returns the y above them."""
    unit, newtons = scene.force_unit
    title = canvas.write(Words((f"effort, {unit}",), EFFORT), EDGE, paper.top - 26)
    force_step = round_step(paper.high / newtons, 6)
    for i in range(int(paper.high / newtons / force_step * (1 + 1e-9)) + 1):
        y = paper.at(0, i * force_step * newtons).imag
        canvas.line(complex(paper.left, y), complex(canvas.width - EDGE, y), "grain", BACKGROUND)
        words = Words((number(i * force_step),), NOTE)
        if y - words.height / 2 > title.bottom:
            canvas.write(words, paper.left - 5, y - words.height / 2, "end")
    unit, metres = scene.length_unit
    step = round_step(paper.far / metres, 8 if scene.wide else 4)
    for i in range(int(paper.far / metres / step * (1 + 1e-9)) + 1):
        x = paper.at(i * step * metres, 0).real
        canvas.line(complex(x, 0), complex(x, paper.top), "grain", BACKGROUND)
        words = Words((number(i * step),), NOTE)
        if i:
            canvas.write(words, min(x, canvas.width - EDGE - words.width / 2), 5, "middle")
    canvas.polygon(
        (complex(paper.left, paper.top), complex(paper.left, 0), complex(canvas.width - EDGE, 0)),
        "lesser",
        BACKGROUND,
        closed=False,
    )
    canvas.write(Words((f"effort distance, {unit}",), EFFORT), canvas.width - EDGE, 23, "end")
    return title.top


def _rectangle(canvas: Canvas, paper: _Paper, machine: _Machine) -> None:
    """Effort tall, effort distance wide: the work on the load hatched, the lost work above it dotted."""
    corner, origin = paper.at(machine.distance, machine.force), paper.at(0, 0)
    edge = paper.at(0, machine.force * (1 - machine.lost)).imag
    left, right, top = origin.real, corner.real, corner.imag
    useful = (complex(left, 0), complex(right, 0), complex(right, edge), complex(left, edge))
    canvas.polygon(useful, "lesser paper", BODY)
    canvas.hatch(useful, 5)
    if machine.lost:
        corners = (complex(left, edge), complex(left, top), complex(right, top), complex(right, edge))
        canvas.polygon(corners, "dots by-effort", BODY, closed=False, weight=HARD)
        rows = [edge - 6 * (i + 1) for i in range(int((edge - top - 3) / 6))]
        if rows:
            data = "".join([polyline((complex(left, y), complex(right, y))) for y in rows])
            canvas.put(BODY, f'<path class="dots by-effort" d="{data}"/>')
    bar = (complex(left - _ACCENT / 2, top), complex(left + _ACCENT / 2, top))
    canvas.put(BODY, shape((*bar, bar[1] - 1j * top, bar[0] - 1j * top), "effort"))
    rows = [-8.0 * i for i in range(int(-top / 8) + 1)]
    for y in rows:  # labels keep out of the rectangle
        canvas.avoid((complex(left, y), complex(right, y)), HARD)
    canvas.circle(corner, _DOT, "ink", OVERLAY)


def _own_label(scene: Scene, paper: _Paper, machine: _Machine) -> Label:
    """Effort, effort distance and work of the reader's machine, beside its corner."""
    effort, distance = scene.text("E"), f"through {scene.text('dE')}"
    work = (f"work in {scene.text('Win')}",) if scene.text("Win") else ()
    words, narrower = Words((f"{effort} {distance}", *work), EFFORT), Words((effort, distance, *work), EFFORT)
    high = machine.force > 0.75 * paper.high
    sides = "E ENE NE N NW" if high else "NE ENE NNE N E NW"
    first = words if scene.wide or high else narrower
    return Label(paper.at(machine.distance, machine.force), first, sides, _DISTANCES, narrower=narrower)


def _curve(canvas: Canvas, paper: _Paper, work: float, kind: str) -> None:
    """A line on which force times distance is so many joules."""
    points = paper.line(work)
    if points:
        canvas.polygon(points, kind, BODY, closed=False, weight=HARD)


def _key(canvas: Canvas, scene: Scene, machine: _Machine | None, above: float) -> None:
    """What the lines and the parts of the rectangle mean, above everything, where nothing can cross it."""
    lost = machine.lost if machine else 0.0
    entries = [
        ("lesser", "every machine without friction", True),
        ("hatch", f"work on the load {scene.text('Wout')}", machine is not None),
        ("hidden", "every machine with this friction", lost > 0),
        ("dots", f"work lost {scene.text('Wlost')}", lost > 0),
    ]
    room = (canvas.width - 2 * EDGE) / (2 if scene.wide else 1)
    left, top = EDGE, above - 12
    shown = [(kind, wrapped(Words((text.strip(),), NOTE), room - _SAMPLE - 14)) for kind, text, here in entries if here]
    rows = [shown[i : i + 2] for i in range(0, len(shown), 2)] if scene.wide else [[entry] for entry in shown]
    top -= sum(max(words.height for _, words in row) + 5 for row in rows)
    for row in rows:
        for column, (kind, words) in enumerate(row):
            x = left + column * room
            _sample(canvas, kind, x, top + NOTE.size * 0.55)
            canvas.write(words, x + _SAMPLE + 6, top)
        top += max(words.height for _, words in row) + 5


def _sample(canvas: Canvas, kind: str, left: float, y: float) -> None:
    """A piece of a line, or of a hatched or dotted part, for the key."""
    if kind in ("lesser", "hidden"):
        canvas.line(complex(left, y), complex(left + _SAMPLE, y), kind)
        return
    corners = [complex(left + x, y + down) for x, down in ((0, -5), (_SAMPLE, -5), (_SAMPLE, 5), (0, 5))]
    if kind == "hatch":
        canvas.polygon(corners, "thin")
        canvas.hatch(corners, 5)
    else:
        canvas.polygon(corners, "dots by-effort")
        canvas.line(complex(left, y), complex(left + _SAMPLE, y), "dots by-effort")


def _by_hand(canvas: Canvas, scene: Scene, at: complex) -> Label:
    """The point of the bare hand, which lifts the load straight up."""
    canvas.circle(at, _DOT, "ink", OVERLAY)
    return Label(at, Words((f"straight up: {scene.text('R')} through {scene.text('h')}",), NOTE), "E ENE NE")


def _alt(scene: Scene, machine: _Machine | None) -> str:
    work = scene.text("Wout") or "the same work"
    sentence = f"Effort against effort distance: a line of machines that all do {work} without friction"
    if machine:
        sentence += f"; your machine, a rectangle of {scene.text('E')} by {scene.text('dE')}"
        sentence += f", work in {scene.text('Win')}"
        sentence += f", of which {scene.text('Wlost')} is lost" if machine.lost else ""
    return f"{sentence}."
