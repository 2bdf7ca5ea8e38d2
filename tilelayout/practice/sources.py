"""Sources that several subjects share. Standards are cited as those who may quote them do."""

from __future__ import annotations

from tilelayout.job.kinds import Practice
from tilelayout.practice.finding import Grade, Source

US, UK, DE, AU = Practice.US, Practice.UK, Practice.DE, Practice.AU

JOINT_US = Source("ANSI A108.02-2017, 4.3.8 (Handbook 2018, p. 37)", Grade.QUOTED, US)
OFFSET_US = Source("ANSI A108.02, 4.3.8.1 and 4.3.8.2", Grade.QUOTED, US)
LIPPAGE_US = Source("ANSI A108.02-2013, 4.3.7", Grade.QUOTED, US)
BED_US = Source("ANSI A108.5, 2.2.2", Grade.QUOTED, US)
COVERAGE_US = Source("ANSI A108.5, 2.2.3", Grade.QUOTED, US)
MOVEMENT_US = Source("Tile Council handbook, detail EJ171", Grade.QUOTED, US)
LARGE_AND_HEAVY_US = Source("Tile Council on large-and-heavy-tile mortar", Grade.QUOTED, US)
JOINT_UK = Source("BS 5385-3, as updated", Grade.QUOTED, UK)
FINISH_UK = Source("NHBC Standards 2025, 9.1.7", Grade.QUOTED, UK)
WEIGHT_UK = Source("limits of wall backgrounds in an adhesive maker's article", Grade.QUOTED, UK)
JOINT_DE = Source("DIN 18352, joint widths", Grade.QUOTED, DE)
STEP_DE = Source("DIN 18333 (concrete stone), for want of a figure in DIN 18202", Grade.QUOTED, DE)
FINISH_AU = Source("NSW Guide to Standards and Tolerances, 12.9", Grade.QUOTED, AU)
