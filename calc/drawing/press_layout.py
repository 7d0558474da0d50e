"""Where a screw stand is set on the sheet: its two views, their scales, how far the handle has turned."""

from dataclasses import dataclass
from math import floor, pi

from . import forces
from .plane import towards
from .scene import Scene

_ENLARGEMENTS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 200, 500, 1000, 2000, 5000)

_RISE = 64.0
"""Pixels that the nut rises at most."""

_MOST_TURNS = 12

_PUSH = 42.0
"""Pixels of the push round the thread at most."""

COLLAR, HUB, GAP, NUT, PLATE, CRATE = 13.0, 16.0, 8.0, 46.0, 8.0, 30.0
"""Heights of the parts in the side view. They are signs; diameters and lead are to scale."""


@dataclass(frozen=True)
class Stand:
    """A screw stand on the paper, in pixels; angles in radians.

    `plan` is the scale of the view from above in pixels a metre, `times` how many times larger the view from
    the side is. `centre` is the middle of the handle's circle, `foot` the point on the ground under the axis.
    """

    centre: complex
    reach: float
    foot: complex
    plan: float
    times: int
    handle: float
    outside: float
    mean: float
    lead: float
    pitch: float
    collar: float
    turns: float
    travel: float
    force_scale: float
    most_force: float

    @property
    def angle(self) -> float:
        """Where the hand is on its circle: turning clockwise, seen from above, raises the nut."""
        return pi / 6 - 2 * pi * self.turns * self.travel

    @property
    def hand(self) -> complex:
        """The hand in the view from above."""
        return self.centre + towards(self.angle) * self.handle

    @property
    def rise(self) -> float:
        """How far the nut has risen in the view from the side."""
        return self.lead * self.turns * self.travel

    @property
    def top(self) -> float:
        """The upper edge of the crate when the nut has risen all the way."""
        return self.foot.imag - COLLAR - HUB - GAP - self.lead * self.turns - NUT - PLATE - CRATE

    @property
    def nut(self) -> float:
        """Half the width of the nut."""
        return self.outside / 2 + 13


def longest(scene: Scene) -> float:
    """Pixels of the longest arrow."""
    return 84.0 if scene.wide else 60.0


def _round_turns(scene: Scene, lead: float) -> float:
    """How many turns the slider shows: all of them if they fit, else as many whole ones as do."""
    wanted = scene.values.get("turns", 0.0)
    fit = max(1.0, min(_MOST_TURNS, floor(_RISE / lead)))
    return wanted if 0 < wanted <= fit else fit


def lay_out(scene: Scene) -> Stand | None:
    """Choose scales and places; None while the screw's size or lead is unknown."""
    values = scene.values
    lead, mean = values.get("l", 0.0), values.get("d_m", 0.0)
    if lead <= 0 or mean <= 0:
        return None
    pitch = values["p"] if values.get("p", 0) > 0 else lead
    outside = max(values.get("d", 0.0), mean) if values.get("d", 0.0) < 2 * mean else mean + pitch / 2
    handle = values.get("r", 0.0) if values.get("r", 0.0) > 0 else 2 * outside
    circle = 66.0 if scene.wide else 52.0
    plan = min(circle / handle, 46.0 / (outside / 2), 400 * circle / lead)
    body = 46.0 if scene.wide else 32.0
    wanted = min(body / outside, _RISE / lead)
    times = max((n for n in _ENLARGEMENTS if n * plan <= wanted), default=1)
    side = plan * times
    known = [values[s] for s in ("R", "E", "Q") if values.get(s, 0) > 0]
    force_scale = longest(scene) / max(known) if known else 0.0
    # The push stands twice in the view of one thread, side by side.
    if values.get("Q", 0) > 0:
        force_scale = min(force_scale, _PUSH / values["Q"])
    arrow = forces.arrow(0, 1, max(values.get("E", 0.0), 0.0) * force_scale).length
    reach = plan * handle + 8
    reach = abs(complex(reach, arrow)) + 4
    collar = values.get("d_c", 0.0) if scene.choices.get("collar") != "none" else 0.0
    # The collar's inner edge is taken at the screw's outside: its outer edge follows from the mean.
    collar = min(max(2 * collar - outside, 1.1 * outside), 4 * outside) if collar > 0 else 0.0
    lead_px = min(lead * side, _RISE)
    wide = scene.wide
    return Stand(
        centre=complex(10 + max(reach, 78.0 if wide else 60.0), -reach - 26),
        reach=reach,
        foot=complex(316.0 if wide else 258.0, 0),
        plan=plan,
        times=times,
        handle=plan * handle,
        outside=max(outside * side, 3.0),
        mean=mean * side,
        lead=lead_px,
        pitch=pitch * side,
        collar=collar * side,
        turns=_round_turns(scene, lead_px),
        travel=min(max(scene.travel, 0.0), 1.0),
        force_scale=force_scale,
        most_force=max(known, default=0.0),
    )
