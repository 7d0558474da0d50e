"""The screw as a ramp: a cylinder with its thread, and one turn of it as a paper triangle that unrolls beside it.

The turn runs from A to B. The paper leaves the cylinder along the line that faces the reader, so that B, its upper
end, moves straight out at its own level, while A comes round with the cylinder and ends at the triangle's tip.
"""

from dataclasses import dataclass
from math import cos, floor, pi, sin, tan

from . import dimensions, helix
from .canvas import BACKGROUND, MOVING, OVERLAY, Canvas, Words
from .labels import Label, settle
from .plane import towards
from .scales import Scales, scale_bars
from .scene import Drawing, Scene
from .triangle_detail import DETAIL_ROOM, THIN, enlarged_end

_MOST_LINES = 36
"""More turns than this are left off: the thread is then drawn on the lower part of the bar only."""

_CLOSE = 9.0
"""Turns closer than this many pixels are drawn on the near side only."""

_HATCHED = 12.0
"""Paper lower than this many pixels is left white."""

_LETTERS = 24.0
"""Room for the letters A and B to the left of the bar."""

_LEAST_GAP = 2.4
"""Lines closer than this would run together: only every second, fourth, ... turn is drawn then."""


@dataclass(frozen=True)
class _Thread:
    """The thread on the paper, in pixels: the tip of the triangle is where the paper leaves the bar."""

    tip: complex
    scale: float
    radius: float
    turn: float
    lead: float
    starts: int
    height: float
    unrolled: float

    @property
    def wound(self) -> float:
        """The angle of the paper that is still on the bar."""
        return (1 - self.unrolled) * 2 * pi

    @property
    def front(self) -> complex:
        """Where the turn crosses the line on which the paper leaves the bar."""
        return self.tip - 1j * self.lead * (1 - self.unrolled)

    @property
    def upper_end(self) -> complex:
        """Where B is now."""
        return self.tip + complex(self.turn * self.unrolled, -self.lead)

    @property
    def far(self) -> float:
        """The x of the triangle's upright end."""
        return self.tip.real + self.turn


def draw(scene: Scene) -> Drawing | None:
    """Draw a screw and one turn of its thread unrolled; None while mean diameter or lead is unknown.

    Values: d_m, l, p, C (once round at the mean diameter) in metres, lam in radians, j (starts).
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = (
        f"Drawn to scale, {100 * _travel(scene):.0f} % unrolled. From A to B is one turn of the thread."
        " Flat, it is a ramp: once round long and one lead high."
    )
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the thread is not fixed."""
    diameter, lead = scene.values.get("d_m", 0.0), scene.values.get("l", 0.0)
    if diameter <= 0 or lead <= 0:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Screw and its unrolled thread")
    thread = _lay_out(scene, diameter, lead)
    _bar(canvas, thread)
    _paper(canvas, thread)
    _ends(canvas, thread)
    _measures(canvas, scene, thread)
    return canvas


def _travel(scene: Scene) -> float:
    return min(max(scene.travel, 0.0), 1.0)


def _lead_words(scene: Scene) -> Words:
    return Words(("lead", scene.text("l")))


def _lay_out(scene: Scene, diameter: float, lead: float) -> _Thread:
    """Choose the scale: the triangle as long as the width allows, no taller than the sheet."""
    left = 12.0 + _LETTERS
    right = 4 + max(sum(dimensions.upright_room(_lead_words(scene), span)) for span in (1.0, 200.0))
    room = scene.width - left - right - 12
    most = 200.0 if scene.wide else 180.0
    scale = min(room / (diameter / 2 + pi * diameter), most / lead, most / diameter)
    radius = max(diameter * scale / 2, 3.0)
    starts = max(1, min(round(scene.values.get("j", 1.0)), 8))
    turn, rise = pi * diameter * scale, lead * scale
    height = min(max(2.7 * radius, 3 * rise, 60.0), max(most + 20, rise + 30))
    # A short triangle (a steep or tiny thread) stands in the middle with its bar.
    spare = room - turn - radius
    tip = complex(left + radius + max(spare, 0.0) / 2, 0)
    return _Thread(tip, scale, radius, turn, rise, starts, height, _travel(scene))


def _bar(canvas: Canvas, thread: _Thread) -> None:
    """The bar with the thread where it stands now; it turns as the paper is pulled off."""
    axis, radius, lead = thread.tip.real, thread.radius, thread.lead
    top, bottom = -thread.height - 8, 14.0
    helix.cylinder(canvas, axis, radius, top, bottom)
    pitch = lead / thread.starts
    every = 1
    while pitch * every < _LEAST_GAP:
        every *= 2
    gap = pitch * every
    start = thread.front
    lines = min(floor((thread.height + 20) / gap), _MOST_LINES)
    pieces: list[helix.Strand] = []
    for i in range(-thread.starts - 1, lines + 1):
        foot = start - 1j * gap * i
        pieces += helix.strands(foot, radius, lead, -pi / 2, 1.5 * pi)
    pieces = helix.between_levels(pieces, top, bottom - 3)
    helix.put_strands(canvas, pieces, "thin", "hidden" if gap > _CLOSE and lead > _CLOSE else "")
    # The paper that is still wrapped: its edge all round, its face where the reader sees it.
    if thread.wound > 0.01:
        edge = helix.strands(start, radius, lead, -thread.wound, 0.0)
        helix.put_strands(canvas, edge, "visible", "hidden" if lead > _CLOSE else "")
        for near, points in edge:
            if near and lead > _HATCHED:
                canvas.hatch([*points, complex(points[-1].real, 0), complex(points[0].real, 0)], 9, -pi / 4, MOVING)
    canvas.line(complex(axis - radius, 0), complex(axis + radius, 0), "thin")


def _paper(canvas: Canvas, thread: _Thread) -> None:
    """The paper triangle: whole in phantom lines, as far as it is unrolled in solid ones."""
    tip, far, lead = thread.tip, thread.far, thread.lead
    whole = (tip, complex(far, 0), complex(far, -lead))
    canvas.polygon(whole, "phantom", BACKGROUND)
    canvas.avoid([*whole, tip], 3)
    out = thread.unrolled
    if out <= 0:
        return
    near_height = lead * (1 - out)
    end = tip.real + thread.turn * out
    corners = [tip, complex(end, 0), complex(end, -lead)]
    if near_height > 0.05:
        corners.append(tip - 1j * near_height)
    canvas.polygon(corners, "visible paper", MOVING)
    for share in (0.25, 0.5, 0.75) if lead > 40 else (0.5,):  # no label may stand on the paper
        canvas.avoid((tip - share * 1j * near_height, complex(end, -share * lead)), 3)
    if lead > _HATCHED:
        canvas.hatch(corners, 9, -pi / 4, MOVING)


def _ends(canvas: Canvas, thread: _Thread) -> None:
    """A and B where they are now, their levels across the bar, and the way that B has gone."""
    tip, lead = thread.tip, thread.lead
    size = min(3.6, max(2.2, lead / 5))
    left = tip.real - thread.radius
    height = Words(("A",)).height
    apart = max(lead, height)
    for letter, level, middle in (("A", 0.0, (apart - lead) / 2), ("B", -lead, -(apart + lead) / 2)):
        canvas.extension(complex(left - 8, level), complex(tip.real, level), OVERLAY)
        canvas.write(Words((letter,)), left - 10, middle - height / 2, "end")
    if thread.unrolled > 0:
        canvas.line(tip - 1j * lead, thread.upper_end, "path", OVERLAY)
    behind = cos(thread.wound) < -1e-9
    lower_end = tip - thread.radius * sin(thread.wound)
    canvas.circle(lower_end, size, "thin paper" if behind else "ink", OVERLAY)
    canvas.circle(thread.upper_end, size, "ink", OVERLAY)


def _measures(canvas: Canvas, scene: Scene, thread: _Thread) -> None:
    """Mean diameter above, lead at the end, once round below, the lead angle at the tip."""
    tip, far, lead = thread.tip, thread.far, thread.lead
    thin = thread.turn > THIN * lead
    top = canvas.top
    words = Words((f"mean diameter {scene.text('d_m')}".strip(),))
    row = top - 16
    for x in (tip.real - thread.radius, tip.real + thread.radius):
        canvas.extension(complex(x, -thread.height - 11), complex(x, row - dimensions.OVERSHOOT))
    dimensions.level(canvas, tip.real - thread.radius, tip.real + thread.radius, row, words)

    x = far + dimensions.upright_room(_lead_words(scene), lead)[0] + 4
    for y in (0.0, -lead):
        canvas.extension(complex(far + 3, y), complex(x + 4, y))
    dimensions.upright(canvas, x, -lead, 0, _lead_words(scene))

    room = canvas.width - 12
    labels = []
    if thread.upper_end.real > tip.real + thread.radius + 12:
        labels.append(Label(thread.upper_end, Words(("B",)), "N NNW NNE NW", (6.0, 10.0, 15.0, 23.0)))
    if scene.text("lam"):
        radius = max(min(thread.turn * 0.42, 150.0), min(thread.turn * 0.8, thread.radius + 14))
        angle = min(scene.values.get("lam", 0.0), 1.55)
        if angle > 0 and tan(angle) * radius > 2:
            arc = canvas.arc(tip, radius, 0, angle, "thin", OVERLAY)
            at = arc[len(arc) // 2]
        else:
            at = tip + radius * towards(angle / 2)
        words = Words((f"lead angle {scene.text('lam')}",))
        labels.append(Label(at, words, "NNW N NW NNE", (30.0, 40.0, 24.0, 52.0, 70.0), leader=True))
    if scene.wide and thread.turn > 150:
        words = Words(("one turn of the thread, flat",))
        at = complex(tip.real + thread.turn * 0.72, -lead * 0.72)
        labels.append(Label(at, words, "NNW N NW NNE", (12.0, 20.0, 30.0)))
    frame, canvas.frame = canvas.frame, (tip.real + thread.radius + 6, canvas.frame[1])
    if thread.turn - thread.radius > 140:
        settle(canvas, labels)
    else:
        canvas.frame = frame
        settle(canvas, labels)
    canvas.frame = frame

    row = canvas.bottom + 14
    for end in (tip.real, far):
        dimensions.drop(canvas, end, 3 if end == far else 30, row)
    words = Words(("once round" if not scene.wide else "once round, π × mean diameter:", scene.text("C")))
    if words.on_one_line().width > thread.turn - 40:
        row += 8  # it may stand on two lines there
    row = dimensions.level(canvas, tip.real, far, row, words)
    if thin and thread.turn > 2 * DETAIL_ROOM:
        enlarged_end(canvas, complex(far, 0), lead, thread.turn)
    if scene.text("p") and thread.starts > 1:
        words = Words((f"{thread.starts} starts, pitch {scene.text('p')}",))
        if words.width < room:
            canvas.write(words, 10, row - 4)
            row += 20
    scale_bars(canvas, 10, row + 6, Scales(thread.scale, scene.length_unit))


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    sizes = f"Screw of mean diameter {scene.text('d_m')} and lead {scene.text('l')}"
    turn = f"one turn of the thread unrolls to a ramp {scene.text('C')} long and {scene.text('l')} high"
    angle = f", lead angle {scene.text('lam')}" if scene.text("lam") else ""
    return f"{sizes}: from A to B {turn}{angle}; {100 * _travel(scene):.0f} % unrolled."
