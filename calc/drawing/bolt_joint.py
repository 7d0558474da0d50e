"""A bolt through two boards: wrench from above, joint cut through, where the work goes, and the band of clamp."""

from dataclasses import dataclass
from math import pi

from . import dimensions, forces, helix
from .bolt_charts import Shares, clamp_band, share_bar
from .canvas import BACKGROUND, BODY, MOVING, OVERLAY, Canvas, Words
from .labels import Label, settle
from .letters import EFFORT, HEADING
from .plane import rectangle, towards
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_ENLARGEMENTS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 200, 500, 1000, 2000, 5000)
_BOARD, _BOARD_HALF = 26.0, 62.0
"""Thickness and half the width of a board in pixels: signs, not to scale."""

_LEAST_GAP = 2.6


@dataclass(frozen=True)
class _Bolt:
    """Bolt and wrench on the paper, in pixels. `times`: how much larger the cut is than the view from above."""

    axis: float
    scale: float
    times: int
    wrench: float
    size: float
    pitch: float
    force_scale: float

    @property
    def across(self) -> float:
        """Half the width of head and nut in the cut: a hexagon one and a half diameters across its flats."""
        return 0.866 * self.size

    @property
    def flats(self) -> float:
        """Half the width across the flats, seen from above."""
        return 0.75 * self.size / self.times


def draw(scene: Scene) -> Drawing | None:
    """Draw a bolted joint; None while the bolt's size or the pitch is unknown.

    Values: T in newton metres; F, F_lo, F_hi, E in newtons; d, p, r (wrench) in metres; shares s_c, s_t, s_f, s_l.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = "Wrench and bolt are drawn to scale; boards, head and nut heights are signs."
    if scene.values.get("F", 0) > 0:
        caption += f" The band shows the clamp force at {_percent(scene)} % of the torque, 30 % of scatter either way."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the bolt is not fixed."""
    if not all(scene.values.get(symbol, 0) > 0 for symbol in ("d", "p")):
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Bolt through two boards")
    bolt = _lay_out(scene)
    _from_above(canvas, scene, bolt)
    row = canvas.bottom + 22
    low = _cut(canvas, scene, bolt, row)
    left, width = (250.0, 300.0) if scene.wide else (14.0, 190.0)
    if not scene.wide:
        row = low + 18
    shares = _shares(scene)
    if shares:
        row = share_bar(canvas, shares, left, row, canvas.width - left - 14)
    if all(scene.values.get(symbol, 0) > 0 for symbol in ("F", "F_lo", "F_hi", "T")):
        row = clamp_band(canvas, scene, left, row + 8, width)
    row = max(row, low) + 14
    most = (60.0 if scene.wide else 52.0) / bolt.force_scale if bolt.force_scale else 0.0
    scales = Scales(bolt.scale, scene.length_unit, bolt.force_scale, scene.force_unit, most)
    scale_bars(canvas, 10, row, scales)
    return canvas


def _percent(scene: Scene) -> str:
    return f"{100 * min(max(scene.travel, 0.0), 1.0):.0f}"


def _shares(scene: Scene) -> Shares | None:
    """Where the work of tightening goes, as far as it is known."""
    part = scene.values.get("s_c", 0.0)
    if not 0 < part < 1:
        return None
    thread, face = scene.values.get("s_t", 0.0), scene.values.get("s_f", 0.0)
    if thread > 0 and face >= 0 and part + thread + face <= 1 + 1e-6:
        parts = [("clamps", "s_c", part), ("thread", "s_t", thread), ("face", "s_f", face)]
    else:
        parts = [("clamps", "s_c", part), ("rubs", "s_l", 1 - part)]
    return Shares(tuple((name, scene.text(symbol), share) for name, symbol, share in parts))


def _lay_out(scene: Scene) -> _Bolt:
    values = scene.values
    size, pitch, wrench = values["d"], values["p"], max(values.get("r", 0.0), 0.0)
    axis = 112.0 if scene.wide else 118.0
    room = scene.width - axis - (150.0 if scene.wide else 70.0)
    bolt = 26.0
    scale = min(room / wrench, bolt / size) if wrench else bolt / size
    times = max((n for n in _ENLARGEMENTS if n * scale * size <= bolt * 1.001), default=1)
    known = [values[s] for s in ("F", "E") if values.get(s, 0) > 0]
    force_scale = (60.0 if scene.wide else 52.0) / max(known) if known else 0.0
    return _Bolt(axis, scale, times, wrench * scale, size * scale * times, pitch * scale * times, force_scale)


def _from_above(canvas: Canvas, scene: Scene, bolt: _Bolt) -> None:
    """Head and wrench seen along the bolt; the push turns it clockwise."""
    centre = complex(bolt.axis, 0)
    flats = max(bolt.flats, 2.0)
    corner = flats / 0.866
    hexagon = [centre + towards(pi / 6 + i * pi / 3) * corner for i in range(6)]
    labels = []
    if bolt.wrench:
        half = max(min(flats * 0.55, bolt.wrench * 0.06), 2.5)
        hand = centre + bolt.wrench
        jaw = max(corner + 5, half + 2)
        canvas.polygon(
            (centre - 1j * half, hand + 10 - 1j * half, hand + 10 + 1j * half, centre + 1j * half), "lesser paper"
        )
        canvas.circle(centre, jaw, "lesser paper", BODY)
        if scene.values.get("E", 0) > 0:
            push = forces.arrow(hand, 1j, scene.values["E"] * bolt.force_scale).ending_at(hand - 1j * half)
            forces.effort(canvas, push)
            words = push.note(Words(("push", scene.text("E")), EFFORT))
            labels.append(Label(push.tail, words, "E W NE NW N", (8.0, 14.0, 22.0)))
        if scene.text("r"):
            row = half + 26
            for x in (centre.real, hand.real):
                canvas.extension(complex(x, half + 4 if x != centre.real else jaw + 3), complex(x, row + 4))
            dimensions.level(canvas, centre.real, hand.real, row, Words((f"wrench {scene.text('r')}",)))
    canvas.polygon(hexagon, "visible paper", MOVING)
    for way in (corner + 12, 1j * (corner + 12)):
        canvas.line(centre - way, centre + way, "centre", OVERLAY)
    settle(canvas, labels)
    title = Words(("FROM ABOVE",), HEADING)
    canvas.write(title, 10, canvas.top - title.height - 8)


def _cut(canvas: Canvas, scene: Scene, bolt: _Bolt, top: float) -> float:
    """Two boards cut through, the bolt between head and nut, and the clamp force on both; returns the y below."""
    axis, half, across = bolt.axis, bolt.size / 2, bolt.across
    larger = f", {bolt.times} TIMES" if bolt.times > 1 else ""
    title = Words((f"CUT THROUGH{larger}",), HEADING)
    box = canvas.write(title, 10, top)
    force = forces.arrow(0, 1, max(scene.values.get("F", 0.0), 0.0) * bolt.force_scale)
    has_force = scene.values.get("F", 0) > 0
    head, nut = 0.65 * bolt.size, 0.85 * bolt.size
    upper = box.bottom + 16 + max(head, force.length - 8 if has_force else 0)
    middle, lower = upper + _BOARD, upper + 2 * _BOARD
    for y, lean in ((middle, pi / 4), (lower, -pi / 4)):
        board = rectangle(complex(axis, y), 1, 2 * _BOARD_HALF, 0, _BOARD)
        canvas.polygon(board, "visible paper", BACKGROUND)
        for side in (-1, 1):
            part = rectangle(complex(axis + side * (half + _BOARD_HALF) / 2, y), 1, _BOARD_HALF - half - 2, 0, _BOARD)
            canvas.hatch(part, 8, lean, BACKGROUND)
    end = lower + nut + 6
    canvas.polygon(rectangle(complex(axis, end), 1, bolt.size, 0, end - upper), "visible paper", BODY)
    for foot, high in ((upper, head), (lower + nut, nut)):
        outline = rectangle(complex(axis, foot), 1, 2 * across, 0, high)
        canvas.polygon(outline, "visible paper", MOVING)
        canvas.line(complex(axis - across / 2, foot), complex(axis - across / 2, foot - high), "thin", MOVING)
        canvas.line(complex(axis + across / 2, foot), complex(axis + across / 2, foot - high), "thin", MOVING)
    _thread(canvas, bolt, middle, lower)
    canvas.line(complex(axis, upper - head - 8), complex(axis, end + 8), "centre", OVERLAY)
    frame, canvas.frame = canvas.frame, (canvas.frame[0], 244.0 if scene.wide else canvas.frame[1])
    labels = []
    if has_force:
        for side in (-1, 1):
            x = axis + side * (across + 14)
            down = forces.arrow(0, 1j, force.length).ending_at(complex(x, upper))
            up = forces.arrow(0, -1j, force.length).ending_at(complex(x, lower))
            forces.load(canvas, down)
            forces.load(canvas, up)
            if side > 0:
                words = Words(("clamp", scene.text("F")))
                labels.append(Label(down.middle, words, "E ENE ESE", (10.0, 16.0, 24.0)))
    settle(canvas, labels)
    canvas.frame = frame
    words = Words((f"bolt {scene.text('d')}",))
    low = max(canvas.bottom, end) + 4
    box = canvas.write(words, max(axis, words.width / 2 + 4), low, "middle")
    return box.bottom


def _thread(canvas: Canvas, bolt: _Bolt, top: float, bottom: float) -> None:
    """The thread in the lower board, as many turns as can be told apart."""
    gap = bolt.pitch
    while gap < _LEAST_GAP:
        gap *= 2
    pieces: list[helix.Strand] = []
    for i in range(-1, min(int((bottom - top) / gap) + 2, 40)):
        foot = complex(bolt.axis, bottom - gap * i)
        pieces += helix.strands(foot, bolt.size / 2, bolt.pitch, -pi / 2, pi / 2)
    pieces = helix.between_levels([piece for piece in pieces if piece[0]], top, bottom)
    helix.put_strands(canvas, pieces, "thin", layer=BODY)


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    sentence = f"Bolt of {scene.text('d')} through two boards"
    if scene.text("T"):
        sentence += f", tightened with {scene.text('T')}"
    if scene.text("F"):
        sentence += f": about {scene.text('F')} of clamp force"
    if scene.text("F_lo") and scene.text("F_hi"):
        sentence += f", between {scene.text('F_lo')} and {scene.text('F_hi')}"
    if scene.text("s_c"):
        sentence += f"; {scene.text('s_c')} of the work clamps"
    return f"{sentence}."
