"""A survey's verdicts and what to do, set for the labels of the card."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from tilelayout.base.units import LengthStyle
from tilelayout.flatness.verdicts import Verdict
from tilelayout.planning.surface import Flatness
from tilelayout.planning.surface_words import JUDGED, measured_words


def verdicts_html(one: Flatness, style: LengthStyle) -> str:
    """Return the verdicts tile by tile, each with its measure and clause."""
    if not one.tiles:
        return "No tile is laid on this surface yet: lay one, and the surface is judged for it."
    parts = []
    for tile in one.tiles:
        rows = [_verdict_html(each, style) for each in one.verdicts if each.tile == tile.id]
        parts.append(f"<p><b>{escape(tile.title)}</b></p>{''.join(rows)}")
    return "".join(parts)


def others_html(one: Flatness, style: LengthStyle) -> str:
    """Return the verdicts by other prints and other countries' standards."""
    titles = {tile.id: tile.title for tile in one.tiles}
    return "".join(
        _verdict_html(each, style, f"{escape(name)}, {escape(titles[each.tile])}: ")
        for name, each in one.compared
    )


def _verdict_html(each: Verdict, style: LengthStyle, head: str = "") -> str:
    words = f"{head}<b>{JUDGED[each.ok]}</b> {escape(measured_words(each, style))}."
    why = f"<br>{escape(each.why)}" if each.why else ""
    return f"<p>{words}{why}<br><small>{escape(each.limit.source.words)}</small></p>"


def html_list(sentences: Iterable[str]) -> str:
    """Return sentences as paragraphs."""
    return "".join(f"<p>{escape(each)}</p>" for each in sentences)
