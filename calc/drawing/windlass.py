"""The windlass: its end view with the rope as thick as it is, and beside it the side view or the journal enlarged.

Both views share one scale. The paths of the whole lift are much longer than the machine: they have their own.
"""

from __future__ import annotations

from . import drum_side, forces, journal_detail
from .canvas import EDGE, Canvas, Words
from .labels import settle, wrapped
from .letters import NOTE
from .scales import Path, Scales, scale_bars
from .scene import Drawing, Scene
from .travels import bars
from .windlass_end import end_view, lay_out, reserve_travel


def draw(scene: Scene) -> Drawing | None:
    """Draw a windlass; None while its crank or its effective radius is unknown.

    Values: R, E in newtons, r_c, r, D, t, h, b, dE, dR in metres, turns and m as plain numbers.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene, _state(scene))
    return Drawing(canvas.svg(alt), f"Drawn to scale, {_PATHS}.", alt)


def draw_journal(scene: Scene) -> Drawing | None:
    """Draw a windlass with its journal enlarged; None while its crank or its effective radius is unknown.

    Values: as for ``draw``, and r_j, r_f in metres, N in newtons.
    """
    scene = scene.drawable()
    canvas = compose_journal(scene)
    if canvas is None:
        return None
    alt = _alt(scene, f"bearing load {scene.text('N') or 'not known'}, crank level")
    return Drawing(canvas.svg(alt), f"Drawn to scale, the journal enlarged, {_PATHS}.", alt)


_PATHS = "the paths to a scale of their own"


def compose(scene: Scene) -> Canvas | None:
    """The windlass with its side view, before it is written out; None while its shape is unknown."""
    return _compose(scene, level=False)


def compose_journal(scene: Scene) -> Canvas | None:
    """The windlass with its journal enlarged, before it is written out; None while its shape is unknown."""
    return _compose(scene, level=True)


def _compose(scene: Scene, *, level: bool) -> Canvas | None:
    values = scene.values
    if not all(values.get(symbol, 0) > 0 for symbol in ("r_c", "r")):
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Windlass")
    known = {s: values[s] for s in ("R", "E") if values.get(s, 0) > 0}
    most = max(known.values(), default=0.0)
    longest = forces.LONGEST_WIDE if scene.wide else forces.LONGEST_NARROW
    force_scale = longest / most if most else 0.0
    machine = lay_out(scene, force_scale, level=level)
    canvas.frame = (EDGE, machine.right) if scene.wide else canvas.frame
    settle(canvas, end_view(canvas, scene, machine, force_scale))
    canvas.frame = (EDGE, scene.width - EDGE)
    reserve_travel(canvas, scene, machine, force_scale)
    left, top = (machine.right + 14, machine.top) if scene.wide else (10.0, canvas.bottom + 18)
    if level:
        top = journal_detail.view(canvas, scene, complex(left, top), machine.scale)
    else:
        top = drum_side.view(canvas, scene, machine, complex(left, top))
    top = _paths(canvas, scene, left, top + 16)
    scales = Scales(machine.scale, scene.length_unit, force_scale, scene.force_unit, most)
    scale_bars(canvas, 10, max(canvas.bottom, top) + 16, scales)
    return canvas


def _paths(canvas: Canvas, scene: Scene, left: float, top: float) -> float:
    """Both paths as bars to a scale of their own, which is drawn under them; returns the y below."""
    known = {s: scene.values[s] for s in ("dE", "dR") if scene.values.get(s, 0) > 0}
    if not known:
        return top
    room = canvas.width - EDGE - left
    scale = (room - 8) / max(known.values())
    turn = " in one turn" if scene.choices.get("wind") == "width" or "r_j" in scene.values else ""
    names = {"dE": f"effort path{turn}", "dR": f"load path{turn}"}
    paths = [
        Path(Words((f"{names[symbol]} {scene.text(symbol)}".strip(),)), size * scale, symbol == "dE")
        for symbol, size in known.items()
    ]
    row = bars(canvas, left, top, paths, min(max(scene.travel, 0.0), 1.0))
    scale_bars(canvas, left, row + 6, Scales(scale, scene.length_unit))
    note = wrapped(Words(("for the paths",), NOTE), room)
    canvas.write(note, canvas.boxes[-1].right + 10, row + 4)
    return canvas.bottom


def _state(scene: Scene) -> str:
    done = min(max(scene.travel, 0.0), 1.0)
    return f"{done * 100:.0f} % of {scene.text('turns') or 'the turns'} made"


def _alt(scene: Scene, state: str) -> str:
    """One sentence from the strings of the labels."""
    load = f" for a load of {scene.text('R')}" if scene.text("R") else ""
    return (
        f"Windlass with a crank of {scene.text('r_c')} and an effective radius of {scene.text('r')}:"
        f" effort {scene.text('E') or 'not known'}{load}; {state}."
    )
