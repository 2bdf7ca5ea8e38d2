"""Looks, before Qt is loaded, whether there is a screen and whether Qt's system libraries are there.

Qt itself stops the program when one is missing and then often names the wrong one. This names the
packages that are really missing, in one line.
"""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Callable, Mapping

_ALWAYS = {
    "libGL.so.1": "libgl1",
    "libEGL.so.1": "libegl1",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libfontconfig.so.1": "libfontconfig1",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libdbus-1.so.3": "libdbus-1-3",
}
_XCB = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
"""Shared libraries and the Debian packages that hold them, found by taking them away one by one."""

_SCREENLESS = ("offscreen", "minimal", "vnc")


def what_hinders(
    environment: Mapping[str, str] = os.environ,
    platform: str = sys.platform,
    is_there: Callable[[str], bool] | None = None,
) -> str:
    """Return in one line why no window can be opened here; "" if one can."""
    if not platform.startswith("linux"):
        return ""
    plugin = environment.get("QT_QPA_PLATFORM", "").partition(":")[0].partition(";")[0]
    has_screen = bool(environment.get("DISPLAY") or environment.get("WAYLAND_DISPLAY"))
    if not has_screen and plugin not in _SCREENLESS:
        return "There is no display to open a window on. Run it in a desktop session, or set DISPLAY."
    needs_xcb = plugin == "xcb" or (not plugin and bool(environment.get("DISPLAY")))
    needed = _ALWAYS | (_XCB if needs_xcb else {})
    missing = [package for library, package in needed.items() if not (is_there or _loads)(library)]
    if not missing:
        return ""
    return f"The window needs system libraries that are missing. On Debian: apt install {' '.join(missing)}"


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True
