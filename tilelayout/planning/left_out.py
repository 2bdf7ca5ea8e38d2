"""What to say of the parts that are no pieces: strips that joint and gap swallow, and places left bare."""

from __future__ import annotations

from tilelayout.base.units import format_length
from tilelayout.planning.plan import Plan


def strip_words(plan: Plan) -> str:
    """Return a sentence on the strips left to joint and gap; "" if there are none."""
    strips = plan.left_to_joint - len(plan.bare_patches)
    if not strips:
        return ""
    least = format_length(plan.layout.least_piece, plan.style)
    noun = "strip" if plan.chips is None else "chip"
    return f"{f'1 {noun}' if strips == 1 else f'{strips} {noun}s'} under {least} left to the joint or gap."


def bare_words(plan: Plan) -> str:
    """Return a sentence on the places left bare; "" if there are none."""
    bare = len(plan.bare_patches)
    if not bare:
        return ""
    least = format_length(plan.layout.least_piece, plan.style)
    noun = "tile" if plan.chips is None else "chip"
    if bare == 1:
        return f"1 {noun} would have a neck under {least}; its place is left bare."
    return f"{bare} {noun}s would have a neck under {least}; their places are left bare."
