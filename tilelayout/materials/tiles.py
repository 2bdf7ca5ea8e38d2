"""Tiles to buy: what is laid whole, opened for cuts, allowed for breakage and kept as spares, in whole boxes.

Each is a line of its own, so that a person sees what each costs and can change one without the others. The
counts come in as numbers; nothing here knows how they were found.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from tilelayout.materials.breakage import BreakageAllowance

USUAL_SPARE = 3
"""Tiles kept for repairs, of the same lot and calibre. Common practice, no source: some keep a whole box."""


@dataclass(frozen=True)
class TilesToBuy:
    """Counts of tiles. `cut` pieces come out of `opened` tiles; `other_hand` ones come along in the boxes.

    `per_box` is None if it is not known, and then there are no boxes.
    """

    whole: int
    cut: int
    opened: int
    breakage: BreakageAllowance
    spare: int
    other_hand: int = 0
    on_hand: int = 0
    per_box: int | None = None

    @property
    def needed(self) -> int:
        """How many tiles there must be: laid, opened, broken and kept."""
        return self.whole + self.opened + self.breakage.tiles + self.spare + self.other_hand

    @property
    def to_buy(self) -> int:
        """How many of them are not on hand."""
        return max(0, self.needed - self.on_hand)

    @property
    def boxes(self) -> int | None:
        """How many boxes hold the tiles to buy."""
        return None if self.per_box is None else math.ceil(self.to_buy / self.per_box)

    @property
    def left(self) -> int:
        """How many tiles are left over beside the spare ones if as many break as is allowed for."""
        if self.per_box is None or self.boxes is None:
            return max(0, self.on_hand - self.needed)
        return self.on_hand + self.boxes * self.per_box - self.needed

    @property
    def boxes_to_return(self) -> int | None:
        """How many boxes stay unopened if nothing breaks, of those bought."""
        if self.per_box is None or self.boxes is None:
            return None
        return min(self.boxes, (self.left + self.breakage.tiles) // self.per_box)

    def cost(self, price_per_box: float) -> float | None:
        """Return what the boxes cost, in the currency of the job; None if there are no boxes."""
        return None if self.boxes is None else self.boxes * price_per_box


def tiles_to_buy(
    laid: tuple[int, int, int],
    breakage: BreakageAllowance,
    *,
    spare: int | None = None,
    other_hand: int = 0,
    on_hand: int = 0,
    per_box: int | None = None,
) -> TilesToBuy:
    """Return the count for `laid` whole tiles, cut pieces and tiles opened for them.

    `spare` None stands for the usual number.
    """
    whole, cut, opened = laid
    kept = USUAL_SPARE if spare is None else spare
    return TilesToBuy(whole, cut, opened, breakage, kept, other_hand, on_hand, per_box)
