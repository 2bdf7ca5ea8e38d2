"""What may be wrong with the cuts that were ticked as made."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tilelayout.job.cuts_made import CutMade
from tilelayout.job.limits import Problem

_MARK = re.compile(r"[0-9a-f]{10}")


def cut_made_problems(cut: CutMade) -> Iterator[Problem]:
    """Return what is wrong with a ticked cut; its layout or piece may be gone, since a tick outlives them."""
    for key, name in (("layout", cut.layout), ("piece", cut.piece)):
        if not name.strip():
            yield Problem(key, f"The {key} of the cut is empty.", "Leave the cut out and tick it again.")
    if not _MARK.fullmatch(cut.mark):
        what = f"The mark “{cut.mark}” is not ten of the figures 0-9 and letters a-f."
        yield Problem("mark", what, "Leave the cut out and tick it again.")
