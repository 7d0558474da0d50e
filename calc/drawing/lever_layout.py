"""Where a lever stands on the sheet: its scale, its pin, its tilt."""

from dataclasses import dataclass
from math import cos, pi, sin, tan

from .lever_detail import DETAIL_ROOM, SMALL_ARM
from .plane import towards
from .scene import Scene

_SWING = pi / 12
"""Half the swing where the scene says nothing: 15 degrees."""

_HALF_HEIGHT = 88.0
"""Greatest rise in pixels of an end of the bar above the level."""


@dataclass(frozen=True)
class Lever:
    """The lever on the paper: pixels, angles in radians."""

    kind: str
    pin: complex
    scale: float
    load_arm: float
    effort_arm: float
    swing: float
    tilt: float
    thickness: float
    crate: float

    @property
    def load_side(self) -> int:
        """-1 if the load is to the left of the pivot."""
        return -1 if self.kind == "1" else 1

    def point(self, arm: float, angle: float | None = None) -> complex:
        """A point of the bar's axis, an arm to the right of the pin (to the left if negative)."""
        return self.pin + towards(self.tilt if angle is None else angle) * arm

    @property
    def ends(self) -> tuple[float, float]:
        """How far the bar reaches to the left and right of the pin."""
        longest = max(self.load_arm, self.effort_arm)
        if self.kind == "1":
            return -self.load_arm - 18, self.effort_arm + 14
        return -20.0, longest + 14

    @property
    def foot(self) -> float:
        """Height of the edge that the crate stands on, enough for the bar to swing under it."""
        return self.crate / 2 * tan(min(self.swing, 0.6)) + 3

    @property
    def top(self) -> complex:
        """Straight up from the axis to the upper face of the tilted bar."""
        return -1j * self.thickness / 2 / cos(self.tilt)


def lay_out(scene: Scene, kind: str, path_room: float) -> Lever:
    """Choose the scale and the place of the pin."""
    wide, values = scene.wide, scene.values
    load_arm, effort_arm = values["aR"], values["aE"]
    longest, shortest = max(load_arm, effort_arm), min(load_arm, effort_arm)
    swing = min(max(values.get("psi", _SWING), 0.01), 1.4)
    crate = 64.0 if wide else 48.0
    left, right = (crate / 2 + 8, 16.0 if wide else 26.0) if kind == "1" else (54.0, 24.0)
    if kind == "3":
        right = crate / 2 + 8
    if wide:
        right += path_room + 26
    span = load_arm + effort_arm if kind == "1" else longest
    highest = _HALF_HEIGHT / (longest * sin(swing))
    scale = min(max(scene.width - left - right, 60.0) / span, highest)
    if wide and shortest * scale < SMALL_ARM:
        left = max(left, DETAIL_ROOM)
        scale = min(max(scene.width - left - right, 60.0) / span, highest)
    gap = abs(load_arm - effort_arm) if kind != "1" else load_arm + effort_arm
    crate = max(26.0, min(crate, 1.5 * gap * scale - 12))
    side = -1 if kind == "1" else 1
    x = left + load_arm * scale if kind == "1" else left
    return Lever(
        kind=kind,
        pin=complex(x, 0),
        scale=scale,
        load_arm=load_arm * scale,
        effort_arm=effort_arm * scale,
        swing=swing,
        tilt=side * (2 * min(max(scene.travel, 0.0), 1.0) - 1) * swing,
        thickness=12.0 if wide else 10.0,
        crate=crate,
    )
