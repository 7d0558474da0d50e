"""The tackle: blocks, sheaves and one rope, its parts numbered at the moving block.

The way of the load and the way of the hand are drawn to one scale, so that they can be compared by eye.
Blocks, rope and crate are signs.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from . import forces, parts, rigging
from .canvas import Canvas, Words
from .force_bar import force_bar
from .labels import Label, settle, wrapped
from .letters import EFFORT, NOTE
from .scales import Scales, path_line, scale_bars
from .scene import Drawing, Scene
from .tackle_layout import LIST_ROOM, Tackle, effort_arrow, lay_out, load_arrow, parts_of
from .tensions import Tension, tension_list, tensions

_STRAP = 4.0

_PATH = 20.0
"""Pixels from the hauling part to the path beside it."""


@dataclass(frozen=True)
class Names:
    """What the thing is called: the whole of it, what stays up and what goes up with the load."""

    whole: str = "Tackle"
    standing: tuple[str, str] = ("standing", "block")
    moving: tuple[str, str] = ("moving", "block")


TACKLE = Names()


def draw(scene: Scene) -> Drawing | None:
    """Draw a tackle of 1 to 12 parts; None while their number is not known.

    Values: n; R, E, A (anchor), w in newtons, dE, dR in metres, k (share passed on by a sheave).
    Choices: rove = disadvantage or advantage.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    return None if canvas is None else finished(canvas, scene, _alt(scene))


def finished(canvas: Canvas, scene: Scene, alt: str) -> Drawing:
    """The drawing with its caption."""
    caption = "Both paths are to one scale. Blocks, rope and crate are signs."
    if scene.values.get("R", 0) > 0 and scene.values.get("E", 0) > 0:
        caption += " All arrows are to one force scale."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the number of parts is not known."""
    number = parts_of(scene.values)
    if number is None:
        return None
    return compose_reeved(scene, number, scene.choices.get("rove") == "advantage", TACKLE)


def compose_reeved(scene: Scene, number: int, to_advantage: bool, names: Names) -> Canvas:
    """Any rope over upright parts: so many at what moves, the hand pulling up (to advantage) or down."""
    listed = tensions(scene, number, to_advantage)
    beside = scene.wide and bool(listed) and scene.values.get("k", 1.0) < 1
    tackle = lay_out(scene, number, to_advantage, LIST_ROOM if beside else 0.0)
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, names.whole)
    if beside:
        canvas.frame = (canvas.frame[0], scene.width - LIST_ROOM - 6)
    reserve_travel(canvas, tackle)
    labels = [
        *_arrows(canvas, scene, tackle),
        *standing_block(canvas, scene, tackle, names),
        *moving_block(canvas, scene, tackle, names),
    ]
    reeved_rope(canvas, tackle, tackle.hand(tackle.done))
    labels += _paths(canvas, scene, tackle)
    settle(canvas, labels)
    row = canvas.bottom + 12
    if listed:
        if beside:
            row = max(row, _list(canvas, scene, listed, scene.width - LIST_ROOM, canvas.top + 4, LIST_ROOM - 6) + 12)
        elif scene.wide:
            _list(canvas, scene, listed, scene.width / 2, row + 4, scene.width / 2 - 8)
        else:
            row = _list(canvas, scene, listed, 8, row, scene.width - 16) + 12
    most = max(tackle.load, tackle.effort, tackle.anchor)
    if tackle.scale:
        scales = Scales(tackle.scale, scene.length_unit, tackle.force_scale, scene.force_unit, most)
        scale_bars(canvas, 10, row + 4, scales)
    elif most:
        force_bar(canvas, 10, row + 4, tackle.force_scale, most, scene.force_unit)
    return canvas


def reserve_travel(canvas: Canvas, tackle: Tackle) -> None:
    """Keep the height the same wherever the load hangs on its way."""
    effort, load = (f(tackle, done) for f, done in ((effort_arrow, 1.0), (load_arrow, 0.0)))
    canvas.reserve(effort.tip, load.tip, complex(tackle.rope.middle, tackle.crate(0) + 24))


def standing_block(canvas: Canvas, scene: Scene, tackle: Tackle, names: Names) -> list[Label]:
    """Beam, standing block and the force on what it hangs from."""
    rope, y = tackle.rope, tackle.standing
    spread = rope.spread(True)
    if spread is None:
        return []
    left, right = spread
    room = 14.0 if tackle.down else min(14.0, tackle.rope.pitch / 2 - 6)
    rigging.beam(canvas, min(left, rope.x(1)) - 14, right + room, 0)
    middle = (left + right) / 2
    labels: list[Label] = []
    if rope.sheaves(True):
        rigging.shackle(canvas, middle, 0, y - 7)
        rigging.strap(canvas, left - _STRAP, right + _STRAP, y)
        for x in rope.sheaves(True):
            rigging.sheave(canvas, complex(x, y), tackle.radius)
        words = Words(names.standing, NOTE)
        labels += _beside(canvas, complex(left - _STRAP, y), words)
    else:
        rigging.shackle(canvas, middle, 0, 14)
    if tackle.anchor > 0:
        force = forces.arrow(complex(middle, 0), -1j, tackle.anchor * tackle.force_scale)
        forces.reaction(canvas, force)
        text = scene.text("A")
        words = force.note(Words((f"anchor {text}".strip(),) if scene.wide else ("anchor", text)))
        labels.insert(0, Label(force.tip + 8j, words, "W E NW NE N", (8.0, 13.0, 20.0)))
    return labels


def moving_block(canvas: Canvas, scene: Scene, tackle: Tackle, names: Names) -> list[Label]:
    """Moving block, hook and crate."""
    rope, y = tackle.rope, tackle.moving(tackle.done)
    labels: list[Label] = []
    top = y if rope.sheaves(False) else y + 3
    sling = rigging.hook(canvas, complex(rope.middle, top), tackle.hook(tackle.done) - top)
    if rope.sheaves(False):
        left, right = rope.spread(False) or (rope.middle, rope.middle)
        rigging.strap(canvas, left - _STRAP, right + _STRAP, y)
        for x in rope.sheaves(False):
            rigging.sheave(canvas, complex(x, y), tackle.radius)
        weight = scene.text("w") if scene.values.get("w", 0) > 0 else ""
        words = Words((*names.moving, weight) if weight else names.moving, NOTE)
        labels += _beside(canvas, complex(left - _STRAP, y), words)
    rigging.slung_crate(canvas, sling, *tackle.crate_size)
    return labels


def _beside(canvas: Canvas, end: complex, words: Words) -> list[Label]:
    """A block's name at its left end, where there is room for it."""
    if end.real - 6 - words.width < canvas.frame[0]:
        return []
    return [Label(end, words, "W WNW WSW", (6.0, 10.0, 16.0))]


def reeved_rope(canvas: Canvas, tackle: Tackle, hand: float) -> None:
    """The rope with its numbered parts, its dead end and the handle at the other one, at the height ``hand``."""
    rope, above, below = tackle.rope, tackle.standing, tackle.moving(tackle.done)
    if rope.fixed_above:
        fixed = above + 9 if rope.sheaves(True) else 14.0
    else:
        fixed = below - (9 if rope.sheaves(False) else 0)
    start = complex(rope.x(1), fixed)
    rigging.rope(canvas, start, list(rope.runs(above, below, hand)))
    rigging.dead_end(canvas, start)
    for part in range(1, rope.parts + 1):
        at, high = tackle.number_at(part, tackle.done), above
        if part == rope.parts and rope.to_advantage:
            high = hand
        canvas.avoid((complex(at.real, high), at - 1j * rigging.RING), 3)
        canvas.avoid((at + 1j * rigging.RING, complex(at.real, below)), 3)
        rigging.ringed(canvas, at, str(part))
    if tackle.down:
        canvas.avoid((complex(rope.hauling, above), complex(rope.hauling, hand)), 3)
    width = min(16.0, 2 * (rope.pitch - rigging.RING - 1)) if tackle.down else 16.0
    rigging.handle(canvas, complex(rope.hauling, hand), width=width)


def _arrows(canvas: Canvas, scene: Scene, tackle: Tackle) -> list[Label]:
    """Effort and load, with their labels."""
    labels: list[Label] = []
    if tackle.effort > 0:
        force = effort_arrow(tackle, tackle.done)
        forces.effort(canvas, force)
        text = scene.text("E")
        words = force.note(Words(("effort", text), EFFORT))
        beyond = force.middle + (_PATH if scene.text("dE") else 6)
        labels.append(Label(beyond, words, "E ESE ENE SE NE S N W", (6.0, 10.0, 16.0, 24.0)))
    if tackle.load > 0:
        force = load_arrow(tackle, tackle.done)
        forces.load(canvas, force)
        parts.centre_of_gravity(canvas, force.tail)
        words, narrower = Words((f"load {scene.text('R')}".strip(),)), Words(("load", scene.text("R")))
        width, height = tackle.crate_size
        at = complex(force.tip.real, max(force.tip.imag - 6, force.tail.imag + height / 2 + 10))
        beside = (width / 2 if force.tip.imag < at.imag else 0) + 4
        sides = (beside + 6, beside + 12, beside + 20, beside + 30)
        labels.append(Label(at, force.note(words), "W E SW SE S", sides, narrower=force.note(narrower)))
    return labels


def _paths(canvas: Canvas, scene: Scene, tackle: Tackle) -> list[Label]:
    """The ways of hand and load, dashed, side by side with what moves along them."""
    labels: list[Label] = []
    if scene.text("dE"):
        x = tackle.rope.hauling + _PATH
        path_line(canvas, complex(x, tackle.hand(0)), complex(x, tackle.hand(1)), True)
        away = 0.72 if tackle.done < 0.5 else 0.28
        words = Words(("effort path", scene.text("dE")))
        labels.append(Label(complex(x, tackle.hand(away)), words, "E ENE ESE NE SE", (7.0, 12.0, 18.0)))
    if scene.text("dR"):
        width, height = tackle.crate_size
        x = tackle.rope.middle - width / 2 - 12
        low, high = (tackle.crate(done) + height / 2 for done in (0.0, 1.0))
        path_line(canvas, complex(x, low), complex(x, high), False)
        canvas.avoid((complex(x, low + 4), complex(x, high)), 2)
        words = Words(("load path", scene.text("dR")))
        labels.append(Label(complex(x, (low + high) / 2), words, "W WSW WNW SW NW", (7.0, 12.0, 18.0)))
    if scene.wide and tackle.down:
        at = complex(tackle.rope.hauling + 3, tackle.standing - tackle.radius * 0.2)
        words = Words(("hauling part,", "not counted"), NOTE)
        labels.append(Label(at, words, "E ENE NE ESE SE", (8.0, 14.0, 22.0)))
    return labels


def _list(canvas: Canvas, scene: Scene, listed: Sequence[Tension], left: float, top: float, width: float) -> float:
    """The tension in each part, beside the tackle or below it; returns the y below."""
    frame, canvas.frame = canvas.frame, (left, left + width)
    if scene.values.get("k", 1.0) < 1:
        below = tension_list(canvas, left, top, width, listed)
        notes = [f"Together the parts carry {scene.text('G')}."] if scene.text("G") else []
        if scene.text("E_down"):
            notes.append(f"The load stays put for any pull from {scene.text('E_down')} to {scene.text('E')}.")
    else:
        below = top
        notes = [f"No friction: {listed[0].text} in every part of the rope."]
    for note in notes:
        below = canvas.write(wrapped(Words((note,), NOTE), width), left, below).bottom + 6
    canvas.frame = frame
    return below


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    number = int(scene.values["n"])
    parts_word = "part" if number == 1 else "parts"
    way = "advantage" if scene.choices.get("rove") == "advantage" else "disadvantage"
    done = min(max(scene.travel, 0.0), 1.0)
    sentence = f"Tackle rove to {way} with {number} {parts_word} at the moving block"
    if scene.text("E"):
        sentence += f"; pull {'up' if way == 'advantage' else 'down'} {scene.text('E')}"
        sentence += f" for a load of {scene.text('R')}" if scene.text("R") else ""
    elif scene.text("R"):
        sentence += f"; load {scene.text('R')}"
    if scene.text("dE") and scene.text("dR"):
        sentence += f"; the hand goes {scene.text('dE')} while the load rises {scene.text('dR')}"
    return f"{sentence}; load {100 * done:.0f} % of the way up."
