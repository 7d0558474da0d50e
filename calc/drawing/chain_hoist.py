"""The differential chain hoist: two joined wheels and one loop of chain to scale, and the chain of one turn below."""

from math import pi

from . import forces, parts, rigging
from .canvas import BACKGROUND, BODY, Canvas, Words
from .labels import Label, settle
from .letters import EFFORT, HEADING, NOTE
from .plane import towards
from .rigging import Turn
from .scales import Path, Scales, scale_bars
from .scene import Drawing, Scene
from .travels import bars

_DROP = 60.0
"""Pixels between the edge of the large wheel and the lower one."""

_BARS = 340.0
"""Where the chain of one turn is laid out beside the hoist."""


def draw(scene: Scene) -> Drawing | None:
    """Draw a differential chain hoist; None while the wheels are not known.

    Values: R, E in newtons; dE (chain in), dO (chain out), dR in metres for one turn.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = "Wheels and lengths of chain drawn to one scale. The loop behind is the slack chain."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the wheels are not known."""
    values = scene.values
    taken_in, paid_out = values.get("dE", 0.0), values.get("dO", 0.0)
    if not 0 < paid_out < taken_in:
        return None
    done = min(max(scene.travel, 0.0), 1.0)
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Differential chain hoist")
    scale = 290.0 / taken_in  # one turn of chain is the longest thing drawn
    large, small = (length * scale / (2 * pi) for length in (taken_in, paid_out))
    known = {symbol: max(values.get(symbol, 0.0), 0.0) for symbol in ("R", "E")}
    most = max(known.values())
    force_scale = (72.0 if scene.wide else 58.0) / most if most else 0.0

    shaft = complex(176.0, 0)
    low = large + _DROP + (large - small) * pi * (1 - done)
    lower = complex(shaft.real + (small - large) / 2, low + (large + small) / 2)
    labels = _upper(canvas, scene, shaft, large, small, done)
    hand = complex(shaft.real + large, large * 0.4 + 46 + 46 * done)
    _slack(canvas, shaft, large, small, hand)
    centre = _lower(canvas, lower, (large + small) / 2)
    left, right = shaft - large, shaft + small
    rigging.rope(
        canvas,
        hand,
        [
            shaft + large,
            Turn(left, shaft, clockwise=False),
            complex(left.real, lower.imag),
            Turn(complex(right.real, lower.imag), lower, clockwise=False),
            right,
        ],
    )
    for x, top in ((left.real, 0.0), (right.real, 0.0)):
        canvas.avoid((complex(x, top), complex(x, lower.imag)), 3)
    canvas.avoid((shaft + large, hand), 3)
    canvas.reserve(
        complex(shaft.real, large + _DROP + (large - small) * pi + large + small + 52 + known["R"] * force_scale)
    )
    labels = [*_arrows(canvas, scene, known, force_scale, hand, centre), *labels]
    if scene.wide:
        canvas.frame = (canvas.frame[0], _BARS - 8)
    settle(canvas, labels)
    row = canvas.bottom + 12
    below = _one_turn(canvas, scene, scale, done, *((_BARS, -20.0) if scene.wide else (10.0, row)))
    scale_bars(canvas, 10, max(row, below) + 6, Scales(scale, scene.length_unit, force_scale, scene.force_unit, most))
    return canvas


def _upper(canvas: Canvas, scene: Scene, shaft: complex, large: float, small: float, done: float) -> list[Label]:
    """Both wheels on their shaft, spokes turned as far as the hoist has gone."""
    rigging.beam(canvas, shaft.real - large - 14, shaft.real + large + 14, -large - 26)
    rigging.shackle(canvas, shaft.real, -large - 26, 0)
    canvas.circle(shaft, large - 1.6, "lesser paper", BODY)
    canvas.circle(shaft, small, "lesser", BODY)
    for step in range(3):
        spoke = towards(-2 * pi * done + step * pi / 3) * (small - 5)
        canvas.line(shaft - spoke, shaft + spoke, "thin")
    parts.pin(canvas, shaft)
    at_large, at_small = (shaft + towards(angle) * radius for angle, radius in ((2.4, large), (2.9, small)))
    return [
        Label(
            at, Words((name, scene.text(symbol)) if scene.text(symbol) else (name,), NOTE), "W WNW NW WSW", leader=True
        )
        for at, name, symbol in ((at_large, "large wheel", "D"), (at_small, "small wheel", "d"))
    ]


def _slack(canvas: Canvas, shaft: complex, large: float, small: float, hand: complex) -> None:
    """The slack loop, behind everything: from the hand round to the small wheel's other side."""
    left, right = shaft.real - small, shaft.real + large
    bottom, radius = hand.imag + 30, (right - left) / 2
    canvas.polygon((hand, complex(right, bottom)), "hidden", BACKGROUND, closed=False)
    canvas.arc(complex((left + right) / 2, bottom), radius, 0, -pi, "hidden", BACKGROUND)
    canvas.polygon((complex(left, bottom), complex(left, 0)), "hidden", BACKGROUND, closed=False)


def _lower(canvas: Canvas, lower: complex, radius: float) -> complex:
    """The lower wheel with its hook and load; returns the centre of the crate."""
    sling = rigging.hook(canvas, lower, radius + 22)
    canvas.circle(lower, radius - 1.6, "lesser paper", BODY)
    canvas.circle(lower, radius * 0.72, "thin", BODY)
    parts.pin(canvas, lower)
    return rigging.slung_crate(canvas, sling, 48, 35)


def _arrows(
    canvas: Canvas, scene: Scene, known: dict[str, float], scale: float, hand: complex, centre: complex
) -> list[Label]:
    labels: list[Label] = []
    if known["E"]:
        effort = forces.arrow(hand, 1j, known["E"] * scale)
        forces.effort(canvas, effort)
        words = effort.note(Words(("effort", scene.text("E")), EFFORT))
        labels.append(Label(effort.middle, words, "E ESE ENE SE NE", (10.0, 16.0, 24.0, 34.0)))
    if known["R"]:
        load = forces.arrow(centre, 1j, known["R"] * scale)
        forces.load(canvas, load)
        parts.centre_of_gravity(canvas, centre)
        words = load.note(Words((f"load {scene.text('R')}".strip(),)))
        labels.append(Label(load.tip - 6j, words, "E W SE SW S", (10.0, 15.0, 22.0, 34.0)))
    return labels


def _one_turn(canvas: Canvas, scene: Scene, scale: float, done: float, left: float, top: float) -> float:
    """The chain of one turn as bars: in, out, and the rise that is half the difference. Returns the y below."""
    top = canvas.write(Words(("ONE TURN",), HEADING), left, top).bottom + 8
    rows = (("chain in", "dE", True), ("chain out", "dO", False), ("half the difference lifts", "dR", False))
    paths = [
        Path(Words((f"{words} {scene.text(symbol)}".strip(),)), scene.values[symbol] * scale, mine)
        for words, symbol, mine in rows
        if scene.values.get(symbol, 0) > 0
    ]
    return bars(canvas, left, top, paths, done)


def _alt(scene: Scene) -> str:
    sentence = f"Chain hoist: one turn pulls in {scene.text('dE')} of chain and pays out {scene.text('dO')}"
    if scene.text("dR"):
        sentence += f", so the load rises {scene.text('dR')}"
    if scene.text("E") and scene.text("R"):
        sentence += f"; effort {scene.text('E')} for a load of {scene.text('R')}"
    return f"{sentence}."
