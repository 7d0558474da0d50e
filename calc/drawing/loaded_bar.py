"""A bar on its pivot with several loads, its own weight and the hand, each at its place along a ruler.

The bar rocks a little with the travel; every force stays plumb. Without a hand that balances it, an arrow shows which
way the bar turns.
"""

from math import pi, sin

from . import forces, parts
from .canvas import BODY, EDGE, MOVING, OVERLAY, Canvas, Words, shape
from .labels import Label, settle, wrapped
from .letters import EFFORT
from .loaded_bar_layout import Bar, lay_out
from .plane import left_of, rectangle, towards
from .ruler import ruler
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_TURN_RADIUS = 58.0


def draw(scene: Scene) -> Drawing | None:
    """Draw a loaded bar; None while the pivot's place is unknown, or nothing else has one.

    Values: x_f, x_E, x_c, x_1, x_2, ..., B in metres, E, w, F_1, F_2, ..., N, N_down in newtons, M in newton metres
    (anticlockwise above zero).
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = "Drawn to scale, every force at its place on the bar. All arrows are to one force scale."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the pivot's place is unknown, or nothing else has one."""
    bar = lay_out(scene)
    if bar is None:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Bar with several loads")
    parts.pivot(canvas, bar.pin, 34 if scene.wide else 30)
    _bar(canvas, bar)
    labels = [*_loads(canvas, scene, bar), *_own_weight(canvas, scene, bar), *_effort(canvas, scene, bar)]
    turning = scene.values.get("M", 0.0)
    if "E" not in scene.values and turning:
        labels.insert(0, _turning(canvas, bar, 1 if turning > 0 else -1))
    labels.append(_pivot_label(scene, bar))
    _reserve_rocking(canvas, bar)
    below = canvas.bottom
    for x in bar.places:
        at = bar.point(x)
        canvas.avoid((at + 20j, complex(at.real, below + 30)), 0.6)
    settle(canvas, labels)
    row = canvas.bottom + 24
    for x in bar.places:
        at = bar.point(x)
        canvas.extension(complex(at.real, at.imag + bar.thickness / 2 + 5), complex(at.real, row))
    row = ruler(canvas, bar.left, bar.right, row, bar.low, bar.scale, scene.length_unit) + 6
    if _crowded(scene, bar):
        row = _key(canvas, scene, bar, row)
    scale_bars(canvas, 10, row + 8, Scales(bar.scale, scene.length_unit, bar.force, scene.force_unit, bar.most))
    return canvas


def _bar(canvas: Canvas, bar: Bar) -> None:
    along = towards(bar.tilt)
    start, end = bar.point(bar.start), bar.point(bar.end)
    half = bar.thickness / 2
    canvas.polygon(rectangle((start + end) / 2, along, abs(end - start), -half, half), "visible paper")
    for share in (-0.3, 0.25):
        shift = left_of(along) * bar.thickness * share
        canvas.put(BODY, shape((start + along * 6 + shift, end - along * 6 + shift), "grain", closed=False))
    parts.pin(canvas, bar.pin)


def _loads(canvas: Canvas, scene: Scene, bar: Bar) -> list[Label]:
    """Boxes on the bar with their arrows; returns their labels."""
    labels = []
    for load in bar.loads:
        foot = bar.point(load.x) + bar.face
        height = bar.box * 0.74
        parts.crate(canvas, foot, towards(bar.tilt), bar.box, height, MOVING)
        centre = foot + left_of(towards(bar.tilt)) * height / 2
        words = _words(scene, f"load {load.row}" if len(bar.loads) > 1 else "load", f"F_{load.row}", f"x_{load.row}")
        if _crowded(scene, bar):
            words = Words((f"{load.row}",))
        if load.force:
            arrow = forces.arrow(centre, 1j, load.force * bar.force)
            forces.load(canvas, arrow)
            parts.centre_of_gravity(canvas, centre, 4.0)
            words = arrow.note(words)
        top = foot - 1j * height
        labels.append(Label(top, words, "N NNE NNW NE NW", (4.0, 10.0, 18.0, 28.0, 42.0, 58.0)))
    return labels


def _crowded(scene: Scene, bar: Bar) -> bool:
    """Whether the loads have numbers only, and a key below."""
    return len(bar.loads) > (4 if scene.wide else 2)


def _key(canvas: Canvas, scene: Scene, bar: Bar, row: float) -> float:
    """What the numbers on the loads stand for, a line each; returns the y below."""
    for load in bar.loads:
        size = scene.text(f"F_{load.row}") or "size not known"
        words = wrapped(Words((f"load {load.row}: {size} at {scene.text(f'x_{load.row}')}",)), canvas.width - 2 * EDGE)
        row = canvas.write(words, EDGE, row).bottom + 3
    return row + 6


def _own_weight(canvas: Canvas, scene: Scene, bar: Bar) -> list[Label]:
    """The bar's weight at its centre of gravity."""
    weight, x = scene.values.get("w", 0.0), scene.values.get("x_c")
    if x is None or not weight > 0:
        return []
    at = bar.point(x)
    arrow = forces.arrow(at, 1j, weight * bar.force)
    forces.load(canvas, arrow)
    parts.centre_of_gravity(canvas, at)
    words = arrow.note(_words(scene, "bar", "w", "x_c"))
    return [Label(arrow.tip, words, "SE SW E W S SSE SSW", (5.0, 10.0, 18.0, 28.0, 40.0))]


def _effort(canvas: Canvas, scene: Scene, bar: Bar) -> list[Label]:
    """The hand's arrow, on the upper face; its place alone while its size is unknown."""
    x = scene.values.get("x_E")
    if x is None:
        return []
    at = bar.point(x) + bar.face
    effort = scene.values.get("E", 0.0)
    if not effort > 0:
        return [
            Label(at, Words(("hand", f"at {scene.text('x_E')}")), "N NNE NNW NE NW", (12.0, 20.0, 30.0), leader=True)
        ]
    down = scene.choices.get("direction", "down") == "down"
    arrow = forces.arrow(at, 1j if down else -1j, effort * bar.force)
    if down:
        arrow = arrow.ending_at(at)
    forces.effort(canvas, arrow)
    words = _words(scene, "effort", "E", "x_E")
    words = arrow.note(Words(words.lines, EFFORT))
    sides = "NW N NE NNW NNE W E" if at.real > canvas.width / 2 else "NE N NW NNE NNW E W"
    return [Label(arrow.tail if down else arrow.tip, words, sides, (4.0, 9.0, 15.0, 23.0, 35.0, 52.0))]


def _words(scene: Scene, name: str, force: str, place: str) -> Words:
    """A name, its force and its place, on two lines when wide and three when narrow."""
    size, at = scene.text(force), f"at {scene.text(place)}"
    if scene.wide:
        return Words((f"{name} {size}".strip(), at))
    return Words((name, size, at) if size else (name, at))


def _turning(canvas: Canvas, bar: Bar, sense: int) -> Label:
    """An arrow round the pivot: which way the bar turns by itself."""
    start, end = pi / 2 - 0.75 * sense, pi / 2 + 0.75 * sense
    points = canvas.arc(bar.pin, _TURN_RADIUS, start, end, "visible", OVERLAY)
    canvas.arrowhead(points[-1], towards(end + sense * pi / 2), 13, OVERLAY)
    words = Words(("turns", "anticlockwise" if sense > 0 else "clockwise"))
    return Label(bar.pin - 1j * _TURN_RADIUS, words, "N NNE NNW NE NW", (6.0, 12.0, 20.0, 30.0))


def _pivot_label(scene: Scene, bar: Bar) -> Label:
    if scene.text("N_down"):
        lines: tuple[str, ...] = ("pivot holds", f"down {scene.text('N_down')}")
    elif scene.text("N"):
        lines = ("pivot", scene.text("N"))
    else:
        lines = ("pivot",)
    base = bar.pin + (28j if scene.wide else 24j)
    return Label(base, Words(lines), "E W ESE WSW SE SW S", (26.0, 32.0, 40.0, 52.0, 66.0))


def _reserve_rocking(canvas: Canvas, bar: Bar) -> None:
    """Keep the height the same wherever the bar stands in its rocking."""
    for load in bar.loads:
        rise = abs(load.x - bar.pivot) * bar.scale * sin(bar.rocking)
        length = load.force * bar.force
        canvas.reserve(
            complex(bar.pin.real, -rise - bar.thickness / 2 - bar.box),
            complex(bar.pin.real, rise + max(length - bar.box * 0.37, 0.0)),
        )


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    loads = [
        f"{scene.text(f'F_{row}') or 'a load'} at {scene.text(f'x_{row}')}"
        for row in range(1, 21)
        if f"x_{row}" in scene.values
    ]
    effort = f"effort {scene.text('E') or 'not known'} at {scene.text('x_E') or 'an unknown place'}"
    way = scene.choices.get("direction", "down")
    return f"Bar on a pivot at {scene.text('x_f')}: {', '.join(loads) or 'no load'}; {effort}, {way}."
