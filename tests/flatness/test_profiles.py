"""Lines of readings, exactly: against every chord of a fine division."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.flatness.floors import rough
from tilelayout.flatness.profiles import Profile, profile_of


def every_chord(profile: Profile, over: float, step: float) -> float:
    """The deepest over all chords whose ends and place stand on a fine division."""
    along = np.arange(profile.along[0], profile.along[-1] + step / 2, step)
    heights = np.interp(along, profile.along, profile.heights)
    worst = 0.0
    for i in range(len(along)):
        for k in range(i + 2, min(len(along), i + 1 + int(over / step + 1e-9))):
            share = (along[i + 1 : k] - along[i]) / (along[k] - along[i])
            worst = max(
                worst, float(np.max(heights[i] + share * (heights[k] - heights[i]) - heights[i + 1 : k]))
            )
    return worst


@given(seed=st.integers(0, 9999), over=st.sampled_from([150.0, 350.0, 500.0, 2000.0]))
@settings(max_examples=12, deadline=None)
def test_gap_and_rise_are_those_of_all_chords(seed: int, over: float) -> None:
    profile = Profile(np.arange(0.0, 1200.0, 200.0), rough(6, seed))
    found = profile.variation(over)
    fine = every_chord(profile, over, 10.0)
    assert fine - 1e-9 <= found.gap <= fine + 0.4
    other = Profile(profile.along, -profile.heights).variation(over)
    assert (found.rise, found.gap) == (other.gap, other.rise)


def test_across_a_valley_the_straightedge_hangs_evenly() -> None:
    found = Profile(np.array([0.0, 900.0, 1800.0]), np.array([9.0, 0.0, 9.0])).variation(600.0)
    assert found.gap == pytest.approx(3.0)
    assert found.gap_chord is not None
    assert (found.gap_chord.start[0], found.gap_chord.end[0]) == pytest.approx((600.0, 1200.0))


def test_readings_in_any_order_along_a_slanted_line() -> None:
    places = np.array([[300.0, 400.0], [0.0, 0.0], [600.0, 800.0]])
    found = profile_of(places, np.array([-2.0, 0.0, 0.0])).variation(1000.0)
    assert found.gap == pytest.approx(2.0)
    assert found.gap_chord is not None
    assert found.gap_chord.at == pytest.approx((300.0, 400.0))
