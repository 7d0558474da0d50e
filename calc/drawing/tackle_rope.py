"""The rope that a tackle needs: where each length lies, and all of it laid out straight to one scale.

The tackle is a sign. The rope below it is true: what leaves the parts is found at the hand.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from .canvas import BODY, EDGE, Canvas, Words, shape
from .labels import Label, settle, wrapped
from .letters import EFFORT, HEADING, NOTE, Style
from .scales import Scales, scale_bars
from .scene import Drawing, Scene
from .tackle import TACKLE, moving_block, reeved_rope, standing_block
from .tackle_layout import Tackle, lay_out_within, parts_of

_LIFT = 64.0
_HAUL = 70.0
_THICK = 10.0


@dataclass(frozen=True)
class Length:
    """One kind of length in the rope: its words, its size in metres, how it is filled."""

    words: str
    metres: float
    fill: str


def draw(scene: Scene) -> Drawing | None:
    """Draw the rope of a tackle; None while it is not known.

    Values: n; L (all), L_n (in the parts), L_S (round the sheaves), tail, gap, h, D_s, dE in metres.
    Choices: rove = disadvantage or advantage.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    return Drawing(canvas.svg(alt), "The tackle is a sign. The rope laid out straight below it is to scale.", alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while it is not known."""
    values = scene.values
    number = parts_of(values)
    if number is None or not all(values.get(symbol, 0.0) > 0 for symbol in ("L", "L_n", "tail", "dE")):
        return None
    if any(values.get(symbol, 0.0) > 1.05 * values["L"] for symbol in ("L_n", "L_S", "tail", "dE")):
        return None  # a piece longer than the rope: the values belong to different ropes
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Rope of a tackle")
    left = EDGE + max(words.width for words in _span_words(scene)) + 30
    room = (left, scene.width - (240.0 if scene.wide else 66.0 if number < 8 else 12.0))
    tackle = replace(lay_out_within(scene, number, scene.choices.get("rove") == "advantage", room), lift=_LIFT)
    canvas.reserve(complex(tackle.rope.middle, tackle.crate(0) + 24), complex(0, min(tackle.hand(0) - _HAUL, 0) - 12))
    standing_block(canvas, scene, tackle, TACKLE)
    moving_block(canvas, scene, tackle, TACKLE)
    hand = tackle.hand(0) + _HAUL * tackle.done * (1 if tackle.down else -1)
    reeved_rope(canvas, tackle, hand)
    _spans(canvas, scene, tackle)
    settle(canvas, _names(scene, tackle, hand))
    row = _laid_out(canvas, scene, number, canvas.bottom + 16)
    scale_bars(canvas, 10, row + 8, Scales(_scale(scene), scene.length_unit))
    return canvas


def _span_words(scene: Scene) -> tuple[Words, Words]:
    return Words(("gap closed", scene.text("gap")), NOTE), Words(("lift", scene.text("h")), NOTE)


def _spans(canvas: Canvas, scene: Scene, tackle: Tackle) -> None:
    """Closed gap and lift as dimensions to the left of the blocks."""
    edge = tackle.rope.x(1) - tackle.radius - 8
    x = edge - 14
    heights = [tackle.standing, tackle.moving(1), tackle.moving(0)]
    for y in heights:
        canvas.extension(complex(edge, y), complex(x - 4, y))
    for words, (top, bottom) in zip(_span_words(scene), pairwise(heights), strict=True):
        canvas.line(complex(x, top), complex(x, bottom), "thin")
        canvas.arrowhead(complex(x, top), -1j)
        canvas.arrowhead(complex(x, bottom), 1j)
        canvas.write(words, x - 5, (top + bottom - words.height) / 2, "end")


def _names(scene: Scene, tackle: Tackle, hand: float) -> list[Label]:
    """The sheave's size and the tail, each at the end of a leader."""
    labels: list[Label] = []
    pins, y = tackle.rope.sheaves(True), tackle.standing
    if not pins:
        pins, y = tackle.rope.sheaves(False), tackle.moving(tackle.done)
    if pins and scene.text("D_s"):
        at = complex(pins[-1] + tackle.radius * 0.7, y - tackle.radius * 0.7)
        words = Words(("sheave", scene.text("D_s")), NOTE)
        labels.append(Label(at, words, "E ENE NE ESE", (18.0, 28.0, 40.0), leader=True))
    at = complex(tackle.rope.hauling + 2, hand - (12 if tackle.down else -12))
    labels.append(Label(at, Words(("tail", scene.text("tail")), NOTE), "E SE NE", (12.0, 18.0, 28.0)))
    return labels


def _scale(scene: Scene) -> float:
    return (scene.width - 2 * EDGE) / scene.values["L"]


def _laid_out(canvas: Canvas, scene: Scene, number: int, top: float) -> float:
    """The rope straight, with the load down and on its way; returns the y below the key to it."""
    values = scene.values
    hauled = values["dE"] * min(max(scene.travel, 0.0), 1.0)
    sheaves = int(values.get("S", 0))
    in_parts, round_sheaves = values["L_n"], max(values.get("L_S", 0.0), 0.0)
    parts_name = "in 1 part" if number == 1 else f"in {number} parts"
    lengths = [
        Length(f"{parts_name} {scene.text('L_n')}", in_parts, "parts"),
        Length(f"round {sheaves} sheave{'' if sheaves == 1 else 's'} {scene.text('L_S')}", round_sheaves, "sheaves"),
        Length(f"tail {scene.text('tail')}", values["tail"], "tail"),
    ]
    lifted = [
        replace(lengths[0], metres=max(in_parts - hauled, 0.0)),
        *lengths[1:],
        Length(f"hauled {scene.text('dE')} for the whole lift", hauled, "hauled"),
    ]
    percent = f"{100 * min(max(scene.travel, 0.0), 1.0):.0f}"
    whole = f"ROPE LAID OUT, {scene.text('L')} IN ALL" if scene.text("L") else "ROPE LAID OUT"
    top = canvas.write(Words((whole,), HEADING), EDGE, top).bottom + 8
    for name, row in (("load down", lengths), (f"load {percent} % of the way up", lifted)):
        top = canvas.write(Words((name,), NOTE), EDGE, top).bottom + 3
        _strip(canvas, scene, row, top)
        top += _THICK + 8
    return _key(canvas, [length for length in lifted if length.metres or length.fill == "hauled"], top + 4)


def _strip(canvas: Canvas, scene: Scene, lengths: Sequence[Length], top: float) -> None:
    x = EDGE
    for length in lengths:
        width = length.metres * _scale(scene)
        if width > 0:
            _field(canvas, x, top, width, length.fill)
        x += width


def _field(canvas: Canvas, left: float, top: float, width: float, fill: str) -> None:
    """A piece of the strip: hatched, black, white or in the effort's colour."""
    corners = [complex(left + dx, top + dy) for dx, dy in ((0, 0), (width, 0), (width, _THICK), (0, _THICK))]
    if fill in ("sheaves", "hauled"):
        canvas.put(BODY, shape(corners, "ink" if fill == "sheaves" else "effort"))
        canvas.reserve(*corners)
        canvas.avoid([*corners, corners[0]], 3)
    else:
        canvas.polygon(corners, "lesser paper")
    if fill == "parts":
        canvas.hatch(corners, 4)


def _key(canvas: Canvas, lengths: Sequence[Length], top: float) -> float:
    """What each fill stands for, in as many lines as it takes; returns the y below."""
    x, low = EDGE, top
    for length in lengths:
        style: Style = EFFORT if length.fill == "hauled" else NOTE
        words = wrapped(Words((length.words,), style), canvas.width - 2 * EDGE - 20)
        if x > EDGE and x + 22 + words.width > canvas.width - EDGE:
            x, top = EDGE, low + 4
        _field(canvas, x, top + 3, 16, length.fill)
        box = canvas.write(words, x + 20, top)
        x, low = box.right + 14, box.bottom
    return low + 8


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    way = "advantage" if scene.choices.get("rove") == "advantage" else "disadvantage"
    number = int(scene.values["n"])
    return (
        f"Rope for a tackle rove to {way} with {number} part{'' if number == 1 else 's'}: {scene.text('L_n')} in the"
        f" parts, {scene.text('L_S') or 'none'} round the sheaves and a tail of {scene.text('tail')}"
        f" make {scene.text('L')}."
    )
