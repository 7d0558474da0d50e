"""The wrap test: a paper triangle and the dowel it is wound on, at one scale."""

from dataclasses import dataclass
from math import floor, pi

from . import dimensions, helix
from .canvas import BACKGROUND, MOVING, Canvas, Words
from .labels import Label, settle
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_MOST_TURNS = 60.0
"""More turns than this are not drawn one by one."""

_LEAST_PITCH = 3.0


@dataclass(frozen=True)
class _Wrap:
    """Paper and dowel on the sheet, in pixels: the dowel's near line stands on `foot`."""

    foot: complex
    scale: float
    radius: float
    base: float
    height: float
    turns: float
    wound: float


def draw(scene: Scene) -> Drawing | None:
    """Draw paper triangle and dowel; None while base, height or diameter is unknown.

    Values: B, H, d, p in metres, turns, lam in radians.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = f"Drawn to scale, {_percent(scene)} % of the paper wound on. Start with the upright edge along the dowel."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while paper or dowel is not fixed."""
    if not all(scene.values.get(symbol, 0) > 0 for symbol in ("B", "H", "d")):
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Paper triangle wound on a dowel")
    wrap = _lay_out(scene)
    _dowel(canvas, wrap)
    _paper(canvas, wrap)
    _measures(canvas, scene, wrap)
    return canvas


def _percent(scene: Scene) -> str:
    return f"{100 * min(max(scene.travel, 0.0), 1.0):.0f}"


def _pitch_words(scene: Scene) -> Words:
    return Words(("pitch", scene.text("p"))) if scene.text("p") else Words(("pitch",))


def _height_words(scene: Scene) -> Words:
    return Words(("height", scene.text("H")))


def _lay_out(scene: Scene) -> _Wrap:
    base, height, diameter = (scene.values[symbol] for symbol in ("B", "H", "d"))
    right = 12 + max(sum(dimensions.upright_room(_pitch_words(scene), span)) for span in (1.0, 200.0))
    right += max(sum(dimensions.upright_room(_height_words(scene), span)) for span in (1.0, 200.0))
    room = scene.width - right - 16
    most = 220.0 if scene.wide else 200.0
    scale = min(room / (base + diameter / 2), most / height, most / diameter)
    radius = max(diameter * scale / 2, 3.0)
    wide = base * scale
    left = 12.0 + max(room - wide - radius, 0.0) / 2
    # A dowel thicker than the paper is long reaches farther to the left than the paper.
    foot = complex(max(left + wide, 12 + radius), 0)
    turns = base / (pi * diameter)
    return _Wrap(foot, scale, radius, wide, height * scale, turns, min(max(scene.travel, 0.0), 1.0))


def _dowel(canvas: Canvas, wrap: _Wrap) -> None:
    """The dowel, the finished thread on it in thin lines and what is wound on in thick ones."""
    top, bottom = -wrap.height - max(24.0, 0.25 * wrap.radius), 16.0
    helix.cylinder(canvas, wrap.foot.real, wrap.radius, top, bottom)
    pitch = wrap.height / wrap.turns
    if wrap.turns > _MOST_TURNS or pitch < _LEAST_PITCH:
        return
    finished = helix.strands(wrap.foot, wrap.radius, pitch, 0.0, 2 * pi * wrap.turns)
    helix.put_strands(canvas, finished, "thin", "hidden" if pitch > 12 else "")
    if wrap.wound > 0:
        angle = 2 * pi * wrap.turns * wrap.wound
        at = wrap.foot - 1j * wrap.height * (1 - wrap.wound)
        helix.put_strands(canvas, helix.strands(at, wrap.radius, pitch, 0.0, angle), "visible")


def _paper(canvas: Canvas, wrap: _Wrap) -> None:
    """The paper that is not yet wound on, and the whole triangle in phantom lines."""
    foot, base, height = wrap.foot, wrap.base, wrap.height
    tip = foot - base
    whole = (tip, foot, foot - 1j * height)
    canvas.polygon(whole, "phantom", BACKGROUND)
    canvas.avoid([*whole, tip], 3)
    left = 1 - wrap.wound
    if left <= 0:
        return
    corners = (foot - base * left, foot, foot - 1j * height * left)
    canvas.polygon(corners, "visible paper", MOVING)
    canvas.avoid((corners[0], foot - 0.5j * height * left), 3)
    if height * left > 12:
        canvas.hatch(corners, 9, -pi / 4, MOVING)


def _measures(canvas: Canvas, scene: Scene, wrap: _Wrap) -> None:
    """Diameter above, base below, pitch and height beside the dowel, the turns in words."""
    foot, radius, height = wrap.foot, wrap.radius, wrap.height
    top = canvas.top
    row = top - 8
    left, right = foot.real - radius, foot.real + radius
    for x in (left, right):
        canvas.extension(complex(x, top + 6), complex(x, row - dimensions.OVERSHOOT))
    dimensions.level(canvas, left, right, row, Words((f"dowel {scene.text('d')}",)))

    x = right + 6
    pitch = height / wrap.turns
    if wrap.turns >= 1.25:
        # The finished thread passes the right edge a quarter turn after the near line, then once in each turn.
        crossing = floor(wrap.turns - 0.25) + 0.25
        words = _pitch_words(scene)
        at = x + dimensions.upright_room(words, pitch)[0]
        for y in (-crossing * pitch, (1 - crossing) * pitch):
            canvas.extension(complex(right + 3, y), complex(at + 4, y))
        dimensions.upright(canvas, at, -crossing * pitch, (1 - crossing) * pitch, words)
        x = at + dimensions.upright_room(words, pitch)[1]
    words = _height_words(scene)
    at = x + dimensions.upright_room(words, height)[0]
    for y, start in ((-height, x), (0.0, right + 3)):
        canvas.extension(complex(start, y), complex(at + 4, y))
    dimensions.upright(canvas, at, -height, 0, words)

    said = _turns(scene)
    if said and wrap.base * 0.62 > radius + 10:
        at_paper = foot - wrap.base * 0.62 - 1j * height * 0.38
        settle(canvas, [Label(at_paper, said, "NNW N NW NNE W", (14.0, 24.0, 36.0, 52.0))])
        said = None

    row = canvas.bottom + 14
    for end, low in ((foot.real - wrap.base, 3.0), (foot.real, 32.0)):
        dimensions.drop(canvas, end, low, row)
    row = dimensions.level(canvas, foot.real - wrap.base, foot.real, row, Words((f"base {scene.text('B')}",)))
    if said:
        row = canvas.write(said.on_one_line(), 10, row - 4).bottom + 8
    scale_bars(canvas, 10, row + 6, Scales(wrap.scale, scene.length_unit))


def _turns(scene: Scene) -> Words | None:
    """How often the paper goes round, and how steep its edge runs."""
    turns, angle = scene.text("turns"), scene.text("lam")
    lines = [f"{turns},"] if turns else []
    lines += [f"lead angle {angle}"] if angle else []
    return Words(tuple(lines)) if lines else None


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    paper = f"Paper triangle with a base of {scene.text('B')} and a height of {scene.text('H')}"
    turns = f" makes {scene.text('turns')}" if scene.text("turns") else " is wound"
    pitch = f" with a pitch of {scene.text('p')}" if scene.text("p") else ""
    return f"{paper}{turns} round a dowel of {scene.text('d')}{pitch}; {_percent(scene)} % is wound on."
