"""Chooses Qt's offscreen platform before anything imports Qt."""

from __future__ import annotations

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
