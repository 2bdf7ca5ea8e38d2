"""What a floor is built up of, layer upon layer, and how high its finished face comes to stand.

Heights are above the bare base of the surface. The bed of the adhesive is known as a range, so the finished
height is one too, and a step to what meets the floor there. What is not known is named, never guessed: a
stack with something missing has no height.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tilelayout.job.ground import Layer
from tilelayout.job.kinds import LayerRole
from tilelayout.job.values import Surface, Tile

MISSING_BED, MISSING_TILE = "the bed of the adhesive", "the tile"
"""What may be missing to a height, as it is called in a sentence."""


@dataclass(frozen=True)
class Range:
    """From `least` to `most`, in mm."""

    least: float
    most: float

    def less(self, other: float) -> Range:
        """Return the range measured from another height."""
        return Range(self.least - other, self.most - other)

    @property
    def farthest(self) -> float:
        """The end that lies farther from nought, with its sign; the upper one of two as far."""
        return self.least if -self.least > self.most else self.most


@dataclass(frozen=True)
class StackLayer:
    """A layer with what to call it and what it is for, if that was said."""

    name: str
    thickness: Range
    role: LayerRole | None = None


@dataclass(frozen=True)
class Stack:
    """Layers, the lowest first, and the names of those whose thickness is `missing`."""

    layers: tuple[StackLayer, ...]
    missing: tuple[str, ...] = ()

    @property
    def height(self) -> Range | None:
        """How high the face of the stack stands; None if something is missing."""
        if self.missing:
            return None
        least = sum(layer.thickness.least for layer in self.layers)
        return Range(least, sum(layer.thickness.most for layer in self.layers))


def stack_of(surface: Surface, tile: Tile | None) -> Stack:
    """Return the stack with its tile: the layers said, then bed and tile if not among them.

    Without a tile that is missing too.
    """
    layers = [_layer(layer) for layer in surface.layers]
    roles = {layer.role for layer in surface.layers}
    missing: tuple[str, ...] = ()
    if LayerRole.BED not in roles:
        bed = None if surface.adhesive is None else surface.adhesive.bed
        missing = () if bed else (MISSING_BED,)
        layers += [StackLayer("bed", Range(*bed), LayerRole.BED)] if bed else []
    if LayerRole.TILE not in roles and tile is not None:
        layers.append(StackLayer("tile", Range(tile.thickness, tile.thickness), LayerRole.TILE))
    elif LayerRole.TILE not in roles:
        missing = (*missing, MISSING_TILE)
    return Stack(tuple(layers), missing)


def stack_beyond(layers: Iterable[Layer]) -> Stack:
    """Return the stack of a floor beyond a doorway."""
    return Stack(tuple(_layer(layer) for layer in layers))


def _layer(layer: Layer) -> StackLayer:
    name = layer.name or str(layer.role or "layer")
    return StackLayer(name, Range(layer.thickness, layer.thickness), layer.role)
