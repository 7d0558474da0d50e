"""The table: ratios, bars, verdicts, and the same as JSON."""

import json

import pytest

from build_tools import command_line
from build_tools.bench.figures import Bar, Figure, as_data, as_table
from build_tools.commands import bench

FAST = Figure("first answer", "ms", 400.0, 3200.0, Bar(0.25))
SLOW = Figure("typing", "ms", 51.0, None, Bar(50, "ours"))
PLAIN = Figure("engine", "kB", 0.335)
UNKNOWN = Figure("memory", "MB", None, None, Bar(1.0))


def test_a_ratio_is_ours_by_the_baseline():
    assert FAST.ratio == pytest.approx(1 / 8)
    assert SLOW.ratio is None


@pytest.mark.parametrize(
    ("figure", "verdict"), [(FAST, "ok"), (SLOW, "over"), (PLAIN, ""), (UNKNOWN, "")], ids=lambda it: str(it)[:20]
)
def test_a_verdict_needs_a_bar_and_a_value(figure, verdict):
    assert figure.verdict == verdict


def test_what_just_reaches_its_bar_is_within_it():
    assert Figure("site", "MB", 25.0, None, Bar(25, "ours")).verdict == "ok"


def test_the_table_has_a_line_for_each_figure_with_columns_one_below_the_other():
    assert as_table([FAST, SLOW, PLAIN, UNKNOWN]).splitlines() == [
        "figure            ours  baseline  ratio       bar",
        "first answer    400 ms   3200 ms  0.125   <= 0.25  ok",
        "typing           51 ms         -         <= 50 ms  over",
        "engine        0.335 kB         -",
        "memory               -         -             <= 1",
    ]


def test_the_json_says_the_same_as_the_table():
    data = json.loads(json.dumps(as_data([FAST, PLAIN])))
    assert data == [
        {
            "figure": "first answer",
            "unit": "ms",
            "ours": 400.0,
            "baseline": 3200.0,
            "ratio": 0.125,
            "bar": {"limit": 0.25, "of": "ratio"},
            "verdict": "ok",
        },
        {
            "figure": "engine",
            "unit": "kB",
            "ours": 0.335,
            "baseline": None,
            "ratio": None,
            "bar": None,
            "verdict": None,
        },
    ]


def test_a_trial_and_a_busy_machine_are_said_below_the_table():
    about = {"rounds": 5, "cores": 2, "chromium": "1.0", "load_per_core": [0.1, 1.1], "seconds": 300}
    assert "quote none" not in " ".join(bench.remarks(about))
    assert "Fewer than 5 rounds" in " ".join(bench.remarks({**about, "rounds": 4}))
    assert "up to 0.9 a core" in " ".join(bench.remarks({**about, "load_per_core": [0.8, 0.9]}))
    assert "up to 4 a core" in " ".join(bench.remarks({**about, "load_per_core": [0.1, 4.0, 1.0]}))
    assert "quote none" not in " ".join(bench.remarks({**about, "load_per_core": [None, None]}))


def test_five_rounds_are_the_rule():
    said = command_line.parse(["bench"])
    assert (said.rounds, said.json, said.one_core, said.keep) == (5, False, False, False)


@pytest.mark.parametrize("rounds", ["0", "-1", "few"])
def test_no_rounds_are_refused(rounds, capsys):
    with pytest.raises(SystemExit):
        command_line.parse(["bench", "--rounds", rounds])
    assert "--rounds" in capsys.readouterr().err
