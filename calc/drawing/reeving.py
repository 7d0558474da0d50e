"""How a tackle's rope runs: from its dead end over each sheave in turn to the hand.

The sheaves of a block lie side by side, each as wide as two parts are apart, so that every part hangs plumb.
Part 1 begins at the dead end; the last part always rises from the moving block. Rove to disadvantage the rope then
goes once more over the standing block and down to the hand; rove to advantage it goes straight on up.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from .rigging import Turn


@dataclass(frozen=True)
class Reeving:
    """A tackle on the paper: parts at the moving block, pixels between them, the x of part 1."""

    parts: int
    to_advantage: bool
    pitch: float
    left: float

    def x(self, part: int) -> float:
        """Where a part hangs; the part after the last is the hauling part rove to disadvantage."""
        return self.left + (part - 1) * self.pitch

    def rises(self, part: int) -> bool:
        """Whether the rope, followed from its dead end, goes up in this part."""
        return (self.parts - part) % 2 == 0

    @property
    def hauling(self) -> float:
        """Where the hauling part hangs."""
        return self.x(self.parts if self.to_advantage else self.parts + 1)

    @property
    def middle(self) -> float:
        """Half way between the first and the last part, where the load hangs."""
        return self.left + (self.parts - 1) * self.pitch / 2

    @property
    def fixed_above(self) -> bool:
        """Whether the dead end is at the standing block."""
        return self.rises(1) is False

    def sheaves(self, above: bool) -> list[float]:
        """Where the sheaves of the standing or the moving block have their pins."""
        last = self.parts - 1 if self.to_advantage else self.parts
        return [self.x(part) + self.pitch / 2 for part in range(1, last + 1) if self.rises(part) is above]

    def spread(self, above: bool) -> tuple[float, float] | None:
        """The left and right end of a block: its sheaves, and the dead end where that is fixed to it."""
        half = self.pitch / 2
        reach = [x + side for x in self.sheaves(above) for side in (-half, half)]
        if self.fixed_above is above:
            reach += [self.x(1) - 5, self.x(1) + 5]
        return (min(reach), max(reach)) if reach else None

    def runs(self, above: float, below: float, hand: float) -> Iterator[complex | Turn]:
        """The rope's runs after its dead end, for the heights of both blocks and of the hand."""
        for part in range(1, self.parts + 1):
            x, up = self.x(part), self.rises(part)
            if part == self.parts and self.to_advantage:
                break
            y = above if up else below
            yield complex(x, y)
            yield Turn(complex(x + self.pitch, y), complex(x + self.pitch / 2, y), clockwise=up)
        yield complex(self.hauling, hand)
