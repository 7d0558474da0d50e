"""One pulley: fixed or moving, drawn as the shortest tackle; or hung between two leaning parts of the rope."""

from math import cos, pi, sin

from . import forces, parts, rigging
from .canvas import OVERLAY, Canvas, Words
from .force_bar import force_bar
from .labels import Label, settle
from .letters import EFFORT, NOTE
from .rigging import Turn
from .scene import Drawing, Scene
from .tackle import Names, compose_reeved, finished

_NAMES = Names("Single pulley", ("fixed", "pulley"), ("moving", "pulley"))
_STEEPEST = 1.54
"""A rope part that leans more, in radians, could carry next to nothing."""

_RADIUS = 24.0


def draw(scene: Scene) -> Drawing | None:
    """Draw a single pulley; None while a leaning rope has no angle.

    Values: R, E, G (load and pulley), w in newtons, dE, dR in metres, beta in radians, k.
    Choices: kind = fixed, movable or leaning.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    if _kind(scene) == "leaning":
        return Drawing(canvas.svg(alt), "Drawn at the angle given. The parts lean more as the load rises.", alt)
    return finished(canvas, scene, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while a leaning rope has no angle."""
    kind = _kind(scene)
    if kind == "leaning":
        return _leaning(scene)
    return compose_reeved(scene, 1 if kind == "fixed" else 2, kind == "movable", _NAMES)


def _kind(scene: Scene) -> str:
    return scene.choices.get("kind", "movable")


def _leaning(scene: Scene) -> Canvas | None:
    """A pulley between two leaning rope parts, one made fast, one pulled."""
    values = scene.values
    angle = values.get("beta", -1.0)
    if not 0 <= angle <= _STEEPEST:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Single pulley, rope parts leaning")
    known = {symbol: max(values.get(symbol, 0.0), 0.0) for symbol in ("R", "E")}
    most = max(known.values())
    scale = (72.0 if scene.wide else 58.0) / most if most else 0.0
    middle = complex(scene.width / 2, 0)
    length = 150.0
    pull = forces.arrow(0, 1, max(known["E"] * scale, 1.0)).length + 4
    room = scene.width / 2 - _RADIUS - 10
    if sin(angle) > 0:
        length = min(length, max(room / sin(angle) - pull, 30.0))
    lean, side = complex(sin(angle), -cos(angle)), complex(cos(angle), sin(angle)) * _RADIUS
    right, left = middle + side, middle - side.conjugate()
    fixed, hand = left - lean.conjugate() * length, right + lean * length

    sling = rigging.hook(canvas, middle + 4j, _RADIUS + 20)
    centre = rigging.slung_crate(canvas, sling, 48, 35)
    rigging.beam(canvas, fixed.real - 22, fixed.real + 22, fixed.imag - 12)
    rigging.shackle(canvas, fixed.real, fixed.imag - 12, fixed.imag + 2)
    rigging.sheave(canvas, middle, _RADIUS)
    rigging.rope(canvas, fixed, [left, Turn(right, middle, clockwise=False), hand])
    rigging.dead_end(canvas, fixed)
    for start, end in ((fixed, left), (right, hand)):
        canvas.avoid((start, end), 3)
    labels = [*_pulls(canvas, scene, hand, lean, known["E"] * scale), *_angle(canvas, scene, right, angle)]
    if known["R"]:
        load = forces.arrow(centre, 1j, known["R"] * scale)
        forces.load(canvas, load)
        parts.centre_of_gravity(canvas, centre)
        words = load.note(Words((f"load {scene.text('R')}".strip(),)))
        labels.append(Label(load.tip - 6j, words, "E W SE SW S", (10.0, 15.0, 22.0)))
    weight = (scene.text("w"),) if values.get("w", 0) > 0 else ()
    words = Words((*_NAMES.moving, *weight), NOTE)
    labels.append(Label(middle - _RADIUS + 8j, words, "W WSW SW", (8.0, 14.0, 22.0)))
    settle(canvas, labels)
    if most:
        force_bar(canvas, 10, canvas.bottom + 14, scale, most, scene.force_unit)
    return canvas


def _pulls(canvas: Canvas, scene: Scene, hand: complex, lean: complex, length: float) -> list[Label]:
    """The effort along the hand's part, and the same tension in the other part."""
    rigging.handle(canvas, hand, lean)
    if not length:
        return []
    effort = forces.arrow(hand + lean * 4, lean, length)
    forces.effort(canvas, effort)
    words = effort.note(Words(("effort", scene.text("E")), EFFORT))
    return [Label(effort.middle, words, "E ESE SE ENE S NE", (12.0, 18.0, 26.0))]


def _angle(canvas: Canvas, scene: Scene, right: complex, angle: float) -> list[Label]:
    """The angle of the hand's part from upright."""
    if angle < 0.02 or not scene.text("beta"):
        return []
    radius = 62.0
    canvas.line(right, right - 1j * (radius + 14), "centre", OVERLAY)
    points = canvas.arc(right, radius, pi / 2 - angle, pi / 2, "thin", OVERLAY)
    label = Label(points[-1], Words((scene.text("beta"),), symbol="β"), "W NW N NNW", (5.0, 9.0, 15.0))
    return [label]


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    kind = _kind(scene)
    name = {
        "fixed": "Fixed pulley",
        "leaning": f"Moving pulley on two rope parts that lean {scene.text('beta')} from upright",
    }.get(kind, "Moving pulley on two rope parts")
    sentence = f"{name}: effort {scene.text('E') or 'not known'}"
    sentence += f" for a load of {scene.text('R')}" if scene.text("R") else ""
    if scene.text("dE") and scene.text("dR"):
        sentence += f"; the hand goes {scene.text('dE')} while the load rises {scene.text('dR')}"
    if kind != "leaning":
        sentence += f"; load {100 * min(max(scene.travel, 0.0), 1.0):.0f} % of the way up"
    return f"{sentence}."
