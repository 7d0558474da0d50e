"""The parts that machines are drawn with. They are signs: sized to be seen, not to scale."""

from math import pi

from .canvas import BACKGROUND, BODY, OVERLAY, Canvas, number, place
from .plane import rectangle


def ground(canvas: Canvas, left: float, right: float, y: float, layer: int = BODY) -> None:
    """A line to stand on, with a slanting tick every 9 px or so below it."""
    canvas.line(complex(left, y), complex(right, y), "lesser", layer)
    count = max(1, int((right - left) / 9))
    step = (right - left) / count
    ticks = "".join([f"M{number(left + step * (i + 0.75))} {number(y)}l-6 7" for i in range(count)])
    canvas.put(layer, f'<path class="hatch" d="{ticks}"/>')
    canvas.reserve(complex(left - 2, y + 7))
    canvas.avoid((complex(left, y + 4), complex(right, y + 4)), 3)


def pivot(canvas: Canvas, pin: complex, height: float) -> None:
    """A bearing under a pin: a triangle on its own piece of ground."""
    half = height * 0.55
    base = pin.imag + height
    canvas.polygon(
        (pin, complex(pin.real - half, base), complex(pin.real + half, base)),
        "visible paper",
        BACKGROUND,
    )
    ground(canvas, pin.real - half * 1.8, pin.real + half * 1.8, base, BACKGROUND)


def pin(canvas: Canvas, centre: complex, radius: float = 4.5) -> None:
    """The pin that a bar turns on."""
    canvas.circle(centre, radius, "lesser paper", OVERLAY)
    canvas.put(
        OVERLAY,
        f'<circle class="ink" cx="{number(centre.real)}" cy="{number(centre.imag)}" r="1.4"/>',
    )


def centre_of_gravity(canvas: Canvas, at: complex, radius: float = 4.5) -> None:
    """The quartered disc where a weight acts."""
    x, r = place(at), number(radius)
    canvas.put(
        OVERLAY,
        f'<circle class="lesser paper" cx="{number(at.real)}" cy="{number(at.imag)}" r="{r}"/>'
        f'<path class="ink" d="M{x}v-{r}a{r} {r} 0 0 1 {r} {r}zM{x}v{r}a{r} {r} 0 0 1 -{r} -{r}z"/>',
    )


def crate(canvas: Canvas, foot: complex, along: complex, width: float, height: float, layer: int = BODY) -> None:
    """A slatted crate of compost that stands with the middle of its bottom on a point."""
    outline = rectangle(foot, along, width, 0, height)
    canvas.polygon(outline, "visible paper", layer)
    # No label may hide inside: the diagonals count as lines.
    canvas.avoid((outline[0], outline[2]), 3)
    canvas.avoid((outline[1], outline[3]), 3)
    post = max(3.0, width * 0.09)
    slats, gap = 3, height * 0.07
    for i in range(slats):
        low = i * height / slats + (gap / 2 if i else 0)
        high = (i + 1) * height / slats - (gap / 2 if i < slats - 1 else 0)
        canvas.polygon(rectangle(foot, along, width - 2 * post, low, high), "thin", layer, weight=0)
    for side in (-1, 1):
        middle = foot + along * (width - post) / 2 * side
        canvas.polygon(rectangle(middle, along, post, 0, height), "thin", layer, weight=0)


def wall(canvas: Canvas, left: float, right: float, top: float, bottom: float) -> None:
    """The landing that a ramp leans on, cut through."""
    corners = (
        complex(left, top),
        complex(right, top),
        complex(right, bottom),
        complex(left, bottom),
    )
    canvas.polygon(corners, "lesser paper", BACKGROUND)
    canvas.hatch(corners, 9, pi / 4, BACKGROUND)
