"""Where a tackle stands on the sheet: its parts, its blocks, how far load and hand go."""

from collections.abc import Mapping
from dataclasses import dataclass

from . import forces
from .reeving import Reeving
from .rigging import RING
from .scene import Scene

MOST_PARTS = 12
"""More parts than this no rope has room for on the sheet."""

_PITCH = {1: 60.0, 2: 52.0, 3: 48.0}
_USUAL_PITCH = 44.0
_LEAST_PITCH = 16.0

LIST_ROOM = 176.0
"""Pixels beside the wide drawing for the list of tensions."""

_CRATE = (48.0, 35.0)
_SLING = 12.0


@dataclass(frozen=True)
class Tackle:
    """A tackle on the paper: pixels, the beam at y = 0, everything else below it.

    `lift` is how far the load rises, `done` the share of it that is behind, `scale` pixels per metre
    (0 if the lift is not known), `force_scale` pixels per newton (0 if no force is known).
    """

    rope: Reeving
    lift: float
    done: float
    scale: float
    force_scale: float
    load: float
    effort: float
    anchor: float

    @property
    def radius(self) -> float:
        """Radius of a sheave, to the middle of the rope."""
        return self.rope.pitch / 2

    @property
    def two_rows(self) -> bool:
        """Whether the part numbers need two rows, since they stand too close for one."""
        return self.rope.pitch < 2 * RING + 2

    def number_at(self, part: int, done: float) -> complex:
        """Where the number of a part stands."""
        raised = self.two_rows and part % 2 == 0
        return complex(self.rope.x(part), self.numbers(done) - (2 * RING + 1 if raised else 0))

    @property
    def standing(self) -> float:
        """Height of the standing block's pins."""
        return max(38.0, self.radius + 18)

    def moving(self, done: float) -> float:
        """Height of the moving block's pins at a share of the lift."""
        room = 2 * self.radius + (4 if self.two_rows else 2) * RING + 24
        return self.standing + room + self.lift * (1 - done)

    def numbers(self, done: float) -> float:
        """Height of the (lower) row of part numbers."""
        return self.moving(done) - (self.radius if self.rope.sheaves(False) else 6) - RING - 8

    def hook(self, done: float) -> float:
        """Height where the sling lies in the hook."""
        return self.moving(done) + (self.radius if self.rope.sheaves(False) else 6) + 18

    def crate(self, done: float) -> float:
        """Height of the middle of the crate."""
        return self.hook(done) + _SLING + _CRATE[1] / 2

    @property
    def crate_size(self) -> tuple[float, float]:
        """Width and height of the crate; a narrow tackle has a narrow one."""
        width = min(_CRATE[0], 2 * (self.rope.hauling - self.rope.middle) - 26) if self.down else _CRATE[0]
        return max(width, 24.0), _CRATE[1]

    @property
    def down(self) -> bool:
        """Whether the hand pulls down."""
        return not self.rope.to_advantage

    def hand(self, done: float) -> float:
        """Height of the hand: it goes the lift once for every part."""
        way = self.rope.parts * self.lift * done
        if self.down:
            return self.standing + self.radius + 20 + way
        return self.number_at(self.rope.parts, 0).imag - RING - 26 - way


def parts_of(values: Mapping[str, float]) -> int | None:
    """The number of parts if it can be drawn, else None."""
    parts = values.get("n", 0.0)
    return int(parts) if parts in range(1, MOST_PARTS + 1) else None


def lay_out(scene: Scene, parts: int, to_advantage: bool, list_room: float = 0.0) -> Tackle:
    """Choose pitch, length scale and force scale; ``list_room`` is kept free on the right of a wide drawing."""
    room = (96.0, scene.width - 110.0 - list_room) if scene.wide else (66.0, scene.width - 106.0)
    return lay_out_within(scene, parts, to_advantage, room)


def lay_out_within(scene: Scene, parts: int, to_advantage: bool, room: tuple[float, float]) -> Tackle:
    """Choose the pitch of the parts within the room from left to right, the length scale and the force scale."""
    values, wide, (begin, end) = scene.values, scene.wide, room
    columns = parts if to_advantage else parts + 1
    pitch = max(min(_PITCH.get(parts, _USUAL_PITCH), (end - begin) / columns), _LEAST_PITCH)
    begin = max(min(begin, end - columns * pitch), 8.0)
    left = begin + (end - begin - columns * pitch) / 2 + pitch / 2
    lift = min(80.0 if wide else 60.0, (240.0 if wide else 200.0 if parts <= 8 else 160.0) / parts)
    forces_known = {symbol: max(values.get(symbol, 0.0), 0.0) for symbol in ("R", "E", "A")}
    most = max(forces_known.values())
    longest = 72.0 if wide else 58.0
    height = values.get("dR", 0.0)
    return Tackle(
        rope=Reeving(parts, to_advantage, pitch, left),
        lift=lift,
        done=min(max(scene.travel, 0.0), 1.0),
        scale=lift / height if height > 0 else 0.0,
        force_scale=longest / most if most else 0.0,
        load=forces_known["R"],
        effort=forces_known["E"],
        anchor=forces_known["A"],
    )


def effort_arrow(tackle: Tackle, done: float) -> forces.Arrow:
    """The effort's arrow at a share of the lift."""
    way = 1j if tackle.down else -1j
    at = complex(tackle.rope.hauling, tackle.hand(done)) + way * 4
    return forces.arrow(at, way, tackle.effort * tackle.force_scale)


def load_arrow(tackle: Tackle, done: float) -> forces.Arrow:
    """The load's arrow at a share of the lift."""
    return forces.arrow(complex(tackle.rope.middle, tackle.crate(done)), 1j, tackle.load * tackle.force_scale)
