"""Gears, chains and belts from the side: pitch circles in their true ratio, teeth as ticks, the way each turns."""

from __future__ import annotations

from collections.abc import Sequence
from math import acos, pi

from .canvas import BODY, EDGE, MOVING, OVERLAY, Canvas, Words, number, place
from .gear_train import Pair, Train, Wheel, belted, drive, lay_out, sizes, turning
from .labels import Label, settle, wrapped
from .letters import NOTE
from .plane import towards
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_TOOTH = 3.0
_FINEST = 2.4
"""Teeth closer than this, in pixels, are drawn as a plain rim."""

_NAMES = {"gears": "Gears", "chain": "Chain drive", "belt": "Open belt drive", "crossed": "Crossed belt drive"}


def draw(scene: Scene) -> Drawing | None:
    """Draw a train of wheels; None while no pair is complete.

    Values: N_a_1, N_b_1, ... teeth or D_a_1, D_b_1, ... in metres, rpm_0, rpm_1, ... in radians per second,
    T_0, T_1, ... in newton metres, idlers as a plain number.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = "All wheels to one scale." if belted(scene) else "Pitch circles to one scale, all teeth of one size."
    return Drawing(canvas.svg(alt), f"{caption} The slider turns the first shaft once.", alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while no pair is complete."""
    found = sizes(scene)
    if not found:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, _NAMES.get(drive(scene), "Gears"))
    train = lay_out(scene, found, 190.0 if scene.wide else 150.0)
    for pair in train.pairs:  # each pair lies in a plane of its own, in front of the one before
        for wheel in pair.wheels:
            _wheel(canvas, wheel)
        _joined(canvas, pair, drive(scene))
    _ways(canvas, train, turning(scene))
    few = len(found) <= _FEW
    blocks = _blocks(scene, found, named=not few)
    columns = _under(train, blocks, scene.width)
    if few and columns is None:
        blocks = _blocks(scene, found, named=True)
    if few and columns is not None:
        settle(canvas, _sizes(scene, train))
    _tables(canvas, train, blocks, columns)
    if train.scale:
        scale_bars(canvas, 10, canvas.bottom + 16, Scales(train.scale, scene.length_unit))
    return canvas


_REACH = (18.0, 28.0, 40.0, 54.0, 70.0, 90.0)
_FEW = 2
"""With more pairs the sizes stand in the table below, not on leaders."""


def _sizes(scene: Scene, train: Train) -> list[Label]:
    """The size of each wheel on a leader above it."""
    found = []
    for pair in train.pairs:
        for wheel in pair.wheels:
            words = Words((_size(scene, wheel.symbol) if wheel.symbol else "idler",))
            at = wheel.centre + towards(pi / 2) * wheel.radius
            found.append(Label(at, words, "N NNE NNW NE NW", _REACH, leader=True))
    return found


def _size(scene: Scene, symbol: str) -> str:
    text = scene.text(symbol)
    return text if symbol.startswith("D") else f"{text} teeth"


def _wheel(canvas: Canvas, wheel: Wheel) -> None:
    """Rim with its teeth, hub, and a mark that shows the turning."""
    c, r = wheel.centre, wheel.radius
    drawn = max(r, 1.2)
    spacing = 2 * pi * r / wheel.teeth if wheel.teeth else 0.0
    canvas.circle(c, drawn, "lesser paper" if spacing > _FINEST else "visible paper", BODY)
    if spacing > _FINEST:
        tall = min(_TOOTH, spacing * 0.45)
        start, step = wheel.phase + wheel.turned, 2 * pi / wheel.teeth
        teeth = [towards(start + i * step) for i in range(wheel.teeth)]
        data = "".join([f"M{place(c + tooth * (r - tall))}L{place(c + tooth * (r + tall))}" for tooth in teeth])
        canvas.put(BODY, f'<path class="lesser" d="{data}"/>')
        canvas.reserve(c - (r + tall) * 1j, c + (r + tall) * 1j, c - (r + tall), c + r + tall)
    elif wheel.teeth == 0 and r > 14:
        canvas.put(BODY, f'<circle class="thin" cx="{number(c.real)}" cy="{number(c.imag)}" r="{number(r - 4)}"/>')
    if r > 9:
        mark = towards(pi / 2 + wheel.turned)
        canvas.line(c + mark * min(6.0, r * 0.4), c + mark * (r - 5), "thin", BODY)
        canvas.circle(c, min(5.0, r * 0.35), "lesser paper", OVERLAY)
    elif r > 3:
        canvas.put(OVERLAY, f'<circle class="ink" cx="{number(c.real)}" cy="{number(c.imag)}" r="1.4"/>')


def _joined(canvas: Canvas, pair: Pair, kind: str) -> None:
    """The belt or chain of a pair: outside tangents, or crossed ones."""
    if kind == "gears":
        return
    a, b = pair.driver, pair.driven
    apart = abs(b.centre - a.centre)
    sign = -1 if kind == "crossed" else 1
    lean = acos(max(-1.0, min(1.0, (a.radius - sign * b.radius) / apart)))
    for side in (lean, -lean):
        normal = towards(side)
        start, end = a.centre + normal * a.radius, b.centre + normal * b.radius * sign
        canvas.line(start, end, "visible", MOVING)
        if kind == "chain":
            _links(canvas, start, end)


def _links(canvas: Canvas, start: complex, end: complex) -> None:
    length = abs(end - start)
    count = int(length / 6)
    if not count:
        return
    across = (end - start) / length * 2.6j
    points = [start + (end - start) * (i + 0.5) / count for i in range(count)]
    data = "".join([f"M{place(p - across)}L{place(p + across)}" for p in points])
    canvas.put(MOVING, f'<path class="lesser" d="{data}"/>')


def _ways(canvas: Canvas, train: Train, ways: Sequence[int]) -> None:
    """An arrow round each shaft; the first turns the way the clock goes."""
    largest = dict.fromkeys(train.shafts, 0.0)
    for pair in train.pairs:
        for wheel in pair.wheels:
            if wheel.centre in largest:
                largest[wheel.centre] = max(largest[wheel.centre], wheel.radius)
    for shaft, way in zip(train.shafts, ways, strict=True):
        radius = largest[shaft] * 0.68
        if radius < 7:
            continue
        # Under the shaft, so that the mark above it stays clear; the clock goes from right to left there.
        start, end = (pi * 1.7, pi * 1.3) if way > 0 else (pi * 1.3, pi * 1.7)
        points = canvas.arc(shaft, radius, start, end, "lesser", OVERLAY)
        along = points[-1] - points[-2]
        canvas.arrowhead(points[-1] + along / abs(along) * 2, along / abs(along), min(10.0, radius * 0.6), OVERLAY)


def _blocks(scene: Scene, found: Sequence[tuple[str, str, float, float]], *, named: bool) -> list[tuple[str, ...]]:
    """For each shaft its number, speed and torque; ``named``: the sizes of its wheels too."""
    blocks = []
    for i in range(len(found) + 1):
        driven = [_size(scene, found[i - 1][1])] if i else []
        driving = [_size(scene, found[i][0])] if i < len(found) else []
        lines = [f"shaft {i + 1}", *([*driven, *driving] if named else [])]
        blocks.append((*lines, *(text for text in (scene.text(f"rpm_{i}"), scene.text(f"T_{i}")) if text)))
    return blocks


def _under(train: Train, blocks: list[tuple[str, ...]], width: int) -> list[float] | None:
    """The x of each block under its shaft, or None if they would touch."""
    found: list[float] = []
    for shaft, block in zip(train.shafts, blocks, strict=True):
        half = Words(block).width / 2
        x = min(max(shaft.real, EDGE + half), width - EDGE - half)
        if found and x - half < found[-1] + Words(blocks[len(found) - 1]).width / 2 + 10:
            return None
        found.append(x)
    return found


def _tables(canvas: Canvas, train: Train, blocks: list[tuple[str, ...]], columns: list[float] | None) -> None:
    """Each shaft's block under it, or a list of numbered shafts where there is no room."""
    if columns is not None:
        top = canvas.bottom + 12
        for x, block in zip(columns, blocks, strict=True):
            canvas.write(Words(block), x, top, "middle")
        return
    _numbers(canvas, train)
    top = canvas.bottom + 10
    for block in blocks:
        words = wrapped(Words((f"{block[0]}: {', '.join(block[1:]) or 'not known'}",), NOTE), canvas.width - 2 * EDGE)
        top = canvas.write(words, EDGE, top).bottom + 3


def _numbers(canvas: Canvas, train: Train) -> None:
    """The number of each shaft on a centre line below it, in as many rows as they need."""
    rows: list[float] = []
    below = canvas.bottom + 8
    for i, shaft in enumerate(train.shafts, 1):
        words = Words((str(i),))
        half = words.width / 2 + 2
        row = next((n for n, last in enumerate(rows) if shaft.real - half > last), len(rows))
        rows[row : row + 1] = [shaft.real + half]
        top = below + row * (words.height + 3)
        canvas.line(shaft, complex(shaft.real, top - 2), "centre", OVERLAY)
        canvas.write(words, shaft.real, top, "middle")


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    unit = "" if belted(scene) else " teeth"
    pairs = ", ".join(f"{scene.text(a)} to {scene.text(b)}{unit}" for a, b, _, _ in sizes(scene))
    way = "the same way as" if turning(scene)[-1] > 0 else "the other way than"
    last = f" at {scene.text('rpm_out')}" if scene.text("rpm_out") else ""
    return f"{_NAMES.get(drive(scene), 'Gears')}, {pairs}: the last shaft turns {way} the first{last}."
