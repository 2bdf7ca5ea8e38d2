"""Our cells against a generator of tilings from outside: the isohedral tilings, 81 types, of package tactile.

In an isohedral tiling a symmetry of the whole moves any tile to any other. B. Gruenbaum, G. C. Shephard,
"Tilings and Patterns" (1987), give the types (from memory); the package has C. S. Kaplan's parameters for
them. Its tiles, their places in a cell and the two vectors are taken as they are, with straight sides, and
scaled to the size of a tile.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import atan2, degrees, sqrt

import numpy as np
import pytest
import shapely
import tactile
from msgspec.structs import replace

from tests.rooms import L_SHAPED, OBLIQUE_WITH_BAY, layout_of
from tilelayout.base.errors import LayoutError
from tilelayout.geometry.rings import counter_clockwise, signed_area, without_straight_corners
from tilelayout.job.values import PolygonTile
from tilelayout.layout.kernel.overlap import overlap
from tilelayout.layout.kernel.placed import placed
from tilelayout.layout.laying import lay
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.patterns.drawn import Placement, Settings, cell
from tilelayout.layout.region import region_of
from tilelayout.layout.tiling import misfit
from tilelayout.layout.values import Points

SIDE = 260.0
"""Tiles are scaled to the area of a square of this side."""

MM = 1.0
SHAPES_OF_EACH = 2
LEAST_SIDE = 12.0

TYPES = tuple(tactile.tiling_types)
EVERY_TYPE = pytest.mark.parametrize("type_", TYPES)


@dataclass(frozen=True)
class Tiling:
    """The outside tiling: one tile (m, 2), its aspects (turn or mirror, shift) in a cell, and two vectors."""

    tile: Points
    aspects: tuple[tuple[Points, Points], ...]
    vectors: Points

    @property
    def outlines(self) -> list[Points]:
        """The faces of one cell."""
        return [counter_clockwise(self.tile @ turn.T + shift) for turn, shift in self.aspects]

    @property
    def has_mirrored(self) -> bool:
        """Whether a mirrored tile is among the faces."""
        return any(np.linalg.det(turn) < 0 for turn, _ in self.aspects)


def tiling(type_: int, seed: int) -> Tiling | None:
    """The tiling of a type with the package's own parameters, or with random ones; None if it is no tile."""
    made = tactile.IsohedralTiling(type_)
    if seed:
        random = np.random.default_rng([type_, seed])
        made.parameters = [value + random.uniform(-0.2, 0.2) for value in made.parameters]
    corners = np.array([(p.x, p.y) for p in made.vertices])
    if not shapely.Polygon(corners).is_valid or abs(signed_area(corners)) < 0.05:
        return None
    scale = SIDE / sqrt(abs(signed_area(corners)))
    aspects = [np.array(matrix).reshape(2, 3) for matrix in made.aspects]
    vectors = scale * np.array([(made.t1.x, made.t1.y), (made.t2.x, made.t2.y)])
    tile = without_straight_corners(counter_clockwise(corners * scale))
    return Tiling(tile, tuple((m[:, :2], scale * m[:, 2]) for m in aspects), vectors)


@cache
def tilings(type_: int) -> list[Tiling]:
    """The package's own tiling of a type and some random ones whose tile has no side too short for a tile."""
    found = [tiling(type_, seed) for seed in range(12)]
    return [each for each in found if each is not None and least_side(each.tile) > LEAST_SIDE][
        :SHAPES_OF_EACH
    ]


def least_side(ring: Points) -> float:
    return float(np.hypot(*(np.roll(ring, -1, axis=0) - ring).T).min())


def drawn(found: Tiling) -> tuple[PolygonTile, PolygonTile, Settings]:
    """The tiling as a drawn pattern: the tile, its mirror image, and how they lie in the cell."""
    low = found.tile.min(axis=0)
    looks_left = found.tile * (-1.0, 1.0)
    low_left = looks_left.min(axis=0)
    places = []
    for turn, shift in found.aspects:
        is_mirrored = bool(np.linalg.det(turn) < 0)
        spin = turn @ np.diag([-1.0, 1.0]) if is_mirrored else turn
        x, y = (spin @ (low_left if is_mirrored else low) + shift).tolist()
        angle = degrees(atan2(float(spin[1, 0]), float(spin[0, 0])))
        places.append(Placement("mirrored" if is_mirrored else "", angle, (x, y)))
    (a, b), (c, d) = found.vectors.tolist()
    settings = Settings(((a, b), (c, d)), tuple(places))
    return polygon("own", found.tile - low), polygon("mirrored", looks_left - low_left), settings


def polygon(name: str, ring: Points) -> PolygonTile:
    return PolygonTile(id=name, outline=tuple((x, y) for x, y in counter_clockwise(ring).tolist()))


def test_all_types_are_there_and_most_come_in_several_shapes() -> None:
    assert len(TYPES) == 81
    counts = [len(tilings(type_)) for type_ in TYPES]
    assert min(counts) >= 1
    assert sum(counts) > 150


@EVERY_TYPE
def test_its_tiles_fill_the_plane_by_its_vectors(type_: int) -> None:
    for found in tilings(type_):
        assert not misfit(found.outlines, found.vectors).is_there


@EVERY_TYPE
def test_a_vector_or_a_corner_a_millimetre_off_is_found_out(type_: int) -> None:
    for found in tilings(type_):
        first, second = found.vectors
        square = np.array([-second[1], second[0]]) / np.hypot(*second)
        assert misfit(found.outlines, np.array([first + MM * square, second])).is_there
        for corner in range(len(found.tile)):
            bent = found.tile.copy()
            bent[corner] += MM * np.array([0.6, 0.8])
            assert misfit(Tiling(bent, found.aspects, found.vectors).outlines, found.vectors).is_there


@EVERY_TYPE
def test_it_can_be_drawn_as_a_cell_and_covers_a_room(type_: int) -> None:
    found = tilings(type_)[-1]
    own, mirrored, settings = drawn(found)
    made = cell(own, 0.0, settings, {"mirrored": mirrored} if found.has_mirrored else {})
    for ours, theirs in zip(made.faces, found.outlines, strict=True):
        apart = shapely.hausdorff_distance(shapely.Polygon(ours.outline), shapely.Polygon(theirs))
        assert apart < 1e-5
    for room, start, angle in ((L_SHAPED, (0.0, 0.0), 0.0), (OBLIQUE_WITH_BAY, (431.0, -57.0), 33.0)):
        region = region_of(room, 5.0)
        laid = overlap(region, placed(made, angle, start))
        corners = [face.outline for face in made.faces]
        runs = laid.whole
        whole = sum(
            runs.lengths[runs.face == k].sum() * abs(signed_area(ring)) for k, ring in enumerate(corners)
        )
        assert whole + laid.parts.areas.sum() == pytest.approx(region.area, abs=2.0)


@EVERY_TYPE
def test_without_mirror_images_a_layout_of_it_covers_a_room(type_: int) -> None:
    for found in tilings(type_):
        own, _, settings = drawn(found)
        keys = {"vectors": settings.vectors, "faces": settings.faces, "joint": 0.0, "least_piece": 0.0}
        layout = layout_of(own, "drawn", **keys)
        layout = replace(layout, settings={"vectors": settings.vectors, "faces": places_of(settings)})
        if found.has_mirrored:
            continue
        assert len(cell_of(layout, own).faces) == len(found.aspects)
        laid = lay(L_SHAPED, own, layout)
        area = sum(piece.area for piece in laid.pieces()) + laid.left_to_joint_area
        assert area == pytest.approx(laid.region.area, abs=2.0)
        (a, b), second = settings.vectors or ((0.0, 0.0), (0.0, 0.0))
        wrong = {"vectors": ((a + MM, b + MM), second), "faces": places_of(settings)}
        if not shears_along(np.array(settings.vectors)):
            with pytest.raises(LayoutError):
                cell_of(replace(layout, settings=wrong), own)


def places_of(settings: Settings) -> list[dict[str, object]]:
    """The faces as a job file gives them."""
    return [{"turn": place.turn, "at": list(place.at)} for place in settings.faces]


def shears_along(vectors: Points) -> bool:
    """Whether (1, 1) runs along the second vector, so that rows of tiles may only slide."""
    return bool(abs(vectors[1, 0] - vectors[1, 1]) < 0.02 * np.hypot(*vectors[1]))
