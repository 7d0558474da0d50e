"""The planner's words: limits kept and broken, what would mend them, what to do at the set-up."""

from __future__ import annotations

from collections.abc import Mapping

from calc.figures import feet_and_inches, shown, sixteenths
from calc.plan.kit import ITEM_KINDS, Item
from calc.plan.mending import Mend
from calc.plan.rig import Check, Setup
from calc.plan.task import Task
from calc.units import in_unit

_FOOT_LENGTHS = 0.9144  # from 3 ft on a tape is read in feet and inches


def size(value: float, kind: str, system: str) -> str:
    """A number with its unit, as a teacher would say it."""
    us = system == "us"
    if kind == "force":
        return f"{shown(in_unit(value, 'lbf' if us else 'N'))} {'lbf' if us else 'N'}"
    if kind == "length":
        if us:
            inches = in_unit(value, "in")
            return (
                feet_and_inches(inches).removesuffix(" 0 in") if value >= _FOOT_LENGTHS else f"{sixteenths(inches)} in"
            )
        return f"{shown(value)} m" if value >= 1 else f"{shown(value * 1000)} mm"
    if kind == "stress":
        return f"{shown(in_unit(value, 'psi' if us else 'MPa'))} {'psi' if us else 'MPa'}"
    return shown(value)


def turned(turns: float, each: float) -> str:
    """Turns of a crank or a handle, with their time at so many seconds each."""
    seconds = turns * each
    time = f"{seconds / 60:.0f} minutes" if seconds >= 120 else f"{max(seconds, 1):.0f} s"
    return f"It takes {shown(turns)} turns, about {time} at a turn in {each:.0f} s."


def path(value: float, system: str) -> str:
    """How far a hand moves: no tape is laid along it, so no sixteenths."""
    if system == "us":
        feet = in_unit(value, "ft")
        return f"{shown(feet)} ft" if feet >= 3 else f"{shown(in_unit(value, 'in'))} in"
    return f"{shown(value)} m" if value >= 1 else f"{shown(value * 1000)} mm"


def forces(ends: tuple[float, float], system: str) -> str:
    """A range of forces: one number where both ends show alike; "up to" where it starts at nothing."""
    low, high = (size(max(end, 0.0), "force", system) for end in ends)
    if low == high:
        return low if ends[1] > 0 else "none"
    if ends[0] <= 0:
        return f"up to {high}"
    return f"{low.partition(' ')[0]} to {high}"


_KEPT: Mapping[str, str] = {
    "pull": "what a student pulls",
    "scale": "what the scale reads well",
    "class-load": "the class’s load on a rope or a bar",
    "class-pull": "the class’s load on a rope",
    "class-lift": "how high a load hangs",
    "rope-rated": "the rope’s rating",
    "rope-length": "the rope’s length",
    "anchor-rated": "the anchor’s rating",
    "anchor-side": "the anchor’s rating sideways",
    "cheek": "the height of the drum’s cheeks",
    "standing-rated": "the standing block’s rating",
    "moving-rated": "the moving block’s rating",
    "cart-rated": "the cart’s rating",
    "windlass-rated": "the windlass’s rating",
    "screw-rated": "the screw stand’s rating",
    "prop-rated": "the prop’s rating",
    "bends": "the wood’s bending limit",
    "sags": "the plank’s sag",
    "swing": "one swing of the bar, or the packing",
    "drum": "the rope on the drum",
    "wedge-thick": "the wedge’s thickness",
    "travel": "the screw’s travel",
    "room": "the floor",
}
_BROKEN: Mapping[str, str] = {
    "pull": "Starting takes {value}. A student pulls {limit} at most.",
    "scale": "Starting takes {value}. The largest scale reads well up to {limit}.",
    "class-load": "The load is {value}. Your limit on a rope or a bar is {limit}.",
    "class-pull": "The pull on the load is {value}. Your limit on a rope or a bar is {limit}.",
    "class-lift": "It would hang {value} up. Your limit for a hanging load is {limit}.",
    "rope-rated": "The rope carries {value}. {item} is rated for {limit}.",
    "rope-length": "It takes {value} of rope. {item} has {limit}.",
    "anchor-side": "The anchor is pulled sideways with {value}. {item} is rated for {limit} so.",
    "cheek": "Rope and spare edge stand {value} above the drum. Its cheeks are {limit} high.",
    "anchor-rated": "The anchor carries {value}. {item} is rated for {limit}.",
    "standing-rated": "The standing block carries {value}. {item} is rated for {limit}.",
    "moving-rated": "The moving block carries {value}. {item} is rated for {limit}.",
    "cart-rated": "The cart carries {value}. {item} is rated for {limit}.",
    "windlass-rated": "The windlass holds {value}. {item} is rated for {limit}.",
    "screw-rated": "The screw carries {value}. {item} is rated for {limit}.",
    "prop-rated": "The prop carries {value}. {item} is rated for {limit}.",
    "bends": "The wood of {item}{propped} is bent to {value}. Its limit is {limit}.",
    "sags": "{item}{propped} sags {value}. Its limit is {limit}, a sixtieth of the span.",
    "swing": "One swing, or the packing, raises it {limit}. It must go up {value}.",
    "drum": "It winds {value} of rope on the drum, its dead turns among it. The drum holds {limit}.",
    "wedge-thick": "{item} is {limit} thick. It must go up {value}.",
    "travel": "{item} travels {limit}. It must go up {value}.",
    "room": "It takes {value} of floor. You have {limit}.",
    "plank-short": "{item} is no longer than the lift is high.",
    "bar-short": "{item} is too short for its load arm.",
    "overbalances": "The bar alone outweighs the load.",
    "may-slide": "You said that it must not slide.",
    "jams": "With this much friction it jams, however hard you pull.",
}


def kept(check: Check) -> str:
    """A kept limit in a few words, with how much of it is used."""
    return f"{_KEPT[check.code]}, {check.used * 100:.0f} % used"


def broken(check: Check, setup: Setup, system: str) -> str:
    """A broken limit in a sentence or two."""
    if check.code.startswith("no-"):
        return f"The kit has no {ITEM_KINDS[setup.missing[0].kind].one}."
    thing = check.code.partition("-")[0]
    if (check.code.endswith("-rated") or check.code == "anchor-side") and check.item is None:
        return f"The kit has no {thing}."
    if check.code == "rope-length" and check.item is None:
        return "The kit has no rope."
    if check.code == "scale" and check.limit == 0:
        return "The kit has no spring scale to read."
    if check.code.endswith("-rated") and check.limit == 0 and check.item:
        return f"{check.item.name} has no maker’s rated limit, so nothing may hang on it or lie on it."
    if check.code == "anchor-side" and check.limit == 0 and check.item:
        return f"{check.item.name} has no maker’s limit for a pull sideways, so nothing may pull it so."
    name = check.item.name if check.item else ""
    said = {"value": size(check.value, check.kind, system), "limit": size(check.limit, check.kind, system)}
    propped = f", propped by {setup.parts['prop'].name}," if "prop" in setup.parts else ""
    return _BROKEN[check.code].format(**said, item=name, propped=propped)


def thing(item: Item, system: str) -> str:
    """A thing to get, in the sizes that matter."""

    def of(name: str) -> str:
        return size(item[name], "length" if name != "capacity" else "force", system)

    def of_force(name: str) -> str:
        return size(item[name], "force", system)

    rated = f" rated for {size(item.rated, 'force', system)}" if item.rated else ""
    sheaves = f"{item.sizes.get('sheaves', 1):.0f}"
    cheeks = f", its cheeks {of('cheek')} high," if "cheek" in item.sizes else ""
    words = {
        "scale": lambda: f"a spring scale that reads up to {of('capacity')}",
        "plank": lambda: f"a plank {of('length')} long, {of('width')} wide and {of('thickness')} thick",
        "prop": lambda: f"a prop{rated} under the plank’s middle",
        "rope": lambda: f"a rope {of('length')} long{rated}",
        "block": lambda: f"a block of {sheaves} sheave{'' if sheaves == '1' else 's'}{rated}",
        "anchor": lambda: f"an anchor{f' rated for {of_force("side")} sideways' if 'side' in item.sizes else rated}",
        "bar": lambda: f"a bar {of('length')} long with its load arm {of('arm')}",
        "packing": lambda: f"packing {of('height')} high",
        "cart": lambda: f"a cart of {size(item['weight'], 'force', system)}{rated}",
        "windlass": lambda: f"a windlass with a crank of {of('crank')} and a drum {of('width')} wide{cheeks}{rated}",
        "wedge": lambda: f"a wedge {of('length')} long and {of('thickness')} thick",
        "screw": lambda: f"a screw stand with {of('travel')} of travel{rated}",
    }
    return words[item.kind]()


def mended(mend: Mend | None, load: float | None, task: Task, system: str) -> str:
    """What would make it work, in a sentence or two."""
    if load is not None and mend is not None and mend.task.R != task.R:
        mend = None  # the lighter load alone is enough
    parts = []
    if mend is not None:
        parts += [thing(item, system) for item in mend.items]
        if mend.task.h != task.h:
            parts.append(f"a lift of {size(mend.task.h, 'length', system)} at most")
        if mend.task.room != task.room and mend.task.room is not None:
            parts.append(f"{size(mend.task.room, 'length', system)} of floor")
        if mend.task.R != task.R:
            parts.append(f"a load of {size(mend.task.R, 'force', system)} at most")
    words = ""
    if parts:
        listed = parts[0] if len(parts) == 1 else ", ".join(parts[:-1]) + " and " + parts[-1]
        words = f"It would work with {listed}."
    if load is not None:
        lighter = f"a load of {size(load, 'force', system)} at most"
        words = f"{words} Or with {lighter}." if words else f"It would work with {lighter}."
    return words or "No small change would make it work."


LETS_GO: Mapping[str, tuple[str, str]] = {
    "stays": ("stays", "Let go, and it stays where it is. It must be moved back down by hand."),
    "chock": ("runs back", "Let go, and it runs back. Someone follows beside it with a chock."),
    "hold": ("comes down", "Let go, and it comes down. Keep hold, or set it on packing, before anybody lets go."),
    "rests": ("stops", "Let go, and friction stops it at once. To bring it back, pull it from its other end."),
    "coasts": (
        "rolls on",
        "Let go, and it rolls on. Haul slowly, stop hauling early, and put the chock in. Then pull it back.",
    ),
    "pawl": ("spins back", "Let go, and the crank spins back. Keep hold of it, or fit a pawl."),
}
"""What happens when the hand lets go: for the table, and for the card."""

STANDS: Mapping[str, tuple[str, ...]] = {
    "slope": (
        "The puller stands at the top, in line with the plank.",
        "One student walks beside the load with a chock. Nobody stands below it.",
        "The reader stands beside the scale, with the eyes off the rope’s line.",
    ),
    "floor": (
        "The puller stands ahead and to the side, so that a slip or a snapped rope goes past.",
        "One student walks beside the load with a chock. Nobody walks ahead of it, or rides on it.",
        "The floor is clear and dry to the end of the way. The rope’s tail lies clear of it.",
        "The reader walks beside the scale, with the eyes off the rope’s line.",
    ),
    "hang": (
        "The puller stands to the side, out from under the load.",
        "The load hangs low over a pad. Nobody stands under or beside it.",
        "The reader stands beside the scale, with the eyes off the rope’s line.",
    ),
    "crank": (
        "The winder stands beside the crank, with the face out of its circle.",
        "Nobody stands under, beside or below the load, nor in line with the rope.",
        "The reader stands on the other side of the crank.",
    ),
    "bar": (
        "The puller stands at the long end, with the head out of the bar’s path.",
        "One student slides packing in as the load rises. Hands stay out from under it.",
        "The reader stands beside the scale.",
    ),
    "bench": (
        "The puller stands in line with the pull, a step back.",
        "One student steadies the load’s guide. Hands stay out from under it.",
        "The reader stands beside the scale.",
    ),
}
PLACE: Mapping[str, str] = {
    "ramp-cart": "slope",
    "ramp-slide": "slope",
    "tackle-cart": "slope",
    "tackle-slide": "slope",
    "tackle": "hang",
    "lever": "bar",
    "windlass": "crank",
    "windlass-cart": "crank",
    "windlass-tackle": "crank",
    **dict.fromkeys(("level-cart", "level-drag", "tackle-level-cart", "tackle-level-drag"), "floor"),
    **dict.fromkeys(("windlass-level-cart", "windlass-level-drag"), "crank"),
    "wedge": "bench",
    "screw": "bench",
}
CAUTIONS: Mapping[str, tuple[str, ...]] = {
    "ramp-cart": ("inclined-plane",),
    "ramp-slide": ("inclined-plane",),
    "tackle": ("pulley",),
    "lever": ("lever",),
    "windlass": ("wheel-and-axle",),
    "wedge": ("wedge",),
    "screw": ("screw",),
    "tackle-cart": ("inclined-plane", "pulley"),
    "tackle-slide": ("inclined-plane", "pulley"),
    "windlass-cart": ("inclined-plane", "wheel-and-axle"),
    "windlass-tackle": ("pulley", "wheel-and-axle"),
    **dict.fromkeys(("level-cart", "level-drag"), ("level-drag",)),
    **dict.fromkeys(("tackle-level-cart", "tackle-level-drag"), ("level-drag", "pulley")),
    **dict.fromkeys(("windlass-level-cart", "windlass-level-drag"), ("level-drag", "wheel-and-axle")),
}
"""Whose cautions a way's card carries, by the names of the safety notes."""


def unlike(way: str, calculator: str, *, hand: bool) -> str:
    """How a calculator's picture on a card differs from the set-up, in a sentence or two; or nothing."""
    if calculator == "level-drag" and way.endswith("cart"):
        return "Its cart is not drawn. Rolling friction counts here just as sliding friction."
    if not hand:
        return ""
    if calculator == "windlass":
        return "Its load stands for the rope’s pull."
    along = "floor" if "level" in way else "plank"
    return f"Drawn upright: its load stands for the pull along the {along}."
