"""A shape that several threads ask at once: asked unguarded, it brings the interpreter down."""

from __future__ import annotations

import subprocess
import sys

import numpy as np
import shapely

from tilelayout.geometry.often_asked import OftenAsked

ASKED_AT_ONCE = """
from threading import Barrier, Thread
import numpy as np
import shapely
from tilelayout.geometry.often_asked import OftenAsked

turns = np.linspace(0.0, 2.0 * np.pi, 4000, endpoint=False)
ring = (1000.0 + 20.0 * np.sin(61 * turns))[:, None] * np.column_stack([np.cos(turns), np.sin(turns)])
places = np.random.default_rng(1).uniform(-900.0, 900.0, (300, 2, 2))
lines = shapely.linestrings(places)
wanted = shapely.covers(shapely.Polygon(ring), lines).tolist()

def ask(shape, start):
    start.wait()
    assert shape.covers(lines).tolist() == wanted

for _ in range(30):
    shape, start = OftenAsked(shapely.Polygon(ring)), Barrier(8)
    threads = [Thread(target=ask, args=(shape, start)) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
print("asked")
"""


def test_threads_may_ask_at_once() -> None:
    run = subprocess.run([sys.executable, "-c", ASKED_AT_ONCE], capture_output=True, text=True, check=False)
    assert (run.returncode, run.stdout, run.stderr) == (0, "asked\n", "")


def test_it_answers_as_the_shape_does() -> None:
    shape = shapely.box(0, 0, 10, 10)
    others = np.array([shapely.box(1, 1, 9, 9), shapely.box(5, 5, 11, 9), shape])
    assert OftenAsked(shape).covers(others).tolist() == [True, False, True]
