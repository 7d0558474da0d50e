"""What a sheet's readings say together: the reference calculations, the scale's position, the verdicts."""

import json
import math
import re
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import calc
from calc.lab.scale import POSITIONS, Instruments, hook_share, in_good_range, of_reading
from tests.lab.sheets import INCH, J35, J47, LBF, RAMP, codes, doubled, record, rows

J = json.loads((Path(__file__).parents[2] / "shared/checks/reference_calculations.json").read_text("utf-8"))
VERDICTS = {"v-over": "problem", "v-none": "none", "v-normal": "loss", "v-low": "loss"}


@pytest.mark.parametrize(("name", "readings"), [("J35", J35), ("J47", J47)])
def test_the_reference_sheets(name: str, readings: dict[str, tuple[str, ...]]) -> None:
    """J35 and J47: half a division over root 3 with s over root n, both ways of the reference calculations."""
    answer = record(given=rows(**readings), once=RAMP)
    wanted = J[name]
    for symbol, label, times in (("AMA", "AMA", 1), ("IMA", "IMA", 1), ("eta", "eff [%]", 100)):
        u = f"U({label.split()[0]}) k=2" + (" [%]" if symbol == "eta" else "")
        assert doubled(answer, symbol, times) == pytest.approx([wanted[label], wanted[u]], rel=1e-5)
    assert codes(answer) == ["v-normal"]


def test_the_hook_counts_by_its_position() -> None:
    """J38 and J48: 0.30 lbf of hook and rod, zeroed hanging; on a 24 in high, 96 in long ramp."""
    level, up = (10 - hook_share(position) * 0.3 for position in ("level", "up"))
    assert [level, up] == pytest.approx([J["J38"]["reads level [lbf]"], J["J38"]["reads hook-up [lbf]"]], rel=1e-6)
    shares = [hook_share("slope", math.asin(24 / 96)), hook_share("level"), hook_share("up")]
    assert [0.3 * share for share in shares] == pytest.approx([*J["J48"].values()], rel=1e-6)
    assert hook_share("use") == hook_share("down") == 0
    with pytest.raises(ValueError, match="not known"):
        hook_share("slope")


@pytest.mark.parametrize(
    ("position", "added"), [("use", 0), ("down", 0), ("level", 0.3), ("up", 0.6), ("slope", 0.225)]
)
def test_the_sheet_adds_the_hook_to_the_pull_and_not_to_the_load(position: str, added: float) -> None:
    answer = record(given=rows(R=("36",) * 3, E=("12.5",) * 3), tools={"hook": "0.3", "position": position})
    assert answer["values"]["AMA"]["si"] == pytest.approx(36 / (12.5 + added), rel=1e-6)
    assert ("hook and rod is added" in answer["html"]["verdict"]) == (added > 0)


def test_a_slope_that_is_not_known_is_said_and_nothing_is_added() -> None:
    answer = record("lever-lab", tools={"hook": "0.3", "position": "slope"})
    (problem,) = answer["errors"]
    assert (problem["at"], problem["name"]) == ("tools", "position")
    assert answer["values"]["AMA"] == record("lever-lab")["values"]["AMA"]
    assert "hook and rod is added" not in answer["html"]["verdict"]


def test_what_holds_the_empty_bar_is_added_to_each_pull() -> None:
    given = rows(R=("40",) * 3, E=("8",) * 3)
    assert record("lever-lab", given, tare="2")["values"]["AMA"]["si"] == pytest.approx(40 / 10, rel=1e-6)
    wrong = record("lever-lab", given, tare="-2")
    assert [error["name"] for error in wrong["errors"]] == ["tare"]
    assert record("ramp-lab", tare="2")["values"] == record("ramp-lab")["values"]  # other labs have no such box


def test_a_scale_in_kilograms_gives_the_same_machine() -> None:
    """One kilogram-force is 9.80665 N, one pound-force 4.4482216152605 N (NIST SP 811, B.8): recalled."""
    pounds = [{"R": "36", "E": "12.5"}] * 3
    factor = 4.4482216152605 / 9.80665
    tools = {"unit": "kg", "division": f"{0.5 * factor:.9f}", "capacity": "23"}
    kilograms = [{"R": f"{36 * factor:.6f}", "E": f"{12.5 * factor:.6f}"}] * 3
    as_pounds, as_kilograms = record(given=pounds), record(given=kilograms, tools=tools)
    for symbol in ("AMA", "eta", "Win", "Wout"):
        assert doubled(as_kilograms, symbol) == pytest.approx(doubled(as_pounds, symbol), rel=1e-5)
    assert "standard gravity" in as_kilograms["html"]["verdict"]
    grams = [{symbol: f"{float(text) * 1000:.3f}" for symbol, text in row.items()} for row in kilograms]
    tools = {"unit": "g", "division": f"{500 * factor:.6f}", "capacity": "23000"}
    assert doubled(record(given=grams, tools=tools), "AMA") == pytest.approx(doubled(as_pounds, "AMA"), rel=1e-5)


def test_a_quotient_carries_doubt_as_its_partial_derivatives_say() -> None:
    """V52: dy/dx by a small step each, on the sheet's own means, to 1e-6."""
    lengths, force = {"L": 96.0, "h": 24.0}, {"R": 36.0, "E": 12.6}

    def efficiency(**at: float) -> float:
        v = {**lengths, **force, **at}
        return v["R"] * v["h"] / (v["E"] * v["L"])

    answer = record(given=rows(R=("36",) * 5, E=("12.5", "12.5", "13", "12.5", "12.5")), once=RAMP)
    tools = Instruments()
    s2 = sum((x - 12.6) ** 2 for x in (12.5, 12.5, 13, 12.5, 12.5)) / 4
    u = dict.fromkeys(lengths, of_reading("length", tools) / INCH)
    u |= {"R": of_reading("force", tools) / LBF, "E": math.hypot(of_reading("force", tools) / LBF, math.sqrt(s2 / 5))}
    step = 1e-4
    parts = [
        u[x] * (efficiency(**{x: at + step}) - efficiency(**{x: at - step})) / (2 * step)
        for x, at in {**lengths, **force}.items()
    ]
    assert answer["values"]["eta"]["u"] == pytest.approx(math.hypot(*parts), rel=1e-6)


@given(st.floats(0.2, 20))
@settings(max_examples=25)
def test_a_scale_that_reads_everything_alike_wrong_gives_the_same_advantage(times: float) -> None:
    """V52: AMA unchanged by a common scale factor."""
    scaled = [{s: f"{float(t) * times:.6f}" for s, t in row.items()} for row in rows(**J47)]
    tools = {"division": f"{0.5 * times:.6f}", "capacity": f"{50 * times:.6f}"}
    assert doubled(record(given=scaled, tools=tools), "AMA") == pytest.approx(doubled(record(), "AMA"), rel=1e-4)


EFFORTS = st.lists(st.integers(10, 240).map(lambda eighths: eighths / 8), min_size=3, max_size=7)


@given(EFFORTS, st.sampled_from(["0.05", "0.1", "0.5", "1", "2"]))
@settings(max_examples=60)
def test_a_sheet_has_exactly_one_verdict(efforts: list[float], division: str) -> None:
    """V54."""
    answer = record(given=[{"R": "36", "E": f"{e}"} for e in efforts], tools={"division": division})
    assume(sum(row["state"] != "impossible" for row in answer["rows"]) not in (1, 2))
    assert len([code for code in codes(answer) if code in VERDICTS]) == 1


@given(st.lists(st.sampled_from(["8", "8.5", "9", "9.5", "10", "12"]), min_size=3, max_size=6), st.floats(1, 8))
@settings(max_examples=60)
def test_more_doubt_never_makes_a_problem_of_no_loss(efforts: list[str], times: float) -> None:
    """V54."""
    given = [{"R": "36", "E": text} for text in efforts]
    fine, coarse = (record(given=given, tools={"division": f"{0.5 * k:.6f}"}) for k in (1, times))
    assert not ("v-none" in codes(fine) and "v-over" in codes(coarse))


def test_fewer_than_three_trials_have_no_verdict() -> None:
    for count in (1, 2):
        assert codes(record(given=rows(**J47)[:count])) == ["v-repeat"]
    assert codes(record(given=rows(**J47)[:3])) == ["v-normal", "v-few"]


def test_more_out_than_in_is_a_problem_with_its_causes_and_is_struck_out() -> None:
    answer = record(given=rows(R=("36",) * 5, E=("8",) * 5))
    assert codes(answer)[0] == "v-over"
    assert answer["html"]["verdict"].count("<li>") >= 5
    assert re.search(r"<s>[^<]*%</s>.*not possible", answer["html"]["results"])
    assert {row["state"] for row in answer["rows"]} == {"impossible"}


def test_an_impossible_row_is_named_and_not_in_the_means() -> None:
    good = rows(R=("36",) * 4, E=("12.5", "13", "12.5", "12.5"))
    answer = record(given=[*good, {"R": "36", "E": "5"}])
    assert answer["values"] == record(given=good)["values"]
    assert "v-row" in codes(answer)
    assert answer["rows"][4]["mark"] == "not possible: re-measure"
    assert "n = 4" in answer["html"]["results"]


def test_no_loss_is_what_an_ideal_machine_shows() -> None:
    assert codes(record(given=rows(R=("36",) * 5, E=("9",) * 5))) == ["v-none"]


def test_little_work_arriving_is_asked_about_except_where_it_is_usual() -> None:
    poor = rows(R=("36",) * 5, E=("46",) * 5)
    assert codes(record(given=poor))[0] == "v-low"
    assert "v-low" not in codes(record("wedge-lab", rows(R=("20",) * 5, E=("20",) * 5)))


def test_a_far_reading_is_named_and_still_counts() -> None:
    answer = record(given=rows(R=("36",) * 5, E=("12.5", "12.5", "13", "12.5", "18")))
    assert "v-odd" in codes(answer)
    assert answer["rows"][4]["state"] == "odd"
    assert answer["values"]["AMA"]["si"] == pytest.approx(36 / ((12.5 * 3 + 13 + 18) / 5), rel=1e-6)


@pytest.mark.parametrize(
    ("effort", "said"), [("4.5", "v-small"), ("5", None), ("40", None), ("40.5", "v-near"), ("12", None)]
)
def test_a_scale_is_read_from_a_tenth_to_four_fifths(effort: str, said: str | None) -> None:
    load = str(2 * float(effort))
    assert {"v-small", "v-near"} & set(codes(record(given=rows(R=(load,) * 3, E=(effort,) * 3)))) == {said} - {None}
    assert in_good_range(1.0, Instruments(capacity=0)) == ""


def test_a_load_weighed_once_stands_for_the_rows_below() -> None:
    once = rows(R=("36", "", "", "", ""), E=J47["E"])
    assert record(given=once)["values"]["AMA"]["si"] == pytest.approx(36 / 12.6, rel=1e-6)
    left_out = [{**once[0], "out": True}, *once[1:]]
    assert record(given=left_out)["values"]["AMA"]["si"] == pytest.approx(36 / (50.5 / 4), rel=1e-6)


def test_a_row_left_out_is_said_and_does_not_count() -> None:
    given = rows(**J47)
    given[2]["out"] = True
    answer = record(given=given)
    assert answer["rows"][2]["state"] == "out"
    assert "Left out by you: row 3." in answer["html"]["verdict"]
    assert answer["values"] == record(given=given[:2] + given[3:])["values"]


def test_a_row_without_an_effort_waits() -> None:
    answer = record(given=[*rows(**J47), {"R": "36"}, {"note": "rain"}])
    assert [row["state"] for row in answer["rows"]][5:] == ["waiting", "waiting"]
    assert "not counted: row 6." in answer["html"]["verdict"]


@pytest.mark.parametrize("lab", [key for key in calc.labs() if key != "any-lab"])
def test_without_its_sizes_a_machine_is_not_judged(lab: str) -> None:
    """An effort alone must never be taken for an ideal one."""
    sample = calc.sample_record(lab)
    for kept in ({}, dict(list(sample["once"].items())[1:])):
        answer = record(lab, once=kept)
        if "IMA" in answer["values"]:  # the block's weight, left empty, changes no ideal advantage
            continue
        assert codes(answer)[0] == "v-sizes"
        assert not {"impossible", "odd"} & {row["state"] for row in answer["rows"]}
        assert all(row["eta"] == "" for row in answer["rows"])
    assert codes(record(lab, once={}))[0] == "v-sizes"


def test_several_loads_are_told_by_their_line() -> None:
    """By hand: E = 2 lbf + 0.3 R exactly, so b = 0.3 and a = 2 (the law of a machine)."""
    loads = ("20", "40", "60", "80", "100")
    answer = record(given=rows(R=loads, E=tuple(f"{2 + 0.3 * float(r)}" for r in loads)), draw="wide")
    assert codes(answer)[0] == "v-law"
    assert "AMA" not in answer["values"]
    assert "law_wide" in answer["html"]
    told = dict(re.findall(r'<th scope="row">([^<]*)</th><td>([^ ]*) ±', answer["html"]["results"]))
    assert [round(float(told[f"Effort {what}"]), 2) for what in ("with no load", "for each unit of load")] == [2, 0.3]
    eta = re.search(r"efficiency of ([\d.]+) ±", answer["html"]["verdict"])
    assert float(eta[1]) == pytest.approx(100 / (0.3 * 4), abs=0.06)
    assert all(row["ama"] and row["eta"] for row in answer["rows"])
    over = record(given=rows(R=loads, E=tuple(f"{0.2 * float(r)}" for r in loads)))
    assert codes(over)[0] == "v-over"
    assert {row["state"] for row in over["rows"]} == {"impossible"}


def test_paths_that_belie_the_sizes_are_named() -> None:
    given = rows(R=("30",) * 3, E=("12.5",) * 3, dR=("12",) * 3, dE=("24",) * 3)
    assert "v-paths" in codes(record("pulley-lab", given))
    given = rows(R=("30",) * 3, E=("12.5",) * 3, dR=("12",) * 3, dE=("36",) * 3)
    assert "v-paths" not in codes(record("pulley-lab", given))


@pytest.mark.parametrize("lab", calc.labs())
@pytest.mark.parametrize("units", ["us", "si"])
def test_the_invented_readings_of_a_sheet_are_a_good_sheet(lab: str, units: str) -> None:
    answer = record(lab, units=units, draw="both")
    assert answer["errors"] == answer["cells"] == []
    assert "v-over" not in codes(answer)
    assert 0 < answer["values"]["eta"]["si"] <= 1.0
    assert all(row["state"] in ("trial", "odd") for row in answer["rows"])


@pytest.mark.parametrize("lab", calc.labs())
@pytest.mark.parametrize("position", POSITIONS)
def test_every_lab_takes_every_position(lab: str, position: str) -> None:
    assert record(lab, tools={"position": position, "hook": "0.2"})["record"] == lab
