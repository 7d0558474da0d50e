"""The lever: a bar to scale on its pivot, both arms dimensioned from the pivot.

The pin lies on the axis of the bar, and both forces stay plumb, so every distance drawn is true.
"""

from math import cos, pi, sin

from . import dimensions, forces, parts
from .canvas import BACKGROUND, BODY, MOVING, Canvas, Words, shape
from .labels import Label, settle
from .letters import EFFORT
from .lever_detail import SMALL_ARM, beside, over
from .lever_layout import Lever, lay_out
from .plane import between, left_of, rectangle, towards
from .scales import Path, Scales, path_line, path_rows, scale_bars
from .scene import Drawing, Scene

_ORDER = {
    "1": "between load and effort",
    "2": "at the end, load between",
    "3": "at the end, effort between",
}


def draw(scene: Scene) -> Drawing | None:
    """Draw a lever; None while an arm is unknown.

    Values: R, E, N in newtons, aR, aE, dR, dE in metres, psi (half the swing) in radians.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    return Drawing(canvas.svg(alt), _caption(scene), alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while an arm is unknown."""
    values = scene.values
    if not all(values.get(symbol, 0) > 0 for symbol in ("aR", "aE")):
        return None
    kind = scene.choices.get("class", "1")
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, f"Lever, class {kind}")
    paths = [
        (symbol == "dE", values[symbol], Words((words, scene.text(symbol))))
        for symbol, words in (("dE", "effort path"), ("dR", "load path"))
        if values.get(symbol, 0) > 0
    ]
    lever = lay_out(scene, kind, sum(words.width + 24 for _, _, words in paths))
    small = min(lever.load_arm, lever.effort_arm) < SMALL_ARM

    _swing(canvas, lever)
    _bar(canvas, lever)
    force_labels, force_scale, most_force = _forces(canvas, scene, lever)
    _reserve_swing(canvas, scene, lever, force_scale)
    if scene.wide and paths:
        _path_column(canvas, lever, [(mine, d * lever.scale, words) for mine, d, words in paths])
    below = canvas.bottom
    for arm in (lever.load_side * lever.load_arm, lever.effort_arm, 0.0):
        start = lever.pin + arm
        canvas.avoid((start + 20j, complex(start.real, below + 40)), 0.6)
    labels = [_pivot_label(scene, lever), *force_labels]
    marker = None
    if small:
        arm = lever.effort_arm if lever.effort_arm < lever.load_arm else lever.load_side * lever.load_arm
        marker = lever.pin + arm / 2
        canvas.circle(marker, abs(arm) / 2 + 9, "thin", MOVING)
        if scene.wide:
            beside(canvas, scene, lever.scale, kind)
        labels.insert(0, Label(marker, Words(("A",)), "SW W NW SE", (18.0, 24.0, 32.0)))
    settle(canvas, labels)

    row = _arms(canvas, scene, lever, small)
    if small and not scene.wide:
        over(canvas, scene, lever.scale, kind)
    if paths and not scene.wide:
        row = path_rows(
            canvas,
            10,
            row - 6,
            [Path(words.on_one_line(), d * lever.scale, mine) for mine, d, words in paths],
        )
    scales = Scales(lever.scale, scene.length_unit, force_scale, scene.force_unit, most_force)
    scale_bars(canvas, 10, row + 4, scales)
    return canvas


def _swing(canvas: Canvas, lever: Lever) -> None:
    """The ends of travel in phantom lines, the paths of both forces as dashed arcs."""
    left, right = lever.ends
    for angle in (-lever.swing, lever.swing):
        canvas.line(lever.point(left, angle), lever.point(right, angle), "phantom", BACKGROUND)
    canvas.line(lever.pin + left - 6, lever.pin + right + 6, "centre", BACKGROUND)
    turn = pi if lever.load_side < 0 else 0.0
    for arm, middle, kind in (
        (lever.load_arm, turn, "path"),
        (lever.effort_arm, 0.0, "path by-effort"),
    ):
        canvas.arc(lever.pin, arm, middle - lever.swing, middle + lever.swing, kind, BACKGROUND)


def _bar(canvas: Canvas, lever: Lever) -> None:
    parts.pivot(canvas, lever.pin, 34 if canvas.width > 500 else 30)
    left, right = lever.ends
    along = towards(lever.tilt)
    middle = lever.point((left + right) / 2)
    half = lever.thickness / 2
    canvas.polygon(rectangle(middle, along, right - left, -half, half), "visible paper")
    for share in (-0.3, 0.25):
        shift = left_of(along) * lever.thickness * share
        start, end = lever.point(left + 8) + shift, lever.point(right - 8) + shift
        canvas.put(BODY, shape((start, end), "grain", closed=False))
    parts.pin(canvas, lever.pin)


def _forces(canvas: Canvas, scene: Scene, lever: Lever) -> tuple[list[Label], float, float]:
    """Crate and arrows; returns their labels, the force scale and the greatest force."""
    values = scene.values
    known = {s: values[s] for s in ("R", "E") if values.get(s, 0) > 0}
    most = max(known.values(), default=0.0)
    longest = forces.LONGEST_WIDE if scene.wide else forces.LONGEST_NARROW
    scale = longest / most if most else 0.0
    labels: list[Label] = []

    at = lever.point(lever.load_side * lever.load_arm)
    edge = at + lever.top
    foot = edge - 1j * lever.foot
    height = lever.crate * 0.74
    wedge = lever.foot * 0.55 + 3
    canvas.polygon((edge, foot - wedge, foot + wedge), "lesser paper", MOVING)
    parts.crate(canvas, foot, 1, lever.crate, height, MOVING)
    weight = foot - 0.5j * height
    if "R" in known:
        load = forces.arrow(weight, 1j, known["R"] * scale)
        forces.load(canvas, load)
        parts.centre_of_gravity(canvas, weight)
        words = load.note(Words((f"load {scene.text('R')}".strip(),)))
        labels.append(Label(foot - 1j * height, words, "N NNE NNW NE NW", (4.0, 9.0, 16.0, 26.0)))
    if "E" in known:
        upper = lever.point(lever.effort_arm) + lever.top
        down = lever.kind == "1"
        effort = forces.arrow(upper, 1j if down else -1j, known["E"] * scale)
        if down:
            effort = effort.ending_at(upper)
        forces.effort(canvas, effort)
        lines = ("effort", scene.text("E")) if not scene.wide else (f"effort {scene.text('E')}".strip(),)
        words = effort.note(Words(lines, EFFORT))
        end = effort.tail if down else effort.tip
        labels.append(
            Label(
                end, words, "W N NW NE NNE NNW E" if down else "N W NW NE NNE NNW E", (4.0, 9.0, 15.0, 23.0, 35.0, 52.0)
            )
        )
    return labels, scale, most


def _reserve_swing(canvas: Canvas, scene: Scene, lever: Lever, force_scale: float) -> None:
    """Keep the height the same wherever the bar stands in its swing."""
    rise = sin(lever.swing)
    face = lever.thickness / 2 / cos(lever.swing)
    weight = face + lever.foot + lever.crate * 0.37
    hanging = scene.values.get("R", 0) * force_scale
    pushing = scene.values.get("E", 0) * force_scale
    x = lever.pin.real
    canvas.reserve(
        complex(x, -rise * lever.load_arm - weight - lever.crate * 0.37 - 24),
        complex(x, rise * lever.load_arm + hanging - weight),
        complex(x, -rise * lever.effort_arm - face - pushing),
    )


def _pivot_label(scene: Scene, lever: Lever) -> Label:
    words = Words(("pivot", scene.text("N")) if scene.text("N") else ("pivot",))
    if scene.wide and lever.kind == "1":
        words = words.on_one_line()
    sides = "E SE ESE SW W S" if lever.kind == "1" else "W WSW S SW SE E"
    return Label(lever.pin + 22j, words, sides, (24.0, 32.0, 42.0, 54.0, 70.0))


def _path_column(canvas: Canvas, lever: Lever, paths: list[tuple[bool, float, Words]]) -> None:
    """Both paths upright beside the end of the bar, on one base, the projected one first."""
    longest = max(lever.effort_arm, lever.load_arm) if lever.kind != "1" else lever.effort_arm
    outer_is_effort = longest == lever.effort_arm
    paths = sorted(paths, key=lambda path: path[0] != outer_is_effort)
    base = longest * sin(lever.swing)
    start = lever.pin.real + longest * cos(lever.swing)
    widths = sum(words.width + 24 for _, _, words in paths)
    x = min(
        lever.pin.real + lever.ends[1] + (lever.crate / 2 if lever.kind == "3" else 0) + 22,
        canvas.width - widths - 2,
    )
    if paths[0][0] == outer_is_effort and abs(paths[0][1] - 2 * base) < 3:
        for y in (base, -base):
            canvas.extension(complex(start + 5, y), complex(x + 5, y))
    for by_effort, length, words in paths:
        path_line(canvas, complex(x, base), complex(x, base - length), by_effort)
        y = base - max(length / 2, words.height / 2)
        canvas.write(words, x + 8, y - words.height / 2)
        x += words.width + 24


def _arms(canvas: Canvas, scene: Scene, lever: Lever, small: bool) -> float:
    """Both arms from the pivot, in one row if they fit, else in two; returns the next row."""
    load = lever.load_side * lever.load_arm
    arms = [
        (abs(load), lever.pin.real + load, Words(("load arm", scene.text("aR")))),
        (
            lever.effort_arm,
            lever.pin.real + lever.effort_arm,
            Words(("effort arm", scene.text("aE"))),
        ),
    ]
    arms.sort(key=lambda arm: arm[0])
    if small:
        arms = arms[1:]
    row = canvas.bottom + 22
    pin, low = lever.pin.real, lever.pin.imag + lever.thickness / 2 + dimensions.GAP
    one_row = lever.kind == "1" and all(words.width + 40 <= arm for arm, _, words in arms)
    dimensions.drop(canvas, pin, 52, row)
    for index, (_, x, words) in enumerate(arms):
        uprights = [other for _, other, _ in arms[index + 1 :]]
        dimensions.drop(canvas, x, low, row)
        if index:
            dimensions.drop(canvas, pin, row - dimensions.ROW, row)
        following = dimensions.level(canvas, min(pin, x), max(pin, x), row, words, uprights)
        if not one_row or index == len(arms) - 1:
            row = following
    return row


def _caption(scene: Scene) -> str:
    words = "Drawn to scale. Thin chain lines show the bar at the ends of its swing."
    if scene.values.get("R", 0) > 0 and scene.values.get("E", 0) > 0:
        words += " Both arrows are to one force scale."
    return words


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    kind = scene.choices.get("class", "1")
    sentence = (
        f"Lever of class {kind}, pivot {_ORDER.get(kind, _ORDER['1'])}:"
        f" load {scene.text('R')} at a load arm of {scene.text('aR')},"
        f" effort {scene.text('E') or 'not known'} at an effort arm of {scene.text('aE')};"
    )
    travel = between(0, 100, min(max(scene.travel, 0.0), 1.0)).real
    state = "bar level" if round(travel) == 50 else f"load {travel:.0f} % of the way up"
    return f"{sentence} {state}.".replace("load  at", "load at")
