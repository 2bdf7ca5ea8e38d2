"""The tones of the map: from deep blue to pale yellow, evenly spaced to the eye, and as evenly in grey.

A straight line through Oklab, whose distances are meant to be those the eye sees and whose first coordinate
is lightness; so equal steps look equal, the order survives a photocopy, and blue to yellow is the way that
the common colour-vision deficiencies leave. Oklab and its two matrices: Bjorn Ottosson, "A perceptual color
space for image processing" (2020), which its author lets anyone use. The two ends are our own.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Values = NDArray[np.float64]

COUNT = 256

_LEAST = (0.25, -0.005, -0.065)
_MOST = (0.93, -0.012, 0.115)
"""Lightness, and how red or green, how yellow or blue, in Oklab."""

_TO_ROOTS = np.array(
    [
        (1.0, 0.3963377774, 0.2158037573),
        (1.0, -0.1055613458, -0.0638541728),
        (1.0, -0.0894841775, -1.2914855480),
    ]
)
_TO_LINEAR = np.array(
    [
        (4.0767416621, -3.3077115913, 0.2309699292),
        (-1.2684380046, 2.6097574011, -0.3413193965),
        (-0.0041960863, -0.7034186147, 1.7076147010),
    ]
)


@lru_cache(maxsize=1)
def tones() -> NDArray[np.uint8]:
    """Return the tones (COUNT, 3) as red, green, blue, from the least to the most."""
    share = np.linspace(0.0, 1.0, COUNT)[:, None]
    lab = np.array(_LEAST) * (1.0 - share) + np.array(_MOST) * share
    linear = np.clip((lab @ _TO_ROOTS.T) ** 3 @ _TO_LINEAR.T, 0.0, 1.0)
    encoded = np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055)
    return np.asarray(np.round(255.0 * encoded), dtype=np.uint8)


def toned(shares: Values) -> NDArray[np.uint8]:
    """Return the tones (..., 3) of shares from 0 (least) to 1 (most)."""
    return np.asarray(tones()[np.clip(np.round(shares * (COUNT - 1)), 0, COUNT - 1).astype(int)])
