"""A mesh with small triangles, for a fill that is no plane between readings: a fall to a drain is a cone."""

from __future__ import annotations

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from tilelayout.flatness.mesh import Mesh, Numbers, Places

N = TypeVar("N", np.float64, np.intp)

_MOST_TRIANGLES = 40_000


def refined(mesh: Mesh, longest: float) -> Mesh:
    """Return the same surface in triangles with sides of `longest` mm at most, fewer if there were too many.

    Its first corners are those of the mesh, so what holds for them can be read off.
    """
    parts = math.ceil(mesh.longest / longest)
    parts = max(1, min(parts, int(math.sqrt(_MOST_TRIANGLES / len(mesh.triangles)))))
    shares, small = _parted(parts)
    whole = np.arange(len(mesh.triangles))[:, None, None]
    corners = small[None] + whole * len(shares)
    places = np.einsum("ks,fsd->fkd", shares, mesh.places[mesh.triangles]).reshape(-1, 2)
    parents = np.repeat(mesh.parents[mesh.triangles].reshape(len(mesh.triangles), 1, -1), len(shares), axis=1)
    of_parents = np.einsum("ks,fsp->fksp", shares, mesh.shares[mesh.triangles])
    found = Mesh(
        np.concatenate([mesh.places, places]),
        _padded(mesh.parents, parents.reshape(len(places), -1)),
        _padded(mesh.shares, of_parents.reshape(len(places), -1)),
        corners.reshape(-1, 3) + len(mesh.places),
    )
    return _without_twins(found)


def _parted(parts: int) -> tuple[Numbers, Places]:
    """A triangle parted evenly: the shares (k, 3) of its corners at the new ones, small triangles (m, 3)."""
    at = {
        (i, j): k for k, (i, j) in enumerate((i, j) for i in range(parts + 1) for j in range(parts + 1 - i))
    }
    shares = np.array([(parts - i - j, i, j) for i, j in at]) / parts
    small = [(at[i, j], at[i + 1, j], at[i, j + 1]) for i, j in at if i + j < parts]
    small += [(at[i + 1, j], at[i + 1, j + 1], at[i, j + 1]) for i, j in at if i + j < parts - 1]
    return shares, np.array(small, dtype=np.intp)


def _padded(old: NDArray[N], new: NDArray[N]) -> NDArray[N]:
    """Both one below the other, the old ones as wide as the new."""
    return np.concatenate([np.pad(old, ((0, 0), (0, new.shape[1] - old.shape[1]))), new])


def _without_twins(mesh: Mesh) -> Mesh:
    """The mesh with one corner for all that stand at one place: the one that came first."""
    key = np.round(mesh.places, 3)
    _, kept, place = np.unique(key, axis=0, return_index=True, return_inverse=True)
    order = np.argsort(kept)
    number = np.empty(len(order), dtype=np.intp)
    number[order] = np.arange(len(order))
    kept = kept[order]
    return Mesh(
        mesh.places[kept], mesh.parents[kept], mesh.shares[kept], number[place.ravel()][mesh.triangles]
    )
