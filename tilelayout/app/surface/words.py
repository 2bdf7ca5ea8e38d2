"""A survey's verdicts and what to do, set for the labels of the card."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from tilelayout.base.units import LengthStyle
from tilelayout.flatness.verdicts import Verdict
from tilelayout.planning.surface import Flatness
from tilelayout.planning.surface_words import JUDGED, f_number_words, measured_words, plumb_words


def verdicts_html(one: Flatness, style: LengthStyle) -> str:
    """Return the verdicts tile by tile, each with its measure and clause."""
    if not one.tiles:
        return "No tile is laid on this surface yet: lay one, and the surface is judged for it."
    parts = []
    for tile in one.tiles:
        verdicts = [each for each in one.verdicts if each.tile == tile.id]
        rows = [f"<p>{_verdict_html(each, style)}</p>" for each in verdicts]
        sources = dict.fromkeys(each.limit.source.words for each in verdicts)
        rows += [f"<p><small>{escape(words)}</small></p>" for words in sources]
        parts.append(f"<p><b>{escape(tile.title)}</b></p>{''.join(rows)}")
    return "".join(parts) + html_list(filter(None, [plumb_words(one, style)]))


def others_html(one: Flatness, style: LengthStyle) -> str:
    """Return the verdicts by other prints and other countries' standards, and FF and FL."""
    titles = {tile.id: tile.title for tile in one.tiles}
    others = [
        f"<p>{_verdict_html(each, style, f'{escape(name)}, {escape(titles[each.tile])}: ')}"
        f"<br><small>{escape(each.limit.source.words)}</small></p>"
        for name, each in one.compared
    ]
    return "".join(others) + html_list(filter(None, [f_number_words(one)]))


def _verdict_html(each: Verdict, style: LengthStyle, head: str = "") -> str:
    words = f"{head}<b>{JUDGED[each.ok]}</b> {escape(measured_words(each, style))}."
    why = f"<br>{escape(each.why_in(style))}" if each.reasons else ""
    return words + why


def html_list(sentences: Iterable[str]) -> str:
    """Return sentences as paragraphs."""
    return "".join(f"<p>{escape(each)}</p>" for each in sentences)
