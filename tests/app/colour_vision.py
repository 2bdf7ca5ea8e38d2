"""Measures of colour that the look is checked against: contrast, simulated colour vision, difference.

Sources: relative luminance and contrast ratio are those of WCAG 2.2 (success criteria 1.4.3 and
1.4.11). The matrices are those of Machado, Oliveira and Fernandes, "A Physiologically-based Model for
Simulation of Color Vision Deficiency" (IEEE TVCG 15, 2009), severity 1.0, from memory. The difference is
CAM02-UCS (Luo, Cui and Li 2006) under the sRGB viewing condition, from memory; `test_look` checks all
three against measured figures for the Okabe-Ito set.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Triple = NDArray[np.float64]

DEFICIENCIES = {
    "protanopia": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}

_TO_XYZ = np.array(
    ((0.4124564, 0.3575761, 0.1804375), (0.2126729, 0.7151522, 0.0721750), (0.0193339, 0.1191920, 0.9503041))
)
_CAT02 = np.array(((0.7328, 0.4296, -0.1624), (-0.7036, 1.6975, 0.0061), (0.0030, 0.0136, 0.9834)))
_HPE = np.array(((0.38971, 0.68898, -0.07868), (-0.22981, 1.18340, 0.04641), (0.0, 0.0, 1.0)))
_WHITE = np.array((95.047, 100.0, 108.883))


def linear(name: str) -> Triple:
    """Return the linear red, green and blue (0 to 1) of a colour written "#rrggbb"."""
    digits = name.lstrip("#")
    value = np.array([int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)])
    return np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, 1 to 21."""
    dim, bright = sorted(float(np.dot((0.2126, 0.7152, 0.0722), linear(name))) for name in (one, other))
    return (bright + 0.05) / (dim + 0.05)


def seen_with(deficiency: str, colour: Triple) -> Triple:
    """Return the linear colour as a person with this deficiency sees it; "" for normal vision."""
    if not deficiency:
        return colour
    return np.clip(np.array(DEFICIENCIES[deficiency]) @ colour, 0.0, 1.0)


def difference(one: str, other: str, deficiency: str = "") -> float:
    """Return the CAM02-UCS distance of two colours as seen with `deficiency`."""
    places = [_cam02_ucs(seen_with(deficiency, linear(name))) for name in (one, other)]
    return float(np.linalg.norm(places[0] - places[1]))


def _compressed(xyz: Triple, adapting: float, lightness: float) -> Triple:
    """Return the post-adaptation cone signals of `xyz` (CIECAM02)."""
    white = _CAT02 @ _WHITE
    degree = 1.0 - (1 / 3.6) * np.exp((-adapting - 42.0) / 92.0)
    adapted = (degree * 100.0 / white + 1.0 - degree) * (_CAT02 @ xyz)
    cones = _HPE @ np.linalg.inv(_CAT02) @ adapted
    power = (lightness * np.abs(cones) / 100.0) ** 0.42
    return np.asarray(np.sign(cones) * 400.0 * power / (power + 27.13) + 0.1)


def _cam02_ucs(colour: Triple) -> Triple:
    """Return (J', a', b') of a linear sRGB colour; average surround, grey background of 20 %."""
    adapting = 64.0 / np.pi * 0.2
    fifth = 1.0 / (5.0 * adapting + 1.0)
    level = 0.2 * fifth**4 * 5 * adapting + 0.1 * (1 - fifth**4) ** 2 * (5 * adapting) ** (1 / 3)
    ground = 0.2
    induction = 0.725 * (1.0 / ground) ** 0.2
    exponent = 0.69 * (1.48 + np.sqrt(ground))
    red, green, blue = _compressed(_TO_XYZ @ colour * 100.0, adapting, level)
    white = _compressed(_WHITE, adapting, level)
    across, up = red - 12 * green / 11 + blue / 11, (red + green - 2 * blue) / 9
    hue = np.arctan2(up, across)
    achromatic = (2 * red + green + blue / 20 - 0.305) * induction
    achromatic_white = (2 * white[0] + white[1] + white[2] / 20 - 0.305) * induction
    light = 100.0 * (max(achromatic, 0.0) / achromatic_white) ** exponent
    eccentricity = 0.25 * (np.cos(hue + 2.0) + 3.8)
    much = 50000 / 13 * induction * eccentricity * np.hypot(across, up) / (red + green + 1.05 * blue)
    chroma = much**0.9 * np.sqrt(light / 100.0) * (1.64 - 0.29**ground) ** 0.73
    colourful = np.log1p(0.0228 * chroma * level**0.25) / 0.0228
    return np.array((1.7 * light / (1 + 0.007 * light), colourful * np.cos(hue), colourful * np.sin(hue)))
