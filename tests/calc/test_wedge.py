"""Wedges: what must hold for any numbers, with the forces worked out again by plain balance, face by face."""

from __future__ import annotations

import math
from dataclasses import dataclass

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.calc.asking import ask, values

FORCE = st.floats(1, 5000)
LENGTH = st.floats(0.05, 1)
SLENDER = st.floats(0.02, 0.8)
MU = st.floats(0.01, 0.8)
KIND = st.sampled_from(["single", "double"])
CONVENTION = st.sampled_from(["work", "slope"])


def si(x: float, unit: str = "") -> str:
    return f"{x!r} {unit}".strip()


def codes(answer: dict[str, object]) -> set[str]:
    notes, errors = answer["notes"], answer["errors"]
    assert isinstance(notes, list)
    assert isinstance(errors, list)
    return {entry["code"] for entry in (*notes, *errors)}


def rubbed(choices: dict[str, str], R: float, ell: float, t: float, mu: float, **more: str) -> dict[str, float]:
    return values("wedge-with-friction", "si", choices, R=si(R, "N"), ell=si(ell, "m"), t=si(t, "m"), mu=si(mu), **more)


def face_angle(kind: str, ell: float, t: float) -> float:
    return math.atan2(t / 2 if kind == "double" else t, ell)


@dataclass(frozen=True)
class Faces:
    """Forces on the faces of a single wedge by balance of wedge and load, level and upright: newtons."""

    effort: float
    face: float
    base: float
    guide: float


def balance(R: float, alpha: float, mu_1: float, mu_2: float, mu_3: float = 0.0, way: int = 1) -> Faces:
    """Each face's push and friction, one equation after another; ``way`` 1 driven in, -1 drawn out.

    The load is pressed sideways onto its guide and rises along it; the wedge slides between load and floor.
    """
    level = math.sin(alpha) + way * mu_1 * math.cos(alpha)  # of a face force of 1, on the load
    upright = math.cos(alpha) - way * mu_1 * math.sin(alpha)
    face = R / (upright - way * mu_3 * abs(level))
    base = face * upright
    return Faces(face * level + way * mu_2 * base, face, base, face * level)


@given(FORCE, LENGTH, SLENDER, KIND)
def test_work_in_is_work_out_without_friction(R: float, ell: float, slender: float, kind: str) -> None:
    t = ell * slender
    v = values("wedge", "si", {"kind": kind}, R=si(R, "N"), ell=si(ell, "m"), t=si(t, "m"))
    assert v["E"] * ell == pytest.approx(R * t, rel=1e-9)
    alpha = face_angle(kind, ell, t)
    faces = 2 if kind == "double" else 1
    assert v["E"] == pytest.approx(faces * R * math.tan(alpha), rel=1e-9)  # balance of the wedge, not work
    assert v["N"] * math.cos(alpha) == pytest.approx(R, rel=1e-9)


@given(LENGTH, SLENDER, KIND)
def test_the_sloping_face_always_promises_a_little_more(ell: float, slender: float, kind: str) -> None:
    """V42; and by under 2 % for t < ell/5 (single), t < 0.4 ell (double)."""
    t = ell * slender
    v = values("wedge", "si", {"kind": kind}, ell=si(ell, "m"), t=si(t, "m"))
    assert v["IMA_s"] >= v["IMA_w"]
    if slender < (0.4 if kind == "double" else 0.2):
        assert v["IMA_s"] / v["IMA_w"] < 1.02
    thicker = values("wedge", "si", {"kind": kind}, ell=si(ell, "m"), t=si(t * 1.1, "m"))
    assert thicker["IMA"] < v["IMA"]
    thin = values("wedge", "si", {"kind": kind}, ell=si(ell, "m"), t=si(ell / 900, "m"))
    assert thin["IMA_s"] == pytest.approx(thin["IMA_w"], rel=1e-6)


@given(FORCE, LENGTH, SLENDER, MU)
def test_a_single_wedge_balances_face_by_face(R: float, ell: float, slender: float, mu: float) -> None:
    t = ell * slender
    v = rubbed({"kind": "single"}, R, ell, t, mu)
    expected = balance(R, face_angle("single", ell, t), mu, mu)
    assert (v["E"], v["N"], v["V"]) == pytest.approx((expected.effort, expected.face, expected.base), rel=1e-9)
    assert v["F_1"] == pytest.approx(math.hypot(v["N"], mu * v["N"]), rel=1e-9)
    assert v["F_2"] == pytest.approx(math.hypot(v["V"], mu * v["V"]), rel=1e-9)


@given(FORCE, LENGTH, SLENDER, MU, MU, MU)
def test_a_guide_adds_its_own_friction(
    R: float, ell: float, slender: float, mu_1: float, mu_2: float, mu_3: float
) -> None:
    t = ell * slender
    alpha = face_angle("single", ell, t)
    given_ = {"R": si(R, "N"), "ell": si(ell, "m"), "t": si(t, "m")}
    given_ |= {"mu_1": si(mu_1), "mu_2": si(mu_2), "mu_3": si(mu_3)}
    choices = {"kind": "single", "faces": "each", "guide": "guided"}
    answer = ask("wedge-with-friction", "si", choices, **given_)
    jam = math.tan(alpha + math.atan(mu_1)) * mu_3
    assume(abs(jam - 1) > 0.02)
    if jam >= 1 or alpha + math.atan(mu_1) >= math.pi / 2:
        assert "e-jam" in codes(answer)
        assert "E" not in answer["values"] or answer["values"]["E"]["view"] == "ideal"
        return
    expected = balance(R, alpha, mu_1, mu_2, mu_3)
    found = {s: answer["values"][s]["si"] for s in ("E", "N", "V")}
    assert found == pytest.approx({"E": expected.effort, "N": expected.face, "V": expected.base}, rel=1e-9)
    free = values(
        "wedge-with-friction", "si", {**choices, "guide": "free"}, **{s: x for s, x in given_.items() if s != "mu_3"}
    )
    assert found["E"] >= free["E"]


@given(FORCE, LENGTH, SLENDER, MU)
def test_a_double_wedge_balances_across_and_along(R: float, ell: float, slender: float, mu: float) -> None:
    t = ell * slender
    alpha = face_angle("double", ell, t)
    v = rubbed({"kind": "double"}, R, ell, t, mu)
    across = v["N"] * math.cos(alpha) - mu * v["N"] * math.sin(alpha)
    along = 2 * (v["N"] * math.sin(alpha) + mu * v["N"] * math.cos(alpha))
    assert across == pytest.approx(R, rel=1e-9)
    assert along == pytest.approx(v["E"], rel=1e-9)


@given(FORCE, LENGTH, SLENDER, MU, KIND, CONVENTION)
def test_energy_closes_and_efficiency_is_actual_over_ideal(
    R: float, ell: float, slender: float, mu: float, kind: str, wedge: str
) -> None:
    """V1 and V2 in both conventions; the loss again as friction along every rubbing face."""
    t = ell * slender
    v = rubbed({"kind": kind, "wedge": wedge}, R, ell, t, mu)
    assert v["AMA"] == pytest.approx(v["IMA"] * v["eta"], rel=1e-9)
    assert v["Wout"] == pytest.approx(v["eta"] * v["Win"], rel=1e-9)
    assert 0 < v["eta"] <= 1
    assert v["Wlost"] >= 0
    if wedge == "work":
        face = mu * v["N"] * v["s"] * (2 if kind == "double" else 1)
        base = 0.0 if kind == "double" else mu * v["V"] * ell
        assert v["Wlost"] == pytest.approx(face + base, rel=1e-9)


@given(FORCE, LENGTH, SLENDER, KIND)
def test_friction_of_zero_is_the_ideal_wedge_and_more_friction_costs_effort(
    R: float, ell: float, slender: float, kind: str
) -> None:
    """V43."""
    t = ell * slender
    ideal = values("wedge", "si", {"kind": kind}, R=si(R, "N"), ell=si(ell, "m"), t=si(t, "m"))["E"]
    efforts = [rubbed({"kind": kind}, R, ell, t, mu)["E"] for mu in (0.0, 0.1, 0.2, 0.4)]
    assert efforts[0] == pytest.approx(ideal, rel=1e-9)
    assert efforts == sorted(efforts)
    steeper = rubbed({"kind": kind}, R, ell, t * 1.1, 0.2)["E"]
    assert steeper > efforts[2]
    if kind == "single":
        both = {"R": si(R, "N"), "ell": si(ell, "m"), "t": si(t, "m")}
        base = [
            values("wedge-with-friction", "si", {"faces": "each"}, **both, mu_1="0.2", mu_2=x)["E"]
            for x in ("0.1", "0.3")
        ]
        face = [
            values("wedge-with-friction", "si", {"faces": "each"}, **both, mu_1=x, mu_2="0.2")["E"]
            for x in ("0.1", "0.3")
        ]
        assert base[0] < base[1]
        assert face[0] < face[1]


@given(FORCE, LENGTH, SLENDER, MU, KIND)
def test_it_takes_a_pull_to_draw_it_out_just_when_it_stays_in(
    R: float, ell: float, slender: float, mu: float, kind: str
) -> None:
    """V44; the pull again by balance of the forces on each face."""
    t = ell * slender
    alpha, phi = face_angle(kind, ell, t), math.atan(mu)
    hold = phi if kind == "double" else 2 * phi
    assume(abs(alpha - hold) > 1e-6)
    answer = ask("wedge-with-friction", "si", {"kind": kind}, R=si(R, "N"), ell=si(ell, "m"), t=si(t, "m"), mu=si(mu))
    stays = alpha <= hold
    assert ("n-stays-in" in codes(answer)) == stays
    assert ("n-backs-out" in codes(answer)) == (not stays)
    assert ("E_out" in answer["values"]) == stays
    assert ("E_hold" in answer["values"]) == (not stays)
    force = answer["values"]["E_out" if stays else "E_hold"]["si"]
    if kind == "single":
        pull = -balance(R, alpha, mu, mu, way=-1).effort
    else:
        normal = R / (math.cos(alpha) + mu * math.sin(alpha))
        pull = 2 * normal * (mu * math.cos(alpha) - math.sin(alpha))
    assert (force if stays else -force) == pytest.approx(pull, rel=1e-7, abs=1e-9 * R)


@given(FORCE, LENGTH, st.floats(0.02, 0.8), MU)
def test_a_double_wedge_is_two_single_ones_on_smooth_bases(R: float, ell: float, slender: float, mu: float) -> None:
    """V44: with nothing rubbing below, E of the double is twice E of a single with the same face angle."""
    t = ell * slender
    double = rubbed({"kind": "double"}, R, ell, t, mu)
    given_ = {"R": si(R, "N"), "ell": si(ell, "m"), "t": si(t / 2, "m"), "mu_1": si(mu), "mu_2": "0"}
    single = values("wedge-with-friction", "si", {"kind": "single", "faces": "each"}, **given_)
    assert double["alpha"] == pytest.approx(single["alpha"], rel=1e-12)
    assert double["E"] == pytest.approx(2 * single["E"], rel=1e-9)


@given(FORCE, LENGTH, SLENDER, MU)
def test_the_slope_convention_shows_a_little_more_efficiency(R: float, ell: float, slender: float, mu: float) -> None:
    """A double wedge: sin/(sin + mu cos) by the face, tan/tan(alpha + phi) by the work."""
    t = ell * slender
    alpha = face_angle("double", ell, t)
    work, slope = (rubbed({"kind": "double", "wedge": w}, R, ell, t, mu) for w in ("work", "slope"))
    assert work["E"] == pytest.approx(slope["E"], rel=1e-12)
    assert work["eta"] == pytest.approx(math.tan(alpha) / math.tan(alpha + math.atan(mu)), rel=1e-9)
    assert slope["eta"] == pytest.approx(math.sin(alpha) / (math.sin(alpha) + mu * math.cos(alpha)), rel=1e-9)
    assert slope["eta"] >= work["eta"]


@given(FORCE, LENGTH, SLENDER, MU, KIND)
def test_a_measured_push_tells_the_same_face_force_as_the_friction_behind_it(
    R: float, ell: float, slender: float, mu: float, kind: str
) -> None:
    """In the slope convention: `wedge` finds N from load and effort alone, `wedge-with-friction` from mu."""
    t = ell * slender
    given_ = {"R": si(R, "N"), "ell": si(ell, "m"), "t": si(t, "m")}
    choices = {"kind": kind, "wedge": "slope"}
    if kind == "double":
        known = rubbed(choices, R, ell, t, mu)
    else:
        known = values("wedge-with-friction", "si", {**choices, "faces": "each"}, **given_, mu_1=si(mu), mu_2="0")
    assume(known["E"] > 0.05)  # below it the box for a force refuses
    measured = values("wedge", "si", choices, **given_, E=si(known["E"], "N"))
    for s in ("N", "AMA", "eta"):
        assert measured[s] == pytest.approx(known[s], rel=1e-9)


@settings(deadline=None)
@given(FORCE, LENGTH, st.floats(0.02, 0.6), st.floats(0.02, 0.5), KIND, st.sampled_from(["E", "R", "mu", "t", "ell"]))
def test_a_wedge_with_friction_solves_back(
    R: float, ell: float, slender: float, mu: float, kind: str, asked: str
) -> None:
    t = ell * slender
    v = rubbed({"kind": kind}, R, ell, t, mu)
    assume(v["E"] > 0.05)
    full = {"R": (R, "N"), "ell": (ell, "m"), "t": (t, "m"), "mu": (mu, ""), "E": (v["E"], "N")}
    choices = {"kind": kind, "surfaces": "own"}
    answer = ask("wedge-with-friction", "si", choices, **{s: si(*full[s]) for s in full if s != asked})
    assert answer["values"][asked]["si"] == pytest.approx(full[asked][0], rel=1e-7), (asked, answer["errors"])


@given(FORCE, LENGTH, SLENDER, st.floats(0.1, 1), KIND, CONVENTION, st.sampled_from(["R", "ell", "t", "eta", "E"]))
def test_a_wedge_solves_back(
    R: float, ell: float, slender: float, eta: float, kind: str, wedge: str, asked: str
) -> None:
    t = ell * slender
    choices = {"kind": kind, "wedge": wedge}
    shape = {"R": (R, "N"), "ell": (ell, "m"), "t": (t, "m")}
    assume(wedge == "work" or eta > 0.3)
    first = ask("wedge", "si", choices, **{s: si(*x) for s, x in shape.items()}, eta=si(eta * 100, "%"))
    assume("E" in first["values"] and first["values"]["E"]["view"] == "expected" and first["values"]["E"]["si"] > 0.05)
    full = {**shape, "eta": (eta * 100, "%"), "E": (first["values"]["E"]["si"], "N")}
    if asked in ("ell", "t") and wedge == "slope":
        return  # the face's angle goes with them: not a question that the sheet promises to answer there
    answer = ask("wedge", "si", choices, **{s: si(*full[s]) for s in full if s != asked})
    found = answer["values"][asked]["si"]
    assert found == pytest.approx(eta if asked == "eta" else full[asked][0], rel=1e-7), (asked, answer["errors"])


@given(FORCE, LENGTH, SLENDER, MU, KIND, st.floats(0.5, 5))
def test_forces_scale_together_and_lengths_do_not_matter(
    R: float, ell: float, slender: float, mu: float, kind: str, c: float
) -> None:
    """V5 and V6."""
    t = ell * slender
    one, heavier, larger = (rubbed({"kind": kind}, R * f, ell * g, t * g, mu) for f, g in ((1, 1), (c, 1), (1, c)))
    assert heavier["E"] == pytest.approx(one["E"] * c, rel=1e-9)
    assert larger["E"] == pytest.approx(one["E"], rel=1e-9)
    for s in ("IMA", "AMA", "eta"):
        assert heavier[s] == pytest.approx(one[s], rel=1e-9)
        assert larger[s] == pytest.approx(one[s], rel=1e-9)


@given(FORCE, LENGTH, SLENDER, MU, KIND)
def test_units_do_not_matter(R: float, ell: float, slender: float, mu: float, kind: str) -> None:
    lbf, inch = 4.4482216152605, 0.0254
    metric = rubbed({"kind": kind}, R, ell, ell * slender, mu)
    customary = values(
        "wedge-with-friction",
        "us",
        {"kind": kind},
        R=si(R / lbf, "lbf"),
        ell=si(ell / inch, "in"),
        t=si(ell * slender / inch, "in"),
        mu=si(mu),
    )
    assert customary == pytest.approx(metric, rel=1e-9)


def test_a_wedge_that_jams_says_so() -> None:
    answer = ask("wedge-with-friction", choices={"kind": "double"}, R="20", ell="1", t="3", mu="1.2")
    assert "e-jam" in codes(answer)
    assert answer["values"]["E"]["view"] == "ideal" if "E" in answer["values"] else True


def test_the_page_says_what_the_other_convention_gets() -> None:
    for wedge, shown in (("work", "6.00"), ("slope", "6.08")):
        answer = ask("wedge", choices={"wedge": wedge}, R="20", ell="9", t="1.5")
        assert answer["values"]["IMA"]["text"] == shown
        assert "6.08" in answer["html"]["sentence"]
        assert "6.00" in answer["html"]["sentence"]


def test_a_link_opens_the_slope_convention() -> None:
    assert "wedge=slope" in ask("wedge", choices={"wedge": "slope"}, R="20", ell="9", t="1.5")["link"]


def test_the_sheet_starts_with_a_friction_that_says_it_is_only_assumed() -> None:
    box = ask("wedge-with-friction", R="20", ell="9", t="1.5")["fields"]["mu"]
    assert (box["state"], box["shown"]) == ("assumed", "0.250")
    assert "no source" in box["note"]


def test_a_picked_pair_of_surfaces_fills_the_box_and_names_its_source() -> None:
    for key, given_ in (
        ("wedge-with-friction", {"R": "20", "ell": "9", "t": "1.5"}),
        ("ramp", {"R": "30", "L": "96", "h": "24"}),
    ):
        answer = ask(key, choices={"surfaces": "wood-on-wood"}, **given_)
        box = answer["fields"]["mu"]
        assert (box["state"], box["shown"]) == ("assumed", "0.300")  # OpenStax Physics, table 5.2
        assert "OpenStax" in box["note"]
        assert answer["values"]["E"]["view"] == "expected"
        assert ask(key, choices={"surfaces": "wood-on-wood"}, **given_, mu="0.4")["fields"]["mu"]["state"] == "typed"


def test_a_ramp_without_a_picked_pair_is_what_it_was() -> None:
    answer = ask("ramp", R="30", L="96", h="24")
    assert answer["fields"]["mu"]["state"] == "empty"
    assert answer["values"]["E"]["view"] == "ideal"
