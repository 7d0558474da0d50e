"""The planner's question answered another way: every set-up of a small kit, each with its own statics, in lbf and in.

Nothing of ``calc`` is used. The forces come from balances written out (Engineering Statics, open textbook, ch. 4, 5
and 9; moment and sag of a beam by integrating), not from the calculators' formulas; the limits are those of the brief
for the planner (SPEC.md, section D). A set-up is named as the planner names an option.
"""

from __future__ import annotations

from itertools import product
from math import asin, atan, cos, pi, sin, sqrt, tan
from typing import Any

STUDENTS = {"one": 1.0, "two": 1.6}
TAIL, GAP, WALK = 60.0, 12.0, 36.0
THREADS = {"3/4-6-Acme": (0.75, 1 / 6, 14.5), "1/2-10-Acme": (0.5, 0.1, 14.5)}


def on_slope(weight: float, theta: float, mu: float) -> float:
    """The pull along a slope, from the two balances along and square to it, solved as a pair (Cramer's rule)."""
    # unknown pull p and normal force n: p - mu n = weight sin, n = weight cos
    a, b, c, d, e, f = 1.0, -mu, 0.0, 1.0, weight * sin(theta), weight * cos(theta)
    return (e * d - b * f) / (a * d - b * c)


def tackle_sum(n: int, rove: str, k: float) -> float:
    """The parts' tensions in pulls of the hand, walking along the rope from the hand over each sheave."""
    tension, total = 1.0, 0.0
    if rove == "advantage":
        total, n = 1.0, n - 1
    for _ in range(n):
        tension *= k
        total += tension
    return total


def beam(plank: dict[str, Any], load: float, h: float, *, propped: bool) -> tuple[float, float, float]:
    """Stress, sag over span/60, and what a prop carries: moments by cutting, sag by the unit-load integral."""
    span = plank["length"] / (2 if propped else 1)
    slope = sqrt(1 - (h / plank["length"]) ** 2)
    point = 1.5 * load
    own = 35 / 1728 * plank["width"] * plank["thickness"] * span
    strips = 400
    inertia = plank["width"] * plank["thickness"] ** 3 / 12

    def moment(x: float) -> float:
        reaction = (point + own) / 2 * slope
        return reaction * x - own * slope * x * x / (2 * span) - (point * slope * (x - span / 2) if x > span / 2 else 0)

    sag = 0.0
    for i in range(strips):
        x = span * (i + 0.5) / strips
        sag += moment(x) * min(x, span - x) / 2 * span / strips
    sag /= 1.2e6 * inertia
    stress = moment(span / 2) * plank["thickness"] / 2 / inertia
    return stress, sag / (span / 60), point + own


def wedge_push(load: float, wedge: dict[str, Any]) -> float:
    """From the force polygon of load and wedge: face force, then the wedge's level balance."""
    alpha, mu = atan(wedge["thickness"] / wedge["length"]), wedge["friction"][1]
    face = load / (cos(alpha) - mu * sin(alpha))
    return face * (sin(alpha) + mu * cos(alpha)) + mu * load


def screw_pull(load: float, screw: dict[str, Any]) -> float:
    """From the thread's face force, balanced along the axis and round it."""
    d, pitch, half = THREADS[screw["thread"]]
    mean, mu = d - pitch / 2, screw["friction"][1]
    lead = atan(pitch / (pi * mean))
    tilt = cos(atan(tan(half * pi / 180) * cos(lead)))
    face = load / (tilt * cos(lead) - mu * sin(lead))
    torque = mean / 2 * face * (tilt * sin(lead) + mu * cos(lead)) + mu * load * screw["collar"] / 2
    return torque / screw["handle"]


class Lab:
    """A kit of plain numbers and a task, and whether there is a rope, an anchor, a prop and a scale for it."""

    def __init__(self, kit: dict[str, list[dict[str, Any]]], task: dict[str, Any]) -> None:
        self.kit, self.task = kit, task
        self.load, self.lift = task["R"], task["h"]
        self.hand = min(
            task["pull"] * STUDENTS[task["people"]], 0.8 * max((s["capacity"] for s in kit["scale"]), default=0)
        )

    def fits(self, floor: float) -> bool:
        return self.task["room"] is None or floor <= self.task["room"]

    def roped(self, tension: float, need: Any) -> bool:
        return any(r["rated"] >= tension and r["length"] >= need(r) for r in self.kit["rope"])

    def anchored(self, force: float, rating: str) -> bool:
        return any(a.get(rating, 0) >= force for a in self.kit["anchor"])

    def hung(self) -> bool:
        return self.load <= self.task["most"] and self.lift <= self.task["hang"]

    def holds(self, plank: dict[str, Any], load: float) -> bool:
        """Whether a plank is strong enough, by itself or with some prop under its middle."""
        stress, sag, _ = beam(plank, load, self.lift, propped=False)
        if stress <= 800 and sag <= 1:
            return True
        stress, sag, prop = beam(plank, load, self.lift, propped=True)
        return stress <= 800 and sag <= 1 and any(p["rated"] >= prop for p in self.kit["prop"])

    def run(self, plank: dict[str, Any]) -> float:
        return sqrt(plank["length"] ** 2 - self.lift**2) + 2 * WALK

    def slopes(self) -> Any:
        """Each plank with each way to go on it: name, what is on the plank besides the load, coefficient, rated."""
        for plank in self.kit["plank"]:
            if plank["length"] > 1.001 * self.lift:
                if self.task["mu_s"]:
                    yield plank, None, self.task["mu_s"][1], 0.0
                for cart in self.kit["cart"]:
                    if cart["rated"] >= self.load:
                        yield plank, cart, cart["rolling"][1], cart["weight"]

    def tackles(self, rove: str, first: int, load: Any, travel: float, rating: str = "rated") -> Any:
        """Each tackle that its ratings allow: parts, pull, moving weight, rope. ``load`` is for a block's weight.

        ``rating`` is that of its anchor: ``side`` along a plank or a floor.
        """
        blocks = self.kit["block"]
        for n in range(first, 13):
            below = n // 2
            above = n - below - (1 if rove == "advantage" else 0)
            for a, b in product(blocks if above else [None], blocks if below else [None]):
                if (a and a["sheaves"] < above) or (b and b["sheaves"] < below) or (a and a is b and a["count"] < 2):
                    continue
                pair = [x for x in (a, b) if x]
                keeps = min(x["keeps"][0] for x in pair)
                weight = b["weight"] if b else 0.0
                total = load(weight)
                pull = total / tackle_sum(n, rove, keeps)
                force = total + (pull if rove == "disadvantage" else 0.0)
                if (a and a["rated"] < force) or not self.anchored(force + (a["weight"] if a else 0), rating):
                    continue
                wheel = max(x["diameter"] for x in pair)
                turns = n - (1 if rove == "advantage" else 0)
                rope = n * (travel + GAP) + turns * pi * wheel / 2 + TAIL
                yield n, pull, weight, rope, b

    def windings(self, pull: float, travel: float, more: float) -> Any:
        """Each windlass and rope that take this pull: the push on the crank. ``more`` is rope beside the drum's."""
        for drum, rope in product(self.kit["windlass"], self.kit["rope"]):
            thick = rope["diameter"]
            wound = travel + 3 * pi * (drum["drum"] + thick)
            strong = drum["rated"] >= pull and rope["rated"] >= pull and rope["length"] >= wound + more
            side_by_side = int(drum["width"] / thick + 1e-9)
            if not strong or side_by_side <= 3:
                continue
            # Layer by layer, each middle line one thickness further out; the cheek stands one above the top.
            left, middle, top = wound, (drum["drum"] + thick) / 2, thick
            while left > side_by_side * 2 * pi * middle:
                left -= side_by_side * 2 * pi * middle
                middle, top = middle + thick, top + thick
            if top + thick <= drum.get("cheek", 2 * thick) + 1e-9:
                yield drum, rope, pull * middle / (drum["crank"] * drum["efficiency"][0])

    def options(self) -> set[tuple[str, ...]]:
        """The name of everything that works."""
        found: set[tuple[str, ...]] = set()
        raising = (self.ramps, self.levers, self.lifts, self.small)
        for way in (self.floors,) if self.task["job"] == "level" else raising:
            found |= set(way())
        return found

    def ramps(self) -> Any:
        most = self.task["most"]
        for plank, cart, mu, extra in self.slopes():
            theta = asin(self.lift / plank["length"])
            if not self.fits(self.run(plank)):
                continue
            kind, name = ("cart", (plank["name"], cart["name"])) if cart else ("slide", (plank["name"],))
            pull = on_slope(self.load + extra, theta, mu)
            strong = self.holds(plank, self.load + extra)
            if strong and pull <= min(self.hand, most) and self.roped(pull, lambda r, p=plank: p["length"] + TAIL):
                yield (f"ramp-{kind}", *name)
            wound = self.windings(pull, plank["length"], TAIL)
            if strong and cart and pull <= most and any(push <= self.hand for _, _, push in wound):
                yield ("windlass-cart", *name)
            for _, hand, weight, rope, moving in self.tackles(
                "advantage",
                2,
                lambda w, t=theta, m=mu, x=extra: on_slope(self.load + x + w, t, m),
                plank["length"],
                "side",
            ):
                hauled = on_slope(self.load + extra + weight, theta, mu)
                fine = hauled <= most and hand <= self.hand and (moving is None or moving["rated"] >= hauled)
                fine = fine and self.roped(hand, lambda r, need=rope: need)
                if fine and self.holds(plank, self.load + extra + weight):
                    yield (f"tackle-{kind}", *name)
                    break

    def floors(self) -> Any:
        """Along the floor the normal force is the weight, so the pull is the coefficient's share of it."""
        far, most = self.task["d"], self.task["most"]
        if not self.fits(far + TAIL + 2 * WALK):
            return
        loads = [
            ("cart", (c["name"],), c["rolling"][1], c["weight"]) for c in self.kit["cart"] if c["rated"] >= self.load
        ]
        if self.task["mu_s"]:
            loads.append(("drag", (), self.task["mu_s"][1], 0.0))
        for kind, name, mu, extra in loads:
            pull = mu * (self.load + extra)
            if pull <= min(self.hand, most) and self.roped(pull, lambda r: TAIL):
                yield (f"level-{kind}", *name)
            for drum, _, push in self.windings(pull, far, TAIL):
                if pull <= most and push <= self.hand:
                    yield (f"windlass-level-{kind}", *name, drum["name"])
            for _, hand, weight, rope, moving in self.tackles(
                "advantage", 2, lambda w, m=mu, x=extra: m * (self.load + x + w), far, "side"
            ):
                hauled = mu * (self.load + extra + weight)
                fine = hauled <= most and hand <= self.hand and (moving is None or moving["rated"] >= hauled)
                if fine and self.roped(hand, lambda r, need=rope: need):
                    yield (f"tackle-level-{kind}", *name)
                    break

    def levers(self) -> Any:
        for bar in self.kit["bar"]:
            if bar["length"] <= 1.5 * bar["arm"] or not self.hung() or not self.fits(bar["length"] + 2 * WALK):
                continue
            moment = self.load * bar["arm"] - bar["weight"] * (bar["length"] / 2 - bar["arm"])
            push = moment / (bar["length"] - bar["arm"]) / bar["efficiency"][0]
            reach = max(2 * bar["arm"] * sin(pi / 12), max((p["height"] for p in self.kit["packing"]), default=0))
            if 0 <= push <= self.hand and self.lift <= reach and self.kit["scale"]:
                yield ("lever", bar["name"])

    def lifts(self) -> Any:
        if not self.hung() or not self.fits(2 * WALK):
            return
        for rove, first in (("disadvantage", 1), ("advantage", 2)):
            for n, pull, _, rope, moving in self.tackles(rove, first, lambda w: self.load + w, self.lift):
                if moving is not None and moving["rated"] < self.load:
                    continue
                if pull <= self.hand and self.roped(pull, lambda r, need=rope: need):
                    yield ("tackle", rove)
                if rove == "disadvantage" and n > 1:
                    for drum, _, push in self.windings(pull, n * self.lift, rope):
                        if push <= self.hand:
                            yield ("windlass-tackle", drum["name"])
        for drum, _, push in self.windings(self.load, self.lift, 0.0):
            if push <= self.hand:
                yield ("windlass", drum["name"])

    def small(self) -> Any:
        if not self.fits(2 * WALK):
            return
        for wedge in self.kit["wedge"]:
            fits = self.lift <= wedge["thickness"] and self.load <= self.task["most"]
            if fits and wedge_push(self.load, wedge) <= self.hand:
                yield ("wedge", wedge["name"])
        for screw in self.kit["screw"]:
            fits = self.lift <= screw["travel"] and self.load <= screw["rated"]
            if fits and screw_pull(self.load, screw) <= self.hand:
                yield ("screw", screw["name"])
