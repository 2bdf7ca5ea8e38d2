"""Paints a map of starts into an image, and the lines between borders into a path.

Between the starts laid a width is drawn in between as well, since it changes steadily; a count belongs to
the start it was found at.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import numpy as np
from PySide6.QtCore import QPointF, QSizeF
from PySide6.QtGui import QImage, QPainterPath

from tilelayout.app.offset_map.frame import Frame
from tilelayout.app.offset_map.tones import toned
from tilelayout.layout.offset_map.handovers import handovers
from tilelayout.layout.offset_map.map_of_starts import Measure, OffsetMap
from tilelayout.layout.values import Points


@dataclass(frozen=True)
class Scale:
    """The values at the dark end, which is the worst, and at the light end of the tones."""

    worst: float
    best: float

    def shares(self, values: Points) -> Points:
        """Return how far values lie from the dark end to the light one, 0 to 1."""
        span = self.best - self.worst
        return np.asarray((values - self.worst) / span if span else np.ones_like(values))


def values_of(made: OffsetMap, measure: Measure) -> Points:
    """Return what is shown of each start of the grid."""
    found = {Measure.NARROWEST: made.narrowest, Measure.SLIVERS: made.slivers, Measure.CUTS: made.cuts}
    return np.asarray(found[measure], dtype=float)


def scale_of(made: OffsetMap, measure: Measure) -> Scale:
    """Return the scale from the worst start of a map to the best; widths begin at nothing."""
    values = values_of(made, measure)
    if measure is Measure.NARROWEST:
        return Scale(0.0, float(values.max()))
    return Scale(float(values.max()), float(values.min()))


def image_of(made: OffsetMap, measure: Measure, frame: Frame, width: int, height: int) -> QImage:
    """Return the picture of the frame, so many pixels large."""
    x, y = (np.arange(width) + 0.5) / width, 1.0 - (np.arange(height) + 0.5) / height
    starts = np.stack(np.meshgrid(x, y), axis=-1) * frame.size + frame.low
    places = made.places(starts)
    values = values_of(made, measure)
    shown = _between(values, places) if measure is Measure.NARROWEST else _nearest(values, places)
    pixels = np.ascontiguousarray(toned(scale_of(made, measure).shares(shown)))
    return QImage(pixels.tobytes(), width, height, 3 * width, QImage.Format.Format_RGB888).copy()


def _nearest(values: Points, places: Points) -> Points:
    at = np.round(places).astype(int) % values.shape
    return np.asarray(values[at[..., 0], at[..., 1]])


def _between(values: Points, places: Points) -> Points:
    """Values in proportion between the four starts around each place."""
    low = np.floor(places).astype(int)
    x, y = np.moveaxis(places - low, -1, 0)
    (n, m), (i, j) = values.shape, np.moveaxis(low, -1, 0)
    i, j, right, above = i % n, j % m, (i + 1) % n, (j + 1) % m
    lower = values[i, j] * (1 - x) + values[right, j] * x
    upper = values[i, above] * (1 - x) + values[right, above] * x
    return np.asarray(lower * (1 - y) + upper * y)


def lines_of(made: OffsetMap, frame: Frame, size: QSizeF) -> QPainterPath:
    """Return the lines where the narrowest cut changes hands, in a picture of this size."""
    lines = handovers(made.worst) / made.narrowest.shape
    path = QPainterPath()
    for step in _cells_met(frame):
        ends = ((lines + step) @ frame.vectors - frame.low) / frame.size
        is_near = ((ends.max(axis=1) > 0.0) & (ends.min(axis=1) < 1.0)).all(axis=1)
        for start, end in ends[is_near].tolist():
            path.moveTo(_at(start, size))
            path.lineTo(_at(end, size))
    return path


def _cells_met(frame: Frame) -> Points:
    """The cells (n, 2) of the repeat that may reach into the frame."""
    corners = np.array(list(product((0.0, 1.0), repeat=2))) * frame.size + frame.low
    cells = np.floor(corners @ np.linalg.inv(frame.vectors))
    ranges = (
        np.arange(low - 1, high + 2) for low, high in zip(cells.min(axis=0), cells.max(axis=0), strict=True)
    )
    return np.array(list(product(*ranges)))


def _at(share: list[float], size: QSizeF) -> QPointF:
    return QPointF(share[0] * size.width(), (1.0 - share[1]) * size.height())
