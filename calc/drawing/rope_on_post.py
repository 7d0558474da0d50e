"""A rope round a post, seen from the post's end: the turns as a spiral, the tension as the rope's width."""

from collections.abc import Callable, Mapping, Sequence
from math import ceil, exp, pi

from . import forces, parts, rigging
from .canvas import BODY, MOVING, Canvas, Words, shape
from .force_bar import force_bar
from .labels import Label, settle
from .letters import EFFORT, NOTE
from .plane import left_of, towards
from .scene import Drawing, Scene

_POST = 44.0
_WIDEST = 11.0
_THINNEST = 1.0
_STROKE = 30.0
"""Pixels that load and hand go while the slider goes all the way."""

_RUN = 44.0
"""Least length in pixels of the run from the post to the hand."""


def draw(scene: Scene) -> Drawing | None:
    """Draw a rope round a post; None while the turns are not known.

    Values: R, E in newtons, mu, n (turns). Choices: way = ease or up.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = "Not to scale. The rope is as wide as its tension is large, but never thinner than a hair."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the turns are not known."""
    values = scene.values
    turns = values.get("n", 0.0)
    if not 0.01 <= turns <= 20:
        return None
    up = scene.choices.get("way") == "up"
    done = min(max(scene.travel, 0.0), 1.0) * (-1 if up else 1) + (1 if up else 0)
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Rope round a post")
    known = {symbol: max(values.get(symbol, 0.0), 0.0) for symbol in ("R", "E")}
    most = max(known.values())
    scale = (72.0 if scene.wide else 58.0) / most if most else 0.0

    centre = complex(scene.width * 0.5, 0)
    _post(canvas, centre)
    angle = 2 * pi * turns
    grows = -min(values.get("mu", 0.0) * angle, 60.0) * (-1 if up else 1)
    widths = [exp(grows * share) for share in (i / 64 for i in range(65))]
    widest = max(widths)

    def width(share: float) -> float:
        return max(_WIDEST * exp(grows * share) / widest, _THINNEST)

    growth = min(10.0, (66.0 if scene.wide else 34.0) / turns)
    points, steps = [], max(12, ceil(turns * 40))
    for step in range(steps + 1):
        share = step / steps
        radius = _POST + _WIDEST / 2 + 1 + growth * turns * share
        points.append((centre + towards(pi - angle * share) * radius, share))
    start, end = points[0][0], points[-1][0]
    leaves = towards(pi / 2 - angle)
    below = max(62.0, _POST + growth * turns + 26)
    hang = start + 1j * (below + _STROKE * done)
    hand = end + leaves * (_RUN + _STROKE * (1 - done))
    _band(canvas, [(hang, 0.0), *points, (hand, 1.0)], width)
    canvas.reserve(start + 1j * (below + _STROKE + 50 + known["R"] * scale), end + leaves * (_RUN + 4 + _STROKE))
    crate = rigging.slung_crate(canvas, hang, 48, 35, drop=10)
    settle(canvas, [*_contact(canvas, scene, centre), *_arrows(canvas, scene, known, scale, hand, leaves, crate)])
    if most:
        force_bar(canvas, 10, canvas.bottom + 14, scale, most, scene.force_unit)
    return canvas


def _post(canvas: Canvas, centre: complex) -> None:
    """The post, cut through, with its year rings."""
    canvas.circle(centre, _POST, "visible paper", BODY)
    for radius in (0.3, 0.55, 0.8):
        canvas.circle(centre, _POST * radius, "grain", BODY)


def _band(canvas: Canvas, points: Sequence[tuple[complex, float]], width: Callable[[float], float]) -> None:
    """The rope as a filled strip through points, each with its share of the way, as wide as its tension."""
    left, right = [], []
    for index, (point, share) in enumerate(points):
        before, after = points[max(index - 1, 0)][0], points[min(index + 1, len(points) - 1)][0]
        side = left_of((after - before) / abs(after - before)) * width(share) / 2
        left.append(point + side)
        right.append(point - side)
    outline = left + right[::-1]
    canvas.put(MOVING, shape(outline, "ink"))
    canvas.reserve(*outline)
    canvas.avoid([point for point, _ in points], 3)


def _arrows(
    canvas: Canvas,
    scene: Scene,
    known: Mapping[str, float],
    scale: float,
    hand: complex,
    leaves: complex,
    crate: complex,
) -> list[Label]:
    """The handle, both forces and their labels."""
    rigging.handle(canvas, hand, leaves)
    labels: list[Label] = []
    if known["E"]:
        effort = forces.arrow(hand + leaves * 4, leaves, known["E"] * scale)
        forces.effort(canvas, effort)
        words = effort.note(Words(("effort", scene.text("E")), EFFORT))
        labels.append(Label(effort.middle, words, "E ESE ENE SE NE W N S", (12.0, 18.0, 26.0)))
    if known["R"]:
        load = forces.arrow(crate, 1j, known["R"] * scale)
        forces.load(canvas, load)
        parts.centre_of_gravity(canvas, crate)
        words = load.note(Words((f"load {scene.text('R')}".strip(),)))
        at = complex(load.tip.real, max(load.tip.imag - 6, crate.imag + 28))
        labels.append(
            Label(at, words, "W E SW SE S", (12.0, 18.0, 26.0), narrower=load.note(Words(("load", scene.text("R")))))
        )
    return labels


def _contact(canvas: Canvas, scene: Scene, centre: complex) -> list[Label]:
    """How much of the rope lies on the post, and how it rubs: written on the post if it fits there."""
    lines = [scene.text("n")] if scene.text("n") else []
    if scene.text("mu"):
        lines.append(f"μ {scene.text('mu')}")
    words = Words(tuple(lines), NOTE)
    if not lines:
        return []
    if words.width <= 1.75 * _POST:
        canvas.write(words, centre.real, centre.imag - words.height / 2, "middle")
        return []
    return [Label(centre + towards(2.4) * _POST * 0.9, words, "NW WNW N NE", (60.0, 80.0, 100.0, 120.0), leader=True)]


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    way = "pulled up" if scene.choices.get("way") == "up" else "held or eased down"
    sentence = f"Rope round a post, {scene.text('n')}"
    if scene.text("R"):
        sentence += f": a load of {scene.text('R')} {way}"
    if scene.text("E"):
        sentence += f" by an effort of {scene.text('E')}"
    return f"{sentence}."
