"""The percentile is the one that Python's statistics module computes."""

import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.bench.spread import percentile

values = st.lists(st.floats(0, 1e6), min_size=2, max_size=300)


@given(values, st.integers(1, 99))
def test_a_percentile_is_what_the_statistics_module_says(values, share):
    expected = statistics.quantiles(values, n=100, method="inclusive")[share - 1]
    assert percentile(values, share) == pytest.approx(expected, rel=1e-9, abs=1e-9)


@given(values)
def test_half_of_it_is_the_median_and_the_ends_are_the_ends(values):
    assert percentile(values, 50) == pytest.approx(statistics.median(values), rel=1e-9, abs=1e-9)
    assert (percentile(values, 0), percentile(values, 100)) == (min(values), max(values))


def test_one_value_is_all_its_percentiles():
    assert percentile([7.0], 99) == 7.0


@pytest.mark.parametrize(("values", "share"), [([], 50), ([1.0], -1), ([1.0], 101)])
def test_what_is_no_percentile_is_refused(values, share):
    with pytest.raises(ValueError, match="at least one value"):
        percentile(values, share)
