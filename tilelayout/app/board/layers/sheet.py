"""The pattern laid out once, a repeat larger than the room on the screen, to be pushed about in a drag.

A texture stretched and placed to a fraction of a pixel is right to look at and slow to paint. While the start
moves, the same picture of many tiles pushed by whole pixels will do: it is out by half a pixel at most.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QBrush, QImage, QPainter, QTransform

from tilelayout.app.board.layers.texture import Texture

_MOST_PIXELS = 12_000_000


@dataclass(frozen=True, eq=False)
class _Sheet:
    texture: Texture
    scale: float
    pixel_ratio: float
    image: QImage


class Sheets:
    """Keeps the sheet made last."""

    def __init__(self) -> None:
        self._made: _Sheet | None = None

    def brush(
        self, texture: Texture, corner: QPointF, box: QRectF, scale: float, pixel_ratio: float
    ) -> QBrush | None:
        """Return a brush that covers the screen rectangle `box`, the first face's corner at `corner`.

        `scale` is px per mm. None if the pattern has no level repeat, or too large a one.
        """
        if texture.level is None:
            return None
        across, up = (length * scale for length in texture.level)
        size = math.ceil((box.width() + across) * pixel_ratio), math.ceil((box.height() + up) * pixel_ratio)
        if size[0] * size[1] > _MOST_PIXELS:
            return None
        image = self._image(texture, scale, pixel_ratio, size)
        x = box.left() + (corner.x() - box.left()) % across - across
        y = box.top() + (corner.y() - box.top()) % up - up
        brush = QBrush(image)
        to_whole = (round(at * pixel_ratio) / pixel_ratio for at in (x, y))
        brush.setTransform(QTransform(1 / pixel_ratio, 0.0, 0.0, 1 / pixel_ratio, *to_whole))
        return brush

    def _image(self, texture: Texture, scale: float, pixel_ratio: float, size: tuple[int, int]) -> QImage:
        made = self._made
        is_same = made is not None and made.texture is texture
        if made is None or not is_same or (made.scale, made.pixel_ratio) != (scale, pixel_ratio):
            made = None
        if made is None or made.image.width() < size[0] or made.image.height() < size[1]:
            made = _Sheet(texture, scale, pixel_ratio, _laid_out(texture, scale * pixel_ratio, size))
            self._made = made
        return made.image


def _laid_out(texture: Texture, px_per_mm: float, size: tuple[int, int]) -> QImage:
    """Return a picture of the pattern with the first face's first corner at its upper left."""
    image = QImage(*size, QImage.Format.Format_RGB32)
    with QPainter(image) as painter:
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        to_pixels = QTransform(px_per_mm, 0.0, 0.0, -px_per_mm, 0.0, 0.0)
        painter.fillRect(image.rect(), texture.brush(np.zeros(2), to_pixels))
    return image
