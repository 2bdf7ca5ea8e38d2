"""A shape that is asked again and again, by any thread.

The library answers much faster once a shape is prepared, but it completes what it prepared at the first
questions, with the interpreter's lock let go: two threads that ask at once bring the process down. So a shape
that threads share is prepared as a copy of its own and asked by one thread at a time.
"""

from __future__ import annotations

from threading import Lock

import numpy as np
import shapely
from numpy.typing import NDArray


class OftenAsked:
    """A copy of `shape`, prepared for questions."""

    def __init__(self, shape: shapely.Geometry) -> None:
        self._shape = shapely.from_wkb(shapely.to_wkb(shape))
        shapely.prepare(self._shape)
        self._lock = Lock()

    def covers(self, others: NDArray[np.object_]) -> NDArray[np.bool_]:
        """Tell which other shapes (n,) lie in the shape, its border included."""
        with self._lock:
            return np.asarray(shapely.covers(self._shape, others))
