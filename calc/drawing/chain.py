"""A compound machine as blocks in a row: the force above and the travel below each link, from the hand to the load.

Where the row has no room, the blocks stand one under the other. Below, every travel is drawn to one scale; the
marks on them move together.
"""

from dataclasses import dataclass

from .canvas import BODY, EDGE, MOVING, Canvas, Words
from .labels import wrapped
from .letters import EFFORT, NOTE, PLAIN
from .scales import Scales, path_line, scale_bars
from .scene import Drawing, Scene

_NAMES = {
    "windlass-tackle": ("windlass", "tackle"),
    "crank-gears-drum": ("crank, pinion", "gear, drum"),
    "vise": ("handle", "screw"),
    "tackle-ramp": ("tackle", "ramp"),
    "lopper": ("handles", "blade"),
}
_AIR = 14.0
_HEAD = 11.0
_STEP, _LOW_STEP = 44.0, 34.0
"""Height of a link in the column, and where there are many."""


@dataclass(frozen=True)
class _Link:
    """What passes from one stage to the next: force and travel as shown, and the travel in metres."""

    force: str
    travel: str
    length: float
    name: str
    by_effort: bool = False


def draw(scene: Scene) -> Drawing | None:
    """Draw a chain of stages; None while no stage is known.

    Values: F_0, F_1, ... in newtons, d_0, d_1, ... in metres, IMA_1, ... plain, eta_1, ... as shares of 1.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    links = _links(scene)
    stages = ", ".join(" ".join(words.lines) for words in _blocks(scene))
    alt = (
        f"Compound machine from hand to load: {stages}; effort {links[0].force or 'not known'},"
        f" load {scene.text('R') or 'not known'}."
    )
    caption = "Between the blocks stand the force and the travel. The dashed travels are to one scale."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while no stage is known."""
    blocks = _blocks(scene)
    if not blocks:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Compound machine")
    links = _links(scene)
    if _row_width(blocks, links) <= scene.width - 2 * EDGE:
        _row(canvas, blocks, links)
    else:
        _column(canvas, blocks, links)
    _travels(canvas, scene, links)
    return canvas


def _blocks(scene: Scene) -> list[Words]:
    """What stands in each block: its name, its advantage, its efficiency."""
    names = _NAMES.get(scene.choices.get("preset", ""), ())
    blocks = []
    for i in range(1, 21):
        if scene.values.get(f"IMA_{i}", 0) > 0:
            name = names[i - 1] if i <= len(names) else f"stage {i}"
            lines = (name, f"× {scene.text(f'IMA_{i}')}", scene.text(f"eta_{i}"))
            blocks.append(Words(tuple(line for line in lines if line)))
    return blocks


def _links(scene: Scene) -> list[_Link]:
    """The links from the hand to the load, one more than there are stages."""
    count = len(_blocks(scene))
    links = []
    for i in range(count + 1):
        force = scene.text(f"F_{i}") or (scene.text("R") if i == count else scene.text("E") if i == 0 else "")
        if i == count and scene.text("R"):
            force = scene.text("R")
        name = "hand" if i == 0 else "load" if i == count else f"after stage {i}"
        links.append(_Link(force, scene.text(f"d_{i}"), scene.values.get(f"d_{i}", 0.0), name, i == 0))
    return links


def _link_words(link: _Link) -> tuple[Words, Words]:
    style = EFFORT if link.by_effort else PLAIN
    return Words((link.force or "force?",), style), Words((link.travel,), PLAIN)


def _link_width(link: _Link) -> float:
    return max(words.width for words in _link_words(link)) + _AIR


def _row_width(blocks: list[Words], links: list[_Link]) -> float:
    return sum(words.width + _AIR for words in blocks) + sum(map(_link_width, links))


def _block(canvas: Canvas, left: float, middle: float, width: float, height: float, words: Words) -> None:
    top, right = middle - height / 2, left + width
    corners = (complex(left, top), complex(right, top), complex(right, top + height), complex(left, top + height))
    canvas.polygon(corners, "visible paper", BODY)
    canvas.write(words, left + width / 2, middle - words.height / 2, "middle")


def _row(canvas: Canvas, blocks: list[Words], links: list[_Link]) -> None:
    """Blocks from left to right; spare room goes to the links."""
    spare = (canvas.width - 2 * EDGE - _row_width(blocks, links)) / len(links)
    spare = min(spare, 60.0)
    x = EDGE + (canvas.width - 2 * EDGE - _row_width(blocks, links) - spare * len(links)) / 2
    height = max(words.height for words in blocks) + 14
    for i, link in enumerate(links):
        width = _link_width(link) + spare
        _arrow(canvas, complex(x, 0), complex(x + width - 2, 0), link.by_effort)
        force, travel = _link_words(link)
        above = canvas.write(force, x + width / 2, -force.height - 6, "middle")
        if link.travel:
            canvas.write(travel, x + width / 2, 6, "middle")
        if i in (0, len(links) - 1):
            canvas.write(Words((link.name,), NOTE), x + width / 2, above.top - 18, "middle")
        x += width
        if i < len(blocks):
            wide = blocks[i].width + _AIR
            _block(canvas, x, 0, wide, height, blocks[i])
            x += wide


def _column(canvas: Canvas, blocks: list[Words], links: list[_Link]) -> None:
    """Blocks from top to bottom, force to the left of each link and travel to the right."""
    blocks = [Words((", ".join(words.lines),)) for words in blocks]
    width = max(words.width for words in blocks) + _AIR
    if width > canvas.width - 2 * EDGE:
        blocks = [wrapped(words, canvas.width - 2 * EDGE - _AIR) for words in blocks]
        width = max(words.width for words in blocks) + _AIR
    x, y = canvas.width / 2, 0.0
    step = _STEP if len(blocks) < 4 else _LOW_STEP
    for i, link in enumerate(links):
        _arrow(canvas, complex(x, y), complex(x, y + step - 2), link.by_effort)
        force, travel = _link_words(link)
        name = f"{link.name} " if i in (0, len(links) - 1) else ""
        room = canvas.width / 2 - EDGE - 10
        force = wrapped(Words((name + force.lines[0],), force.style), room)
        canvas.write(force, x - 10, y + (step - force.height) / 2, "end")
        if link.travel:
            travel = wrapped(travel, room)
            canvas.write(travel, x + 10, y + (step - travel.height) / 2)
        y += step
        if i < len(blocks):
            height = blocks[i].height + 12
            _block(canvas, x - width / 2, y + height / 2, width, height, blocks[i])
            y += height


def _arrow(canvas: Canvas, start: complex, end: complex, by_effort: bool) -> None:
    along = (end - start) / abs(end - start)
    canvas.line(start + along * 2, end - along * _HEAD, "lesser by-effort" if by_effort else "lesser", MOVING)
    canvas.arrowhead(end, along, _HEAD, MOVING)


def _travels(canvas: Canvas, scene: Scene, links: list[_Link]) -> None:
    """Every travel as a level dashed line from one edge, with a mark that goes along it, and the scale."""
    longest = max((link.length for link in links), default=0.0)
    row = canvas.bottom + 22
    if not longest > 0:
        return
    share = min(max(scene.travel, 0.0), 1.0)
    names = [Words((f"{link.name} {link.travel}".strip(),)) for link in links]
    beside = max(words.width for words in names) + 14 if scene.wide else 0.0
    scale = (scene.width - 2 * EDGE - 14 - beside) / longest
    for link, words in zip(links, names, strict=True):
        if not link.length > 0:
            continue
        start, end = complex(EDGE + 6, row), complex(EDGE + 6 + link.length * scale, row)
        if not scene.wide:
            words = wrapped(words, scene.width - 2 * EDGE)
            row = canvas.write(words, EDGE, row - 6).bottom + 7
            start, end = complex(start.real, row), complex(end.real, row)
        else:
            canvas.write(words, end.real + 12, row - words.height / 2)
        path_line(canvas, start, end, link.by_effort)
        at = start + (end - start) * share
        canvas.circle(at, 3.6, "effort" if link.by_effort else "ink", MOVING)
        row += 18
    scale_bars(canvas, 10, row + 4, Scales(scale, scene.length_unit))
