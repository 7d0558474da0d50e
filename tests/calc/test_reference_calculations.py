"""Section J of the specification: each was computed by two independent routes that agree (not a published source)."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest

from calc.figures import significant
from tests.calc.asking import FT_LBF, INCH, LBF, ask, values

J = json.loads((Path(__file__).parents[2] / "shared" / "checks" / "reference_calculations.json").read_text("utf-8"))


def six(*found: float) -> list[float]:
    """The values to the six figures that the table prints."""
    return [float(significant(value, 6)) for value in found]


def test_the_table_is_the_one_that_these_checks_quote() -> None:
    text = json.dumps(J)
    assert all(name in text for name in ("J02", "J03", "J06", "J08", "J17", "J18", "J19", "J20", "J21", "J22", "J49"))


def test_j02_rain_barrel_stand_any_machine() -> None:
    v = values("any-machine", R="180", dR="18", E="45", dE="96")
    assert six(v["IMA"], v["AMA"], v["eta"]) == [5.33333, 4, 0.75]
    assert six(v["Win"] / FT_LBF, v["Wout"] / FT_LBF, v["Wlost"] / FT_LBF) == [360, 270, 90]


def test_j03_pry_bar() -> None:
    v = values("lever", R="240", aR="6", aE="48")
    assert six(v["E"] / LBF, v["IMA"], v["N"] / LBF) == [30, 8, 270]


def test_j06_shovel() -> None:
    v = values("lever", choices={"class": "3"}, R="12", aR="54", aE="20")
    assert six(v["E"] / LBF, v["IMA"], v["N"] / LBF) == [32.4, 0.37037, 20.4]


def test_j08_pin_friction() -> None:
    v = values("lever", R="240", aR="6", aE="48", r_p="1/4", mu="0.20")
    assert six(v["E"] / LBF, v["eta"] * 100) == [30.2761, 99.0882]


def test_j17_ideal_ramp() -> None:
    v = values("ramp", R="120", h="24", L="96")
    assert six(v["E"] / LBF, v["IMA"], math.degrees(v["theta"]), v["b"] / INCH) == [30, 4, 14.4775, 92.9516]


def test_j18_sliding_crate() -> None:
    v = values("ramp", R="120", h="24", L="96", mu="0.30")
    assert six(v["E"] / LBF, v["N"] / LBF, v["AMA"], v["eta"] * 100, v["Wlost"] / FT_LBF) == [
        64.8569,
        116.19,
        1.85023,
        46.2557,
        278.855,
    ]


def test_j19_level_push() -> None:
    v = values("ramp", choices={"pull": "level"}, R="120", h="24", L="96", mu="0.30")
    assert six(v["E"] / LBF, v["IMA"], v["eta"] * 100) == [72.6081, 3.87298, 42.6728]


def test_j20_hold_and_ease_down() -> None:
    held = values("ramp", choices={"motion": "hold"}, R="120", theta="20", L="96", mu_s="0.35")
    assert six(held["E"] / LBF, math.degrees(held["phi"])) == [1.57533, 19.29]
    stays = values("ramp", choices={"motion": "hold"}, R="120", theta="20", L="96", mu_s="0.40")
    assert stays["E"] == 0
    assert six(math.degrees(stays["phi"])) == [21.8014]


def test_j21_rope_above_the_ramp() -> None:
    v = values("ramp", choices={"pull": "angled"}, R="120", h="24", L="96", mu="0.30", delta="20")
    assert six(v["E"] / LBF) == [62.2248]
    best = values("ramp", choices={"pull": "angled"}, R="120", h="24", L="96", mu="0.30", delta="16.6992")
    assert six(best["E"] / LBF) == [62.1216]


def test_j22_shortest_ramp_for_a_pull_limit() -> None:
    for limit, length in (("50", 92.0958), ("40", 128.008)):
        v = values("ramp", R="140", h="24", mu="0.10", E=limit)
        assert six(v["L"] / INCH) == [length]


def test_j39_same_work() -> None:
    v = values("same-work", R="120", h="2", IMA_1="1", IMA_2="2", IMA_3="4", IMA_4="8")
    assert six(*(v[f"E_{i}"] / LBF for i in (1, 2, 3, 4))) == [120, 60, 30, 15]
    assert six(*(v[f"Win_{i}"] / FT_LBF for i in (1, 2, 3, 4))) == [240] * 4
    assert six(v["dE_4"] / 12 / INCH) == [16]
    worn = values("same-work", R="120", h="2", eta="75", IMA_1="4")
    assert six(worn["E_1"] / LBF, worn["Win_1"] / FT_LBF) == [40, 320]


def test_j41_the_si_twin_of_j18() -> None:
    v = values("ramp", "si", R="533.787", h="0.6096", L="2.4384", mu="0.30")
    assert six(v["E"], v["Win"]) == [288.498, 703.473]


def test_j49_hold_on_a_ramp() -> None:
    v = values("ramp", choices={"motion": "hold"}, R="120", theta="20", L="96", mu_s="0.20")
    assert six(v["E"] / LBF) == [18.4898]
    v = values(
        "ramp", choices={"motion": "hold", "pull": "angled"}, R="120", theta="20", L="96", mu_s="0.20", delta="30"
    )
    assert six(v["E"] / LBF) == [24.1373]


def test_j47_the_sample_sheet_carries_its_doubt() -> None:
    """Mean of five trials; half a division over root 3 and s over root n combined, typed as ± (k = 2)."""

    def reading(trials: list[float], division: float) -> str:
        mean = sum(trials) / len(trials)
        s2 = sum((x - mean) ** 2 for x in trials) / (len(trials) - 1)
        return f"{mean!r} ± {2 * math.sqrt(s2 / len(trials) + (division / 2) ** 2 / 3)!r}"

    tape = 2 * (1 / 16) / math.sqrt(3)
    answer = ask(
        "ramp",
        R=reading([36, 36.5, 36, 35.5, 36], 0.5)[:40],
        E=reading([12.5, 13, 12.5, 12, 13], 0.5)[:40],
        L=f"96 ± {tape:.10f}",
        h=f"24 ± {tape:.10f}",
    )
    got = answer["values"]
    assert [got["AMA"]["si"], 2 * got["AMA"]["u"]] == pytest.approx([2.85714, 0.112420], rel=1e-5)
    assert [got["IMA"]["si"], 2 * got["IMA"]["u"]] == pytest.approx([4, 0.0123983], rel=1e-5)
    assert [got["eta"]["si"] * 100, 200 * got["eta"]["u"]] == pytest.approx([71.4286, 2.81922], rel=1e-5)
    assert got["AMA"]["text"] == "2.86 ± 0.11"
    assert got["eta"]["text"] == "71.4 ± 2.8 %"


# Screws and bolts.


def vise(**more: str) -> dict[str, float]:
    """The shop vise of J27 and J28: 3/4-6 Acme with a collar."""
    return values("screw-with-friction", R="800", j="1", mu="0.15", r="5", **more)


def test_j27_shop_vise() -> None:
    v = vise(mu_c="0.12", d_c="1.1")
    assert six(math.degrees(v["lam"]), v["T"] / LBF / INCH, v["E"] / LBF) == [4.54987, 116.109, 23.2218]
    assert six(v["IMA"], v["AMA"], v["eta"] * 100) == [188.496, 34.4504, 18.2765]


def test_j28_the_vise_loosened_under_load() -> None:
    v = vise(mu_c="0.12", d_c="1.1")
    assert six(v["T_down"] / LBF / INCH) == [72.6426]
    alone = values("screw-with-friction", choices={"collar": "none"}, R="800", j="1", mu="0.15", r="5")
    assert six(alone["T_down"] / LBF / INCH) == [19.8426]
    assert v["T_hold"] == alone["T_hold"] == 0


def test_j29_two_starts_run_back() -> None:
    v = values("screw-with-friction", choices={"collar": "none"}, R="400", d="1", p="5 TPI", j="2", mu="0.08", r="3")
    assert six(v["T"] / LBF / INCH, -v["T_hold"] / LBF / INCH, v["eta"] * 100) == [40.8061, -10.4778, 62.4043]
    assert v["T_down"] == 0


def test_j30_square_thread() -> None:
    v = values(
        "screw-with-friction",
        "si",
        {"thread": "square", "collar": "none"},
        R="5 kN",
        d="24 mm",
        p="5 mm",
        j="1",
        mu="0.10",
        r="100 mm",
    )
    assert six(v["T"], v["eta"] * 100, v["T_down"]) == [9.42363, 42.2223, 1.38587]


def test_j31_bolt() -> None:
    v = values("bolt-clamp", d="3/8", p="16 TPI", K="0.20", F="2000")
    assert six(v["T"] / LBF / INCH, v["T"] / FT_LBF) == [150, 12.5]
    v = values("bolt-clamp", choices={"surface": "friction"}, d="3/8", p="16", mu="0.15", mu_c="0.15", d_c="0.46875")
    assert six(v["K"], v["s_c"] * 100) == [0.198549, 13.3599]


def test_j32_three_thread_forms() -> None:
    efficiencies = [
        values(
            "screw-with-friction",
            choices={"thread": form, "collar": "none"},
            R="800",
            d_m="0.6666666666667",
            p="6 TPI",
            j="1",
            mu="0.15",
            r="5",
        )["eta"]
        for form in ("square", "acme", "vee")
    ]
    assert six(*(100 * eta for eta in efficiencies)) == [34.2488, 33.5192, 31.0638]


def test_j45_wrap_test() -> None:
    v = values("wrap-test", B="11", H="2", d="1")
    assert six(v["turns"], v["p"] / INCH, math.degrees(v["lam"])) == [3.50141, 0.571199, 10.3048]


def test_j09_windlass() -> None:
    v = values("windlass", R="130", r_c="15", D="6", t="1/2", h="10 ft", eta="85")
    assert six(v["IMA"], v["E"] / LBF, v["turns"], v["s"] / 12 / INCH, v["Win"] / FT_LBF) == [
        4.61538,
        33.1373,
        5.87649,
        46.1538,
        1529.41,
    ]


def test_j10_journal_friction() -> None:
    v = values("journal-friction", R="130", r_c="15", D="6", t="1/2", r_j="1/2", mu="0.15", w="18")
    assert six(v["E"] / LBF, v["eta"] * 100) == [29.0421, 96.9857]


def test_j11_two_gear_pairs() -> None:
    teeth = {"N_a_1": "12", "N_b_1": "48", "N_a_2": "15", "N_b_2": "45"}
    v = values("gears-and-belts", **teeth, eta_1="95", eta_2="95", T_in="20", rpm_in="360")
    assert six(v["ratio"], v["T_out"] / LBF / INCH, v["rpm_out"] * 30 / math.pi) == [12, 216.6, 30]


# Pulleys.


def test_j12_movable_pulley_on_leaning_parts() -> None:
    v = values("single-pulley", choices={"kind": "leaning"}, R="80", w="4", beta="25")
    assert six(v["E"] / LBF, v["IMA"]) == [46.3419, 1.81262]


def test_j13_tackle_to_disadvantage() -> None:
    v = values("tackle", R="200", w="6", n="4", k="92")
    assert six(v["S"], v["IMA"], v["E"] / LBF) == [4, 4, 63.1615]
    assert six(v["AMA"], v["eta"] * 100, v["A"] / LBF) == [3.16649, 79.1622, 269.161]


def test_j14_tackle_to_advantage() -> None:
    v = values("tackle", choices={"rove": "advantage"}, R="200", w="6", n="5", k="90")
    assert six(v["S"], v["IMA"], v["E"] / LBF) == [4, 5, 50.304]
    assert six(v["AMA"], v["eta"] * 100, v["A"] / LBF) == [3.97583, 79.5165, 155.696]


def test_j15_lowering_the_tackle() -> None:
    assert six(values("tackle", R="200", w="6", n="4", k="92")["E_down"] / LBF) == [41.6286]


def test_j42_fewest_parts_under_forty_pounds() -> None:
    load = {"R": "200", "w": "6", "E": "40"}
    assert values("tackle", **load)["n"] == 6
    assert values("tackle", **load, k="92")["n"] == 8
    assert values("tackle", choices={"rove": "advantage"}, **load, k="92")["n"] == 7
    never = ask("tackle", **load, k="80")
    assert [error["code"] for error in never["errors"]] == ["e-neverparts"]
    assert "51.5 lbf" in never["errors"][0]["text"]


def test_j16_chain_hoist() -> None:
    v = values("chain-hoist", D="10", d="9", R="300", eta="40")
    assert six(v["IMA"], v["E"] / LBF, v["dR"] / INCH) == [20, 37.5, 1.5708]


def test_j40_rope_for_the_tackle() -> None:
    v = values("tackle-rope", n="4", h="72", gap="12", D_s="2.5", tail="60")
    assert six(v["L"] / INCH, v["dE"] / INCH) == [411.708, 288]
    assert v["S"] == 4


def test_j44_k_of_a_fixed_pulley() -> None:
    v = values("single-pulley", choices={"kind": "fixed"}, E="21.7", E_down="18.4")
    assert six(v["k"], v["R"] / LBF) == [0.920829, 19.982]


# Inclined plane beside its first calculator, and wedge.


def test_j17_the_shape_of_the_ramp() -> None:
    v = values("ramp-shape", L="96", h="24")
    assert six(v["IMA"], math.degrees(v["theta"]), v["b"] / INCH) == [4, 14.4775, 92.9516]


def test_j20_the_slip_angle_by_tilting() -> None:
    for mu, angle in (("0.35", 19.29), ("0.40", 21.8014)):
        assert six(math.degrees(values("tilt-test", mu_s=mu, b="60")["theta"])) == [angle]


def test_j22_shortest_ramp() -> None:
    for limit, length in (("50", 92.0958), ("40", 128.008)):
        assert six(values("shortest-ramp", R="140", h="24", mu="0.10", E_max=limit)["L"] / INCH) == [length]


def test_j23_cart_over_a_sheave() -> None:
    v = values("cart-ramp", choices={"rope": "sheave"}, R="120", w="25", theta="15", L="96", C="0.04", k="92")
    assert six(v["E_1"] / LBF, v["E"] / LBF, v["eta"] * 100) == [43.1311, 46.8817, 66.2483]


def test_j24_levelling_wedge() -> None:
    v = values("wedge-with-friction", R="300", ell="9", t="1.5", mu="0.25")
    found = six(v["IMA"], v["E"] / LBF, v["AMA"], v["eta"] * 100, v["E_out"] / LBF)
    assert found == [6, 205.435, 1.46032, 24.3386, 99]


def test_j25_splitting_wedge() -> None:
    answer = ask("wedge-with-friction", choices={"kind": "double"}, R="500", ell="8", t="2", mu="0.20")
    v = {symbol: entry["si"] for symbol, entry in answer["values"].items()}
    assert six(v["IMA"], v["E"] / LBF, v["AMA"], v["eta"] * 100) == [4, 333.333, 1.5, 37.5]
    assert any(note["code"] == "n-stays-in" for note in answer["notes"])


def test_j26_two_conventions() -> None:
    single = values("wedge", R="300", ell="9", t="1.5")
    double = values("wedge", choices={"kind": "double"}, R="500", ell="8", t="2")
    assert six(single["IMA_w"], single["IMA_s"], double["IMA_w"], double["IMA_s"]) == [6, 6.08276, 4, 4.03113]


def test_j46_the_splitting_wedge_in_the_slope_convention() -> None:
    choices = {"kind": "double", "wedge": "slope"}
    v = values("wedge-with-friction", choices=choices, R="500", ell="8", t="2", mu="0.20")
    expected = [4.03113, 516.811, 1.55043, 38.4615]
    assert six(v["IMA"], v["N"] / LBF, v["AMA"], v["eta"] * 100) == expected
    measured = values("wedge", choices=choices, R="500", ell="8", t="2", E=f"{1000 / 3!r}")
    assert six(measured["IMA"], measured["N"] / LBF, measured["AMA"], measured["eta"] * 100) == expected


# The lever's family, the compound machine, work and power, measures.


def test_j01_unit_facts() -> None:
    force = values("measures", choices={"of": "force"}, F_lbf="50")
    assert six(force["F_N"]) == [222.411]
    assert six(values("measures", choices={"of": "work"}, W_ft="1")["W_J"]) == [1.35582]
    assert six(values("measures", choices={"of": "power"}, P_hp="1")["P_W"]) == [745.7]
    assert six(values("measures", L_in="5 ft 3-1/2 in")["L_m"]) == [1.6129]
    assert six(values("measures", choices={"of": "force"}, F_kgf="10")["F_lbf"] / LBF) == [22.0462]


def test_j04_plank_with_two_loads() -> None:
    v = values("loaded-bar", B="96", w="20", x_f="24", x_E="96", F_1="150", x_1="0", F_2="60", x_2="12")
    assert six(v["E"] / LBF, v["N"] / LBF) == [53.3333, 283.333]


def test_j05_garden_barrow() -> None:
    v = values("loaded-bar", choices={"direction": "up"}, w="30", x_c="24", x_f="0", x_E="52", F_1="160", x_1="20")
    assert six(v["E"] / LBF, v["N"] / LBF) == [75.3846, 114.615]
    assert six(values("lever", choices={"class": "2"}, R="160", aR="20", aE="52")["IMA"]) == [2.6]


def test_j07_claw_hammer() -> None:
    v = values("bent-lever", R="400", aR="1.5", psi_R="70", aE="12", psi_E="90")
    assert six(v["E"] / LBF, v["IMA"]) == [46.9846, 8.51342]


def test_j08_again_where_the_pin_stands_first() -> None:
    v = values("pin-friction", R="240", aR="6", aE="48", r_p="1/4", mu="0.20")
    assert six(v["E"] / LBF, v["eta"] * 100) == [30.2761, 99.0882]


def test_j33_windlass_hauling_a_tackle() -> None:
    """Crank 15 in on 3.25 in at 85 %; three parts to advantage, each sheave passing on 0.92."""
    tackle = (1 + 0.92 + 0.92**2) / 3
    stages = {"IMA_1": repr(15 / 3.25), "eta_1": "85 %", "IMA_2": "3", "eta_2": f"{tackle * 100!r} %"}
    v = values("chain", choices={"preset": "own"}, R="300", **stages)
    assert six(v["IMA"], v["AMA"], v["eta"] * 100, v["E"] / LBF) == [13.8462, 10.8528, 78.3813, 27.6426]


def test_j34_power() -> None:
    v = values("work-and-power", F="180", d="3 ft", gamma="0", t="6")
    assert six(v["P"] / FT_LBF, v["P_hp"] / (550 * FT_LBF), v["P_W"]) == [90, 0.163636, 122.024]
