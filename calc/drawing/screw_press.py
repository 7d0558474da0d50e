"""A screw stand: the handle's circle from above, screw, nut and collar from the side, one thread as a ramp."""

from math import pi

from . import forces, helix, parts
from .canvas import BACKGROUND, MOVING, OVERLAY, Canvas, Words
from .labels import Label, settle
from .letters import EFFORT, HEADING
from .plane import left_of, rectangle, towards
from .press_layout import COLLAR, CRATE, GAP, HUB, NUT, PLATE, Stand, lay_out
from .scales import Scales, scale_bars
from .scene import Drawing, Scene
from .thread_forces import ThreadForces, draw_thread, thread_room

_LEAST_GAP = 2.6
"""Threads closer than this many pixels are shown by every second, fourth, ... line."""


def draw(scene: Scene) -> Drawing | None:
    """Draw a screw stand; None while its mean diameter or lead is unknown.

    Values: R, E, Q (push round the thread) in newtons; d, d_m, p, l, r, d_c in metres; lam, phi in radians; turns.
    Choices: collar = rubs or none. Texts T, T_down, T_hold are shown as they are.
    """
    scene = scene.drawable()
    stand = lay_out(scene)
    canvas = compose(scene)
    if canvas is None or stand is None:
        return None
    alt = _alt(scene, stand)
    return Drawing(canvas.svg(alt), _caption(scene, stand), alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the screw is not fixed."""
    stand = lay_out(scene)
    if stand is None:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Screw stand")
    on = _thread(scene)
    _from_above(canvas, scene, stand)
    _from_the_side(canvas, scene, stand)
    titles = min(canvas.top, stand.centre.imag - stand.reach, stand.top - 26) - 26
    if on and scene.wide:
        titles = min(titles, -thread_room(on, stand.force_scale) - 26)
        draw_thread(canvas, on, stand.force_scale, complex(404, 0), canvas.width - 6)
        _title(canvas, "ONE THREAD, UNROLLED", 540, titles)
    _title(canvas, "FROM ABOVE", stand.centre.real, titles)
    larger = f", {stand.times} TIMES" if stand.times > 1 else ""
    _title(canvas, f"FROM THE SIDE{larger}", stand.foot.real, titles)
    row = canvas.bottom + 12
    if on and not scene.wide:
        row += 8
        _title(canvas, "ONE THREAD, UNROLLED", canvas.width / 2, row)
        origin = complex(24, row + 22 + thread_room(on, stand.force_scale))
        draw_thread(canvas, on, stand.force_scale, origin, canvas.width - 8)
        row = canvas.bottom + 14
    for line in _torques(scene):
        row = canvas.write(Words((line,)), 10, row).bottom + 3
    most = stand.most_force
    scales = Scales(stand.plan, scene.length_unit, stand.force_scale, scene.force_unit, most)
    scale_bars(canvas, 10, row + 10, scales)
    return canvas


def _thread(scene: Scene) -> ThreadForces | None:
    values = scene.values
    if not values.get("lam", 0) > 0:
        return None
    return ThreadForces(
        angle=min(values["lam"], 1.5),
        friction=max(values.get("phi", 0.0), 0.0),
        load=max(values.get("R", 0.0), 0.0),
        push=max(values.get("Q", 0.0), 0.0),
        texts={symbol: scene.text(symbol) for symbol in ("R", "Q", "lam", "phi")},
    )


def _from_above(canvas: Canvas, scene: Scene, stand: Stand) -> None:
    """The handle on its circle, and the effort square to it."""
    centre, hand = stand.centre, stand.hand
    canvas.circle(centre, stand.handle, "path by-effort", BACKGROUND)
    out = towards(stand.angle)
    half = 2.6
    bar = [centre + left_of(out) * half, hand + left_of(out) * half, hand - left_of(out) * half]
    canvas.polygon([*bar, centre - left_of(out) * half], "lesser paper", MOVING)
    hub = min(max(stand.outside / stand.times / 2, 5.0), 46.0)
    canvas.circle(centre, hub, "visible paper", MOVING)
    for way in (1, 1j):
        canvas.line(centre - way * (hub + 7), centre + way * (hub + 7), "centre", OVERLAY)
    canvas.reserve(centre - stand.handle * (1 + 1j), centre + stand.handle * (1 + 1j))

    left, right = canvas.frame
    canvas.frame = (left, stand.foot.real - 70 if scene.wide else stand.foot.real - 62)
    labels = []
    if scene.values.get("E", 0) > 0:
        arrow = forces.arrow(hand, out * 1j, scene.values["E"] * stand.force_scale)
        forces.effort(canvas, arrow)
        words = arrow.note(Words(("effort", scene.text("E")), EFFORT))
        labels.append(Label(hand, words, "E W NE NW SE SW N S", (10.0, 16.0, 24.0, 36.0)))
        # The arrow goes all the way round: keep the room for it.
        reach = abs(complex(stand.handle, arrow.length)) + 8
        canvas.reserve(centre - 1j * reach, centre + 1j * reach)
    if scene.text("r"):
        words = Words(("handle", scene.text("r")))
        labels.append(Label(centre + out * stand.handle * 0.55, words, "N S NE NW SE SW E W", (6.0, 10.0, 18.0, 30.0)))
    settle(canvas, labels)
    canvas.frame = (left, right)
    counter = Words((f"{stand.turns * stand.travel:.3g} of {stand.turns:.3g} turns",))
    low = max(canvas.bottom, centre.imag + stand.reach) + 4
    canvas.write(counter, max(centre.real, counter.width / 2 + 4), low, "middle")


def _from_the_side(canvas: Canvas, scene: Scene, stand: Stand) -> None:
    """Base, collar, handle, screw, nut and load; the nut rises as the handle turns."""
    axis, ground = stand.foot.real, stand.foot.imag
    half = stand.outside / 2
    parts.ground(canvas, axis - 66, axis + 66, ground)
    seat = ground - COLLAR
    collar = max(stand.collar / 2, half + 3) if stand.collar else half + 5
    width = min(2 * collar, 124.0)
    canvas.polygon(rectangle(complex(axis, ground), 1, width, 0, COLLAR), "visible paper")
    if stand.collar:
        canvas.hatch(rectangle(complex(axis, ground), 1, width, 0, COLLAR * 0.45), 5)
    top_of_hub = seat - HUB
    low = top_of_hub - GAP - stand.rise
    # The screw ends inside the tube of the nut when the nut is at its lowest.
    end = top_of_hub - GAP - NUT
    helix.cylinder(canvas, axis, half, end - 2, seat, broken=False)
    _threads(canvas, stand, end, top_of_hub)
    canvas.polygon(rectangle(complex(axis, seat), 1, stand.outside + 16, 0, HUB), "visible paper")
    reach = min(stand.handle * stand.times, 50.0)
    turned = towards(stand.angle).real
    bar = complex(axis, seat - HUB / 2)
    if abs(reach * turned) > half + 8:
        side = 1 if turned > 0 else -1
        start, stop = bar + side * (half + 8), bar + reach * turned
        canvas.polygon(
            (start - 3j, stop - 3j, stop - side * 4 + 0j, stop + 3j, start + 3j), "lesser paper", MOVING, closed=True
        )
    else:
        canvas.circle(bar + reach * turned, 3.2, "lesser paper", MOVING)
    foot = complex(axis, low)
    nut = rectangle(foot, 1, 2 * stand.nut, 0, NUT)
    canvas.polygon(nut, "visible paper", MOVING)
    for part in (-1, 1):
        wall = rectangle(foot + part * (half + stand.nut) / 2, 1, stand.nut - half, 0, NUT)
        canvas.hatch(wall, 5, pi / 4, MOVING)
        canvas.line(complex(axis + part * half, low), complex(axis + part * half, low - NUT), "hidden", MOVING)
    plate = complex(axis, low - NUT)
    canvas.polygon(rectangle(plate, 1, 112, 0, PLATE), "visible paper", MOVING)
    crate = plate - 1j * PLATE
    parts.crate(canvas, crate, 1, 64, CRATE, MOVING)
    canvas.reserve(complex(axis, stand.top))
    canvas.avoid((complex(axis - 30, low), complex(axis + 30, low)), 3)

    left, right = canvas.frame
    labels = []
    canvas.frame = (axis - 78, axis + 78)
    if scene.values.get("R", 0) > 0:
        weight = crate - 0.5j * CRATE
        load = forces.arrow(weight, 1j, scene.values["R"] * stand.force_scale)
        forces.load(canvas, load)
        parts.centre_of_gravity(canvas, weight)
        words = load.note(Words((f"load {scene.text('R')}".strip(),)))
        top = crate - 1j * CRATE
        labels.append(Label(top, words, "N NNE NNW", (4.0, 9.0, 16.0)))
        canvas.reserve(complex(axis, stand.top - 22))
    if stand.collar and scene.text("d_c"):
        words = Words(("collar,", f"mean {scene.text('d_c')}"))
        labels.append(Label(complex(axis, ground + 8), words, "S SSE SSW SE SW", (6.0, 10.0, 18.0)))
    settle(canvas, labels)
    canvas.frame = (left, right)


def _title(canvas: Canvas, text: str, middle: float, top: float) -> None:
    """The name of a view, over it."""
    words = Words((text,), HEADING)
    half = words.width / 2
    canvas.write(words, min(max(middle, half + 4), canvas.width - half - 4), top, "middle")


def _threads(canvas: Canvas, stand: Stand, top: float, bottom: float) -> None:
    """The thread on the screw, turned as far as the handle."""
    every = 1
    while stand.pitch * every < _LEAST_GAP:
        every *= 2
    gap = stand.pitch * every
    phase = stand.lead * ((stand.turns * stand.travel) % 1)
    count = min(int((bottom - top) / gap) + 2, 60)
    pieces: list[helix.Strand] = []
    below = stand.lead / gap / 4 + 2
    for i in range(-int(min(below, 60)), count + int(min(below, 60))):
        foot = complex(stand.foot.real, bottom - gap * i + phase % gap)
        pieces += helix.strands(foot, stand.outside / 2, stand.lead, -pi / 2, pi / 2)
    pieces = helix.between_levels([piece for piece in pieces if piece[0]], top, bottom)
    helix.put_strands(canvas, pieces, "thin")


def _torques(scene: Scene) -> list[str]:
    """What the screw asks of the handle, up and down."""
    lines = []
    if scene.text("l"):
        lines.append(f"lead {scene.text('l')} a turn")
    if scene.text("T"):
        lines.append(f"raise {scene.text('T')}")
    if scene.values.get("T_hold", 0) > 0:
        lines.append(f"runs back unless held with {scene.text('T_hold')}")
    elif scene.text("T_down"):
        lines.append(f"holds by itself: lower {scene.text('T_down')}")
    return [", ".join(lines)] if scene.wide and lines else lines


def _caption(scene: Scene, stand: Stand) -> str:
    words = "Handle and screw are each drawn to scale"
    if stand.times > 1:
        words += f", the side view {stand.times} times larger"
    words += ". The heights of collar, nut and crate are signs."
    if scene.values.get("R", 0) > 0 and scene.values.get("E", 0) > 0:
        words += " All arrows are to one force scale."
    return words


def _alt(scene: Scene, stand: Stand) -> str:
    """One sentence from the strings of the labels."""
    sentence = f"Screw stand with a lead of {scene.text('l')}"
    if scene.text("r"):
        sentence += f" and a handle of {scene.text('r')}"
    sentence += f", {stand.turns * stand.travel:.3g} of {stand.turns:.3g} turns made"
    if scene.text("R"):
        sentence += f"; load {scene.text('R')}"
    if scene.text("E"):
        sentence += f", effort {scene.text('E')}"
    if scene.values.get("T_hold", 0) > 0:
        sentence += "; it runs back when let go"
    elif scene.text("T_down"):
        sentence += "; it holds by itself"
    return f"{sentence}."
