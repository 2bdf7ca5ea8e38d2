"""Which key of the job a finding is about: the one it asks for, else the one by which it is mended."""

from __future__ import annotations

from tilelayout.practice.finding import Finding

KEY_OF_CODE = {
    "appliance": "cutout.meets",
    "bow": "layout.row_offsets",
    "caution-asbestos": "surface.background",
    "caution-lead": "surface.background",
    "caution-old-covering": "surface.background",
    "combed-bed": "surface.adhesive.notch",
    "coverage": "surface.wetness",
    "door": "edge.door",
    "field-joint": "surface.exposure",
    "flange-high": "cutout.meets",
    "flange-low": "cutout.meets",
    "gap": "layout.gap",
    "heavy-tile": "surface.adhesive.class",
    "heavy-wall": "tile.weight_kg",
    "immersed": "surface.wetness",
    "joint-least": "layout.joint",
    "joint-most": "layout.joint",
    "joint-running-bond": "layout.joint",
    "joint-spread": "layout.joint",
    "large-tile": "surface.adhesive.class",
    "lippage": "tile.warpage",
    "mastic-floor": "surface.adhesive.class",
    "mastic-size": "surface.adhesive.class",
    "mastic-wet": "surface.adhesive.class",
    "membrane": "surface.layers",
    "no-hold": "surface.adhesive.class",
    "notch": "surface.adhesive.notch",
    "offset": "layout.row_offsets",
    "plain-adhesive-size": "surface.adhesive.class",
    "solid-bed": "surface.background",
    "thick-bed": "surface.adhesive.bed",
    "thin-bed": "surface.adhesive.bed",
    "tile-on-tile": "surface.background",
    "trip-edge": "edge.meets",
    "veneer": "tile.weight_kg",
    "wall-weight": "surface.background",
}
"""By the code of a finding, the key of the job to change. The usual cautions have nothing to change."""


def key_of(finding: Finding) -> str | None:
    """Return the key of the job that a finding is about; None where nothing can be changed."""
    return finding.asks[0] if finding.asks else KEY_OF_CODE.get(finding.code)
