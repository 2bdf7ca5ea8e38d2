"""What a call of `lay` asked for."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Wishes:
    """What a call asked for beside the plain text; `stock` and `keep_left` are files of what is on hand."""

    json: bool = False
    strict: bool = False
    ranges: bool = False
    findings: bool = False
    whole_job: bool = False
    fit: bool = False
    stock: Path | None = None
    keep_left: Path | None = None

    @property
    def wants_more(self) -> bool:
        """Whether something was asked for that only some calls ask for."""
        return self.whole_job or self.fit or self.keep_left is not None
