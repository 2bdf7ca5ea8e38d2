"""Sentences with lengths in them, which are said in the lengths of whoever reads them."""

from __future__ import annotations

from dataclasses import dataclass, field

from tilelayout.base.heights import format_height
from tilelayout.base.units import LengthStyle, format_length


@dataclass(frozen=True)
class Sentence:
    """`form` with names in braces for `lengths` and for `heights` (both mm): large ones and small ones."""

    form: str
    lengths: dict[str, float] = field(default_factory=dict)
    heights: dict[str, float] = field(default_factory=dict)

    def said(self, style: LengthStyle = LengthStyle.MM) -> str:
        """Return the sentence in the lengths of a job."""
        long = {name: format_length(mm, style, decimals=0) for name, mm in self.lengths.items()}
        small = {name: format_height(mm, style) for name, mm in self.heights.items()}
        return self.form.format(**long, **small)
