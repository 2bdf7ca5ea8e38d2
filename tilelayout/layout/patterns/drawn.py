"""Drawn: a tile of any straight-sided outline, repeated by two vectors that are given or found.

A cell holds the tile once, or several times, turned and moved (`faces`); a face may name another tile by the
role it plays, which the layout then gives in `more_tiles`. Every face grown by half a joint,
corners mitred, must fill the plane with the others: then the joint has one width everywhere. If the vectors
are left out they are looked for, first for the tile alone and then for the tile and a copy turned by half,
which is how every triangle and every quadrilateral fills the plane (Conway's criterion for polygons).
"""

from __future__ import annotations

from functools import lru_cache
from math import isfinite

import msgspec
import numpy as np
import shapely

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import LARGEST_LENGTH, SAME_PLACE
from tilelayout.geometry.growing import grown
from tilelayout.geometry.rings import area, cross
from tilelayout.job.limits import JOINT
from tilelayout.job.values import Length, PolygonTile, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.lattices import fitting_joint, repeat_of
from tilelayout.layout.placing import face_with_corner, face_with_origin
from tilelayout.layout.roles import ANY_SHAPE, NO_MORE, MoreTiles, Role
from tilelayout.layout.tiling import misfit
from tilelayout.layout.values import Cell, Face, Points

NAME = "Drawn tiling"
SUMMARY = "A drawn tile, repeated by two vectors of your own or by the way that is found for it."
SHAPES = frozenset({"polygon"})
START = "cross at the lower left corner of a box round the first tile"

_MOST_FACES = 24


class Placement(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A tile turned by `turn` degrees about the lower left corner of its box, which stands at `at`.

    `tile` is the role of a further tile; left out, it is the layout's own.
    """

    tile: str = ""
    turn: float = 0.0
    at: tuple[Length, Length] = (0.0, 0.0)

    def __post_init__(self) -> None:
        if not all(isfinite(number) for number in (self.turn, *self.at)):
            raise ValueError("a place must be finite numbers")


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """`vectors`: the two ways from a cell to the next, joints included; left out, they are found.

    `faces`: where the tile lies in the cell; left out, once at (0, 0).
    """

    vectors: tuple[tuple[Length, Length], tuple[Length, Length]] | None = None
    faces: tuple[Placement, ...] = ()

    def __post_init__(self) -> None:
        if len(self.faces) > _MOST_FACES:
            raise ValueError(f"a cell has at most {_MOST_FACES} faces")
        if self.faces and self.vectors is None:
            raise ValueError("faces need the vectors that repeat them")
        if self.vectors is not None:
            _check_vectors(np.array(self.vectors))


def _check_vectors(vectors: Points) -> None:
    if not bool(np.all(np.abs(vectors) <= LARGEST_LENGTH)):
        raise ValueError("a vector must be two lengths of less than a kilometre")
    if abs(float(cross(vectors[0], vectors[1]))) < 1.0:
        raise ValueError("the two vectors must lead in different directions")


def roles(settings: Settings) -> tuple[Role, ...]:
    """Return the roles that the faces name, in their order."""
    names = dict.fromkeys(place.tile for place in settings.faces if place.tile)
    return tuple(Role(name, f'tile "{name}" of the drawn cell', ANY_SHAPE) for name in names)


def cell(tile: PolygonTile, joint: float, settings: Settings, more: MoreTiles = NO_MORE) -> Cell:
    """Return the drawn cell. LayoutError says how it fails to fill the plane, and the joint that would
    work."""
    return _cell(tile, joint, settings, tuple(more.items()))


@lru_cache(maxsize=64)
def _cell(tile: PolygonTile, joint: float, settings: Settings, more: tuple[tuple[str, Tile], ...]) -> Cell:
    by_role = {"": tile, **dict(more)}
    for each in by_role.values():
        if not _is_plain(grown(tile_outline(each), joint / 2)):
            what = f'A joint of {joint:.6g} mm closes a notch of "{each.title}".'
            raise LayoutError(what, "Use a narrower joint.")
    if settings.vectors is None:
        return _found(tile, joint)
    vectors = np.array(settings.vectors, dtype=float)
    if cross(vectors[0], vectors[1]) < 0:
        vectors[1] = -vectors[1]  # the same lattice, the second on the left of the first
    faces = faces_of(tile, settings, dict(more))
    _check_fit(tile, faces, vectors, joint)
    return Cell(vectors, faces, joint)


def faces_of(tile: Tile, settings: Settings, more: MoreTiles) -> tuple[Face, ...]:
    """Return where the tiles of the cell lie, whether they fill the plane there or not."""
    by_role = {"": tile, **more}
    places = settings.faces or (Placement(),)
    return tuple(face_with_origin(by_role[place.tile], place.turn, place.at) for place in places)


def _found(tile: PolygonTile, joint: float) -> Cell:
    """Return the cell that is found for the tile; its lower left corner stands at (0, 0)."""
    repeat = repeat_of(tile_outline(tile), joint)
    if repeat is None:
        raise _not_found(tile, joint)
    faces = [face_with_corner(tile, 0.0, (0.0, 0.0))]
    if repeat.pivot is not None:
        x, y = 2 * repeat.pivot
        faces.append(face_with_origin(tile, 180.0, (float(x), float(y))))
    return Cell(repeat.vectors, tuple(faces), joint)


def _not_found(tile: PolygonTile, joint: float) -> LayoutError:
    what = f'No way is found in which "{tile.title}" fills the plane with a joint of {joint:.6g} mm.'
    fitting = fitting_joint(tile_outline(tile), joint)
    if fitting is not None:
        return LayoutError(what, f"A joint of {fitting:.6g} mm works.")
    return LayoutError(what, "Check its corners, or give the vectors and faces by which it repeats.")


def _check_fit(tile: PolygonTile, faces: tuple[Face, ...], vectors: Points, joint: float) -> None:
    found = misfit([grown(face.outline, joint / 2) for face in faces], vectors)
    if not found.is_there:
        return
    wrong = []
    if found.place is not None:
        x, y = found.place
        wrong.append(f"the tiles overlap by {found.overlap:.4g} mm² a cell, first near ({x:.4g}, {y:.4g})")
    if found.gap > 0.0:
        wrong.append(f"{found.gap:.4g} mm² of every cell stay empty")
    fitting = _joint_that_fits(faces, vectors)
    mend = "Check the outline, the vectors and the faces; vectors include the joint."
    if fitting is not None:
        mend = f"With these vectors a joint of {fitting:.6g} mm works."
    raise LayoutError(
        f'With a joint of {joint:.6g} mm "{tile.title}" does not fit: {", ".join(wrong)}.', mend
    )


def _joint_that_fits(faces: tuple[Face, ...], vectors: Points) -> float | None:
    """Return the joint with which the faces fill the cell's area, if they then fit; None if none does."""
    wanted, low, high = float(cross(vectors[0], vectors[1])), 0.0, JOINT.most
    while high - low > SAME_PLACE / 100:
        middle = (low + high) / 2
        covered = sum(area(grown(face.outline, middle / 2)) for face in faces)
        low, high = (middle, high) if covered < wanted else (low, middle)
    rings = [grown(face.outline, low / 2) for face in faces]
    fits = all(_is_plain(ring) for ring in rings) and not misfit(rings, vectors).is_there
    return round(low, 4) if fits else None


def _is_plain(ring: Points) -> bool:
    return bool(shapely.Polygon(ring).is_valid)
