"""Where a ramp stands on the sheet: its triangle, its scale, the room for what is written round it."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import atan2, cos, hypot, pi, sin, sqrt

from . import forces
from .canvas import Words
from .crate_forces import CrateForces, view_room
from .dimensions import upright_room
from .plane import between, left_of, towards
from .scene import Scene

_LEAST_ROOM = 80.0
"""Pixels that a ramp needs across; the view of the forces goes below where they are not left."""


@dataclass(frozen=True)
class Triangle:
    """Slope length, rise and run in one unit, and the angle in radians."""

    slope: float
    rise: float
    run: float
    angle: float


def triangle(values: Mapping[str, float]) -> Triangle | None:
    """The ramp's triangle from any two of L, h, b (metres) and theta (radians); None if not fixed."""
    slope, rise, run, angle = (values.get(symbol, 0.0) for symbol in ("L", "h", "b", "theta"))
    if rise > 0 and slope > rise:
        run = sqrt(slope * slope - rise * rise)
    elif slope > 0 and slope > run > 0:
        rise = sqrt(slope * slope - run * run)
    elif rise > 0 and run > 0:
        slope = hypot(rise, run)
    elif 0 < angle < pi / 2 and (slope > 0 or rise > 0 or run > 0):
        slope = slope or (rise / sin(angle) if rise > 0 else run / cos(angle))
        rise, run = slope * sin(angle), slope * cos(angle)
    else:
        return None
    return Triangle(slope, rise, run, atan2(rise, run))


@dataclass(frozen=True)
class Ramp:
    """The ramp on the paper: pixels, angles in radians, the foot of the plank at `foot`.

    `view_width` is the room for the view of the forces beside the ramp, 0 if it stands below. `beyond` is the room
    that something needs between the landing and the dimension of the rise.
    """

    foot: complex
    scale: float
    slope: float
    rise: float
    run: float
    angle: float
    wall: float
    crate: float
    offset: float
    force_scale: float
    view_width: float
    pull: float
    behind: bool
    beyond: float = 0.0

    @property
    def along(self) -> complex:
        """The direction up the plank."""
        return towards(self.angle)

    @property
    def top(self) -> complex:
        """The upper edge of the plank."""
        return self.foot + self.along * self.slope

    @property
    def crate_height(self) -> float:
        """Height of the crate."""
        return self.crate * 0.72

    def stand(self, travel: float) -> complex:
        """Where the middle of the crate's bottom is at a share of the way up."""
        half = self.crate / 2 * self.along
        return between(self.foot + half, self.top - half, travel)

    def effort(self, travel: float, force: float) -> forces.Arrow:
        """The effort's arrow at a share of the way up."""
        side = -0.5 if self.behind else 0.5
        grip = self.stand(travel) + self.along * self.crate * side + left_of(self.along) * self.crate_height / 2
        arrow = forces.arrow(grip, towards(self.pull), force * self.force_scale)
        return arrow.ending_at(grip) if cos(self.pull - self.angle) * side < 0 else arrow


def pull_angle(scene: Scene, angle: float) -> float:
    """The direction of the effort, from the level."""
    if scene.choices.get("motion") == "push":
        return angle + pi
    pull = scene.choices.get("pull", "along")
    if pull == "level":
        return 0.0
    return angle + (scene.values.get("delta", 0.0) if pull == "angled" else 0.0)


def lay_out(scene: Scene, shape_of: Triangle, view: CrateForces | None, beyond: float = 0.0) -> Ramp:
    """Choose the scale and the place of the foot; `beyond` is the room kept free to the right of the landing."""
    wide, angle = scene.wide, shape_of.angle
    known = [scene.values[s] for s in ("R", "E") if scene.values.get(s, 0) > 0]
    if view:
        known += [scene.values[s] for s in ("N", "F_f") if scene.values.get(s, 0) > 0]
    longest = 74.0 if wide else 60.0
    force_scale = longest / max(known) if known else 0.0
    pull = pull_angle(scene, angle)
    behind = scene.choices.get("motion") != "push" and pull < angle - 1e-9
    effort = max(forces.arrow(0, 1, max(scene.values.get("E", 0.0), 0.0) * force_scale).length, 1.0)

    crate = 54.0 if wide else 44.0
    across = abs(sin(pull - angle)) * effort
    offset = max(crate * 0.72 + 24, crate * 0.36 + across + 20)
    wall = 30.0 if wide else 16.0
    reach = crate * 0.36 * sin(angle) + effort * abs(cos(pull)) + 8
    if not behind:
        reach = reach - crate * cos(angle) if cos(pull) < 0 else 0.0
    left = max(12 + offset * sin(angle), 8 + reach, 18)
    rise = rise_words(scene)
    right = wall + beyond + 4 + max(sum(upright_room(rise, span)) for span in (1.0, 200.0))
    right = max(right, 0 if behind else effort * max(cos(pull), 0) + 8)
    room = max(scene.width - left - right, _LEAST_ROOM)
    view_width = sum(view_room(view, force_scale)) if view and wide else 0.0
    if view_width > room - _LEAST_ROOM:
        view_width = 0.0
    room -= view_width
    scale = min(room / shape_of.run, (180.0 if wide else 190.0) / shape_of.rise)
    slope = shape_of.slope * scale
    crate = max(20.0, min(crate, slope * 0.4))
    return Ramp(
        foot=complex(left, 0),
        scale=scale,
        slope=slope,
        rise=shape_of.rise * scale,
        run=shape_of.run * scale,
        angle=angle,
        wall=wall,
        crate=crate,
        offset=offset,
        force_scale=force_scale,
        view_width=view_width,
        pull=pull,
        behind=behind,
        beyond=beyond,
    )


def rise_words(scene: Scene) -> Words:
    """The label of the rise."""
    return Words(("rise", scene.text("h"))) if scene.text("h") else Words(("rise",))
