"""The tail of what was measured."""

import math
from collections.abc import Sequence


def percentile(values: Sequence[float], share: float) -> float:
    """The value that `share` percent of the values do not exceed, read off a straight line between neighbours.

    Raises ValueError when there are no values, or when share is not from 0 to 100.
    """
    if not values or not 0 <= share <= 100:
        raise ValueError("A percentile needs at least one value, and a share from 0 to 100.")
    ordered = sorted(values)
    place = (len(ordered) - 1) * share / 100
    low = math.floor(place)
    high = min(low + 1, len(ordered) - 1)
    return ordered[low] + (ordered[high] - ordered[low]) * (place - low)
