"""What is often printed wrong, one test for each: the site does the right thing, in its numbers or its words.

K1 to K31 number the specification's list. The right answer stands beside each check with its reason: an identity of
mechanics worked by hand, or the definition. A page's words are read in its Markdown.
"""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from calc import tables
from tests.calc.asking import FT_LBF, INCH, LBF, ask, values

DOCS = Path(__file__).parents[2] / "docs"


def page(name: str) -> str:
    """A page's words in one line."""
    return " ".join((DOCS / f"{name}.md").read_text("utf-8").split())


def codes(answer: dict, kind: str = "notes") -> list[str]:
    return [entry["code"] for entry in answer[kind]]


def test_k1_a_movable_pulley_halves_the_effort_and_not_the_work() -> None:
    """Twice the rope at half the pull: 20 lbf through 1 ft is 10 lbf through 2 ft, 20 ft·lbf either way."""
    v = values("single-pulley", R="20", w="0.0001", h="12 in")
    assert v["E"] / LBF == pytest.approx(10, rel=1e-4)
    assert v["dE"] / INCH == pytest.approx(24)
    assert v["Win"] / FT_LBF == pytest.approx(20, rel=1e-4)
    assert "It halves the effort and doubles the rope." in page("pulley")


def test_k2_machines_save_force_or_distance_never_work() -> None:
    """Work in is load times height on every row, and more than that where something is lost."""
    v = values("same-work", R="36", h="2 ft", IMA_1="1", IMA_2="3", IMA_3="8")
    assert {round(v[f"Win_{i}"] / FT_LBF, 9) for i in (1, 2, 3)} == {72}
    worn = values("same-work", R="36", h="2 ft", eta="80", IMA_1="3")
    assert worn["Win_1"] / FT_LBF == pytest.approx(90)
    for name in ("any-machine", "lever", "wheel-and-axle"):
        assert "They save force or distance, never both." in page(name)


def test_k3_parts_of_rope_are_counted_and_not_pulleys() -> None:
    """Three sheaves carry three parts rove to disadvantage and four to advantage, where the hauling part counts."""
    down = values("tackle", R="36", n="3")
    up = values("tackle", choices={"rove": "advantage"}, R="36", n="4")
    assert (down["S"], down["IMA"], up["S"], up["IMA"]) == (3, 3, 3, 4)
    assert "Three pulleys can give three parts or four." in page("pulley")


def test_k4_a_wedge_is_length_over_total_thickness_and_the_slope_form_is_named() -> None:
    """Work: the load on each side goes half the thickness of a double wedge, two sides, so E ell = R t."""
    for kind in ("single", "double"):
        v = values("wedge", choices={"kind": kind}, R="500", ell="8", t="2")
        assert v["IMA"] == pytest.approx(8 / 2)
        assert v["E"] * v["ell"] == pytest.approx(v["R"] * v["t"])
    slope = values("wedge", choices={"kind": "double", "wedge": "slope"}, R="500", ell="8", t="2")
    assert slope["IMA"] == pytest.approx(math.hypot(8, 1) / 2)
    assert "Length divided by half the thickness." in page("wedge")


def test_k5_wedge_and_screw_stand_beside_their_friction() -> None:
    """The sheets with friction show the ideal effort beside the real one; a real one costs several times as much."""
    for key, given in (
        ("wedge-with-friction", {"R": "300", "ell": "9", "t": "1.5", "mu": "0.25"}),
        ("screw-with-friction", {"R": "800", "j": "1", "mu": "0.15", "r": "5", "mu_c": "0.12", "d_c": "1.1"}),
    ):
        answer = ask(key, **given)
        assert [column["view"] for column in answer["columns"]][:2] == ["ideal", "expected"]
        assert 0.10 < answer["values"]["eta"]["si"] < 0.40  # the list says 15 to 40 %
        assert "ideal" in answer["html"]["sentence"]
    assert "Why not quite" in page("wedge")
    assert "A screw loses most of the work." in page("screw")


def test_k6_with_a_handle_the_hand_s_circle_counts() -> None:
    """2 pi times 5 in over 1/6 in, not the thread's circumference over it."""
    v = values("screw", choices={"thread": "acme"}, R="100", d="3/4", p="6 TPI", j="1", r="5")
    assert v["IMA"] == pytest.approx(2 * math.pi * 5 * 6)
    assert v["IMA_t"] == pytest.approx(math.pi * (0.75 - 1 / 12) * 6)
    assert "The screw’s own circumference taken" in page("screw")


def test_k7_lead_is_starts_times_pitch() -> None:
    one, two = (values("screw", choices={"thread": "acme"}, d="1", p="5 TPI", j=j, r="3") for j in ("1", "2"))
    assert (one["l"] / INCH, two["l"] / INCH) == pytest.approx((0.2, 0.4))
    assert one["IMA"] == pytest.approx(2 * two["IMA"])


def test_k8_threads_per_inch_are_turned_over() -> None:
    """Eight threads to the inch are a pitch of 1/8 in; twice as many are half the pitch."""
    for tpi in (8, 16):
        v = values("screw", choices={"thread": "acme"}, d="1", p=f"{tpi} TPI", j="1", r="3")
        assert v["p"] / INCH == pytest.approx(1 / tpi)
    assert "Eight threads to the inch make a pitch of one eighth of an inch." in page("screw")


def test_k9_the_rope_s_thickness_belongs_to_the_drum() -> None:
    """Half a rope of 1/2 in on a drum of 6 in: radius 3.25 in, 8 % more than the bare 3 in."""
    v = values("windlass", R="130", r_c="15", D="6", t="1/2")
    assert v["r"] / INCH == pytest.approx(3.25)
    assert v["IMA"] == pytest.approx(15 / 3.25)
    assert 15 / 3 / v["IMA"] - 1 == pytest.approx(0.0833, abs=1e-4)
    assert "A diameter put where a radius belongs." in page("wheel-and-axle")


def test_k10_arms_are_square_to_the_force() -> None:
    """A load pulled at 70° to its arm of 1.5 in turns with 1.5 sin 70° = 1.410 in."""
    v = values("bent-lever", R="400", aR="1.5", psi_R="70", aE="12", psi_E="90")
    assert v["m_R"] / INCH == pytest.approx(1.5 * math.sin(math.radians(70)))
    assert "Arms start at the pivot, square to the force." in page("lever")


def test_k11_a_lever_with_the_effort_between_has_an_advantage_below_one() -> None:
    """It trades force for reach: 20 in over 54 in, and the load goes 2.7 times as far."""
    v = values("lever", choices={"class": "3"}, R="12", aR="54", aE="20")
    assert v["IMA"] == pytest.approx(20 / 54)
    assert v["dR"] / v["dE"] == pytest.approx(54 / 20)
    assert "It has one below one." in page("lever")


def test_k12_the_bar_s_own_weight_is_counted() -> None:
    """A bar of 20 lbf, its middle 24 in beyond the pivot, spares the hand 20 × 24/72 lbf = 6.67 lbf."""
    answer = ask("loaded-bar", B="96", w="20", x_f="24", x_E="96", F_1="150", x_1="0")
    assert answer["values"]["helps"]["si"] / LBF == pytest.approx(20 * 24 / 72)
    assert "n-selfhelp" in codes(answer)
    assert "The bar’s own weight left out." in page("lever")


def test_k13_scale_zero_block_and_cart_are_not_forgotten() -> None:
    """The moving block is lifted too. Efficiency counts the load alone: a cart keeps it below one without friction."""
    v = values("tackle", R="200", w="6", n="4")
    assert v["E"] / LBF == pytest.approx(206 / 4)
    cart = values("cart-ramp", R="50", w="25", L="96", h="24", C="0")
    assert cart["eta"] == pytest.approx(50 / 75)
    assert "efficiency here counts the load only" in page("more-ramps")
    assert "Zero the scale in the position in which you pull." in page("inclined-plane")


def test_k14_a_rolling_wheel_is_no_wheel_and_axle() -> None:
    assert "A wheel that only rolls under a cart is not this machine." in page("wheel-and-axle")


def test_k15_kilograms_are_no_force() -> None:
    """A box for a force refuses 10 kg, and says what it weighs: 10 × 9.80665 N."""
    answer = ask("lever", "si", R="10 kg", aR="150", aE="600")
    (error,) = answer["errors"]
    assert error["code"] == "e-massforce"
    assert "98.0665 N" in error["text"]
    assert "Mass is in kilograms, weight in newtons" in page("measures")


def test_k16_lb_is_a_force_here_and_the_tie_is_the_standard_gravity() -> None:
    """1 lbf is 0.45359237 kg × 9.80665 m/s², by the definitions of both."""
    v = values("lever", R="40 lb", aR="6", aE="24")
    assert v["R"] == pytest.approx(40 * 0.45359237 * 9.80665, rel=1e-12)


def test_k17_only_the_part_of_a_force_along_the_path_does_work() -> None:
    """30 lbf at 60° through 4 ft do 30 × 1/2 × 4 = 60 ft·lbf; square to the path there is no work at all."""
    v = values("work-and-power", F="30", d="4 ft", gamma="60")
    assert v["W"] / FT_LBF == pytest.approx(60)
    square = ask("work-and-power", F="30", d="4 ft", gamma="90")
    assert square["values"]["W"]["si"] == pytest.approx(0, abs=1e-9)
    assert "n-nowork" in codes(square)
    assert "It tires you, but nothing moves." in page("work-and-power")


def test_k18_a_pull_along_the_slope_has_slope_length_over_rise() -> None:
    """96/24 along; run over rise, sqrt(96² - 24²)/24, belongs to a level push."""
    along = values("ramp", R="120", h="24", L="96")
    level = values("ramp", choices={"pull": "level"}, R="120", h="24", L="96")
    assert along["IMA"] == pytest.approx(4)
    assert level["IMA"] == pytest.approx(math.sqrt(96**2 - 24**2) / 24)
    assert "Run over rise belongs to a level push." in page("inclined-plane")


def test_k19_friction_on_a_ramp_is_of_the_part_square_to_it() -> None:
    """mu times weight times the cosine; over the slope that is mu times weight times the run."""
    v = values("ramp", R="120", h="24", L="96", mu="0.30")
    run = math.sqrt(96**2 - 24**2)
    assert v["F_f"] / LBF == pytest.approx(0.3 * 120 * run / 96)
    assert v["Wlost"] / LBF / INCH == pytest.approx(0.3 * 120 * run)
    assert "Only the part of the weight square to the plank presses on it." in page("inclined-plane")


def test_k20_starting_and_moving_friction_are_two_and_no_table_value_is_true() -> None:
    start = values("ramp", choices={"motion": "start"}, R="120", h="24", L="96", mu="0.3", mu_s="0.5")
    moving = values("ramp", R="120", h="24", L="96", mu="0.3")
    assert start["E"] > moving["E"]
    for entry in tables.friction():
        assert all("measure your own" in note for note in entry.notes.values())
    assert "Published values differ by half. Measure your own." in page("inclined-plane")


def test_k21_friction_keeps_things_from_running_back() -> None:
    """A machine that holds by itself returns at most half the work: raising and holding lose the same friction."""
    held = ask("screw-with-friction", choices={"collar": "none"}, R="800", j="1", mu="0.15", r="5")
    assert "n-screwholds" in codes(held)
    assert held["values"]["eta"]["si"] <= 0.5
    assert "Friction is always bad." in page("inclined-plane")
    assert "Friction does a service too." in page("wedge")


def test_k22_an_efficiency_above_all_is_called_a_fault_of_measuring() -> None:
    """9 lbf where even an ideal lever takes 10: that cannot be, and it is said so at once."""
    answer = ask("lever", R="40", aR="6", aE="24", E="9")
    assert "n-over1" in codes(answer)
    assert "measurement problem" in answer["html"]["sentence"]
    typed = ask("lever", R="40", aR="6", aE="24", eta="120 %")
    assert codes(typed, "errors") == ["e-eff100"]


def test_k23_a_blow_is_no_steady_force() -> None:
    assert "A blow is energy, not a steady force" in page("wedge")
    assert "For a struck wedge use the shape numbers only." in page("wedge")


def test_k24_torque_gives_a_wide_band_of_clamp_force() -> None:
    """T = K F d with K 30 % either way: 12.5 lbf·ft on 3/8 in and K = 0.20 are 2000 lbf, from 1538 to 2857."""
    v = values("bolt-clamp", choices={"thread": "3/8-16-UNC"}, T="12.5 lbf·ft")
    assert [v[s] / LBF for s in ("F", "F_lo", "F_hi")] == pytest.approx([2000, 2000 / 1.3, 2000 / 0.7])
    oiled = values("bolt-clamp", choices={"thread": "3/8-16-UNC", "surface": "oiled"}, T="12.5 lbf·ft")
    assert oiled["F"] > v["F"]
    assert "somewhere from" in ask("bolt-clamp", T="12.5 lbf·ft")["html"]["sentence"]
    assert "Oil can turn a safe torque into a broken bolt." in page("screw")


def test_k25_gears_and_belts_are_wheels_and_axles_in_a_chain() -> None:
    """Their ratios multiply like any chain's: 48/12 and 45/15 make 12."""
    v = values("gears-and-belts", N_a_1="12", N_b_1="48", N_a_2="15", N_b_2="45")
    assert v["ratio"] == pytest.approx(12)
    assert "They are no seventh machine." in page("compound")


def test_k26_the_load_of_a_chain_hoist_hangs_on_two_parts() -> None:
    """In one turn the chain goes pi D, and half of pi (D - d) lifts: 2 × 10/(10 - 9) = 20, not 10."""
    v = values("chain-hoist", D="10", d="9")
    assert v["IMA"] == pytest.approx(20)
    assert v["dE"] / v["dR"] == pytest.approx(20)
    assert "A chain hoist’s load hangs on two parts." in page("pulley")


def test_k27_the_anchor_holds_load_block_and_pull() -> None:
    """200 lbf and a block of 6 lbf over 4 parts at 92 %: the pull of 63.2 lbf comes on top, 269 lbf in all."""
    v = values("tackle", R="200", w="6", n="4", k="92")
    assert v["A"] == pytest.approx(206 * LBF + v["E"])
    assert v["A"] / LBF == pytest.approx(269, abs=0.5)
    assert "Pulling down adds your pull to it." in page("pulley")


def test_k28_advantages_and_efficiencies_multiply() -> None:
    """A 4 at 80 % behind a 3 at 80 %: 12 at 64 %."""
    given = {"IMA_1": "4", "eta_1": "80", "IMA_2": "3", "eta_2": "80"}
    v = values("chain", choices={"preset": "own"}, R="120", **given)
    assert (v["IMA"], v["eta"]) == pytest.approx((12, 0.64))
    assert "Advantages added." in page("compound")
    assert "Efficiencies averaged." in page("compound")


def test_k29_an_answer_carries_no_more_figures_than_its_readings() -> None:
    """Readings of 12.6 ± 0.4 and 36 ± 0.4 lbf: R/E is 2.86, and its doubt comes from both, by relative squares."""
    answer = ask("ramp", R="36 ± 0.4 lbf", E="12.6 ± 0.4 lbf", L="96", h="24")
    doubt = 36 / 12.6 * math.hypot(0.4 / 36, 0.4 / 12.6)  # 0.0961
    assert answer["values"]["AMA"]["u"] * 2 == pytest.approx(doubt, rel=1e-9)
    assert answer["values"]["AMA"]["text"] == "2.857 ± 0.096"
    assert ask("lever", R="40", aR="7", aE="24")["values"]["E"]["text"] == "11.67 lbf"  # 11.6666…, not all of it


def test_k30_more_pulleys_do_not_always_help() -> None:
    """The shares 0.8 + 0.8² + … stay below 0.8/(1 - 0.8) = 4, and to advantage below 1/(1 - 0.8) = 5."""
    for rove, limit in (("disadvantage", 4), ("advantage", 5)):
        found = [
            values("tackle", choices={"rove": rove}, R="100", n=str(n), k="80")["AMA"] for n in (2, 4, 6, 8, 10, 12)
        ]
        assert found == sorted(found)
        assert found[-1] < limit
    never = ask("tackle", R="200", w="6", E="40", k="80")
    assert codes(never, "errors") == ["e-neverparts"]
    assert "at last more parts help no more" in page("pulley")


def test_k31_six_machines_are_a_school_grouping_of_two_ideas() -> None:
    """The lever's law and the slope's: a wheel's radii act as arms, a screw's thread as a ramp pushed level."""
    wheel = values("wheel-and-axle", R="24", r_w="9", r_a="1.5")
    lever = values("lever", R="24", aR="1.5", aE="9")
    assert wheel["E"] == pytest.approx(lever["E"])
    screw = values("screw", choices={"thread": "square"}, R="100", d_m="1", p="0.1 in", j="1", r="1/2")
    ramp = values("ramp", choices={"pull": "level"}, R="100", b=f"{math.pi} in", h="0.1 in")
    assert screw["E"] == pytest.approx(ramp["E"])
    assert "a school grouping of two ideas" in page("any-machine")


def test_every_point_of_the_list_has_its_test() -> None:
    names = [name for name in globals() if re.match(r"test_k\d+_", name)]
    assert sorted(int(name.split("_")[1][1:]) for name in names) == list(range(1, 32))
