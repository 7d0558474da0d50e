"""The bent lever: both arms to scale, the lines of both forces, and the moment arms square to them.

At rest the effort arm stands upright and the load arm lies to the left. Both forces keep their angle to the arms, as
a pull square to a handle does. An arm too short to be labelled in place is shown larger in a view of its own.
"""

from dataclasses import dataclass, replace
from math import pi

from . import forces, parts
from .bent_lever_side import Side, body, dimension, extent, labels, lines
from .canvas import BACKGROUND, EDGE, MOVING, Canvas, Words
from .labels import Label, settle
from .letters import HEADING
from .scales import Path, Scales, path_rows, scale_bars
from .scene import Drawing, Scene

_TURN = pi / 9
_SHORT = 60.0
"""An arm of fewer pixels has its labels in the larger view."""

_ENLARGEMENTS = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 200, 500, 1000, 2000, 5000, 10000)
_ENLARGED = 80.0
_STUB = 46.0
_LABEL = 96.0
"""Pixels kept at either side for labels that stand beside the lever."""


@dataclass(frozen=True)
class _Sheet:
    """The lever on the paper: pixels per metre and newton, the whole turn, and both sides at this moment."""

    scale: float
    force: float
    most: float
    turn: float
    load: Side
    effort: Side

    @property
    def short(self) -> Side | None:
        """The side that needs the larger view."""
        least = min((self.load, self.effort), key=lambda side: side.arm)
        return least if least.arm < _SHORT else None

    def turned(self, by: float) -> tuple[Side, Side]:
        """Both sides, turned clockwise by an angle from rest."""
        return replace(self.load, angle=pi - by), replace(self.effort, angle=pi / 2 - by)

    def everywhere(self) -> list[Side]:
        """Both sides at both ends of the turn and half way."""
        return [side for share in (-0.5, 0, 0.5) for side in self.turned(share * self.turn)]


def draw(scene: Scene) -> Drawing | None:
    """Draw a bent lever; None while an arm or an angle is unknown.

    Values: R, E in newtons, aR, aE, m_R, m_E, dR, dE in metres, psi_R, psi_E and psi (the whole turn) in radians.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = (
        "Drawn to scale. Chain lines are the lines of the forces. Dashed lines square to them are the moment arms."
    )
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while an arm or an angle is unknown."""
    values = scene.values
    if not all(values.get(symbol, 0) > 0 for symbol in ("aR", "aE", "psi_R", "psi_E")):
        return None
    if max(values["psi_R"], values["psi_E"]) >= pi:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Bent lever")
    sheet = _lay_out(scene)
    least, most, _, _ = extent(sheet.everywhere())
    room = scene.width - (_detail_room(sheet) if scene.wide else 0.0)
    pin = complex(min(max((room - least - most) / 2, EDGE - least + 20), room - most - 20), 0)

    for side, middle in ((sheet.load, pi), (sheet.effort, pi / 2)):
        kind = "path by-effort" if side.by_effort else "path"
        canvas.arc(pin, side.arm, middle + sheet.turn / 2, middle - sheet.turn / 2, kind, BACKGROUND)
    parts.pivot(canvas, pin, 30)
    sides = sorted((sheet.load, sheet.effort), key=lambda side: side.arm)
    for side in sides:
        body(canvas, pin, side)
    parts.pin(canvas, pin)
    for side in sides:
        lines(canvas, pin, side, full=side is not sheet.short)
    canvas.reserve(*(pin + point for side in sheet.everywhere() for point in side.points()))
    wanted = [label for side in sides for label in labels(scene, pin, side, full=side is not sheet.short)]
    for side in sides:
        if side is not sheet.short:
            dimension(canvas, scene, pin, side)
    if sheet.short:
        wanted.insert(0, _mark(canvas, pin, sheet.short))
    if scene.wide:
        canvas.frame = (EDGE, room - EDGE)
    settle(canvas, wanted)
    canvas.frame = (EDGE, scene.width - EDGE)
    if sheet.short:
        _larger(canvas, scene, sheet)
    row = _paths(canvas, scene, sheet)
    unit = Scales(sheet.scale, scene.length_unit, sheet.force, scene.force_unit, sheet.most)
    scale_bars(canvas, 10, row + 8, unit)
    return canvas


def _lay_out(scene: Scene) -> _Sheet:
    values = scene.values
    turn = min(max(values.get("psi", _TURN), 0.01), pi / 2)
    known = {symbol: values[symbol] for symbol in ("R", "E") if values.get(symbol, 0) > 0}
    most = max(known.values(), default=0.0)
    force = (forces.LONGEST_WIDE if scene.wide else forces.LONGEST_NARROW) / most if most else 0.0
    longest = max(values["aR"], values["aE"])
    room = scene.width - 2 * _LABEL - (250.0 if scene.wide else 0.0)
    scale = (230.0 if scene.wide else 170.0) / longest
    travel = min(max(scene.travel, 0.0), 1.0)
    for _ in range(6):
        load = Side("R", values["aR"] * scale, pi, values["psi_R"], known.get("R", 0.0) * force)
        effort = Side("E", values["aE"] * scale, pi / 2, -values["psi_E"], known.get("E", 0.0) * force)
        sheet = _Sheet(scale, force, most, turn, load, effort)
        least, greatest, _, _ = extent(sheet.everywhere())
        if greatest - least <= room:
            break
        scale *= 0.85
    load, effort = sheet.turned((travel - 0.5) * turn)
    return replace(sheet, load=load, effort=effort)


def _mark(canvas: Canvas, pin: complex, side: Side) -> Label:
    """The circle round a short arm and its letter."""
    radius = side.arm / 2 + 11
    centre = pin + side.end / 2
    canvas.circle(centre, radius, "thin", MOVING)
    return Label(centre, Words(("A",)), "WSW SW W NW S N", (radius + 4, radius + 10, radius + 18))


def _enlarged(sheet: _Sheet) -> tuple[int, tuple[Side, Side]]:
    """How many times larger, and both sides so: the short one whole, the other a stub."""
    short = sheet.short or sheet.load
    times = max((n for n in _ENLARGEMENTS if short.arm * n <= _ENLARGED), default=2)
    larger = replace(short, arm=short.arm * times)
    other = sheet.effort if short is sheet.load else sheet.load
    return times, (larger, replace(other, arm=_STUB, force=0.0))


def _detail_room(sheet: _Sheet) -> float:
    """Pixels that the larger view takes to the right of the lever."""
    return 270.0 if sheet.short else 0.0


def _larger(canvas: Canvas, scene: Scene, sheet: _Sheet) -> None:
    """The short arm, larger, with what has no room in place: beside the lever when wide, below it when narrow."""
    times, (short, stub) = _enlarged(sheet)
    least, most, high, _ = extent((short,))
    title = Words((f"A, {times} TIMES AS LARGE",), HEADING)
    if scene.wide:
        left, right = scene.width - 270.0, scene.width - EDGE
        top = canvas.top + 14
    else:
        left, right = EDGE, scene.width - EDGE
        top = canvas.bottom + 26
    box = canvas.write(title, (left + right) / 2, top, "middle")
    pin = complex((left + right - least - most) / 2, box.bottom + 58 - min(high, -stub.arm))
    canvas.frame = (left, right)
    body(canvas, pin, stub, 9.0)
    body(canvas, pin, short, 9.0)
    parts.pin(canvas, pin, 6.0)
    lines(canvas, pin, short, full=True)
    dimension(canvas, scene, pin, short)
    settle(canvas, labels(scene, pin, short, full=True))
    canvas.frame = (EDGE, scene.width - EDGE)


def _paths(canvas: Canvas, scene: Scene, sheet: _Sheet) -> float:
    """Both paths as level bars; returns the y below them."""
    row = canvas.bottom + 22
    paths = [
        Path(Words((f"{name} {scene.text(symbol)}".strip(),)), scene.values[symbol] * sheet.scale, symbol == "dE")
        for symbol, name in (("dE", "effort path"), ("dR", "load path"))
        if scene.values.get(symbol, 0) > 0
    ]
    return path_rows(canvas, 10, row, paths) if paths else row


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    t = round(min(max(scene.travel, 0.0), 1.0) * 100)
    return (
        f"Bent lever: load {scene.text('R') or 'not known'} at a load arm of {scene.text('aR')},"
        f" {scene.text('psi_R')} to the arm; effort {scene.text('E') or 'not known'} at an effort arm of"
        f" {scene.text('aE')}, {scene.text('psi_E')} to the arm; turned {t} % of the way."
    )
