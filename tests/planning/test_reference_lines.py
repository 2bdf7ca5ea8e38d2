from __future__ import annotations

import msgspec
import pytest

from tests.planning.jobs import job_of
from tests.rooms import HEXAGON, SQUARE, floor_of, rectangle, round_cutout, square_cutout
from tilelayout.base.errors import EditError
from tilelayout.cli.lay_json import as_json
from tilelayout.cli.lay_text import as_text
from tilelayout.job import files
from tilelayout.job.checks import job_problems
from tilelayout.job.edits.lines import add_line, remove_line, replace_line
from tilelayout.job.edits.surfaces import (
    delete_corner,
    insert_corner,
    move_corner,
    remove_cutout,
    replace_cutout,
)
from tilelayout.job.kinds import Centred, LineKind
from tilelayout.job.values import Edge, EdgeRole, Job, ReferenceLine
from tilelayout.layout.laying import lay
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.plan import plan
from tilelayout.planning.reference_lines import LineMiss, line_misses
from tilelayout.planning.seek import Found, Wish, seek
from tilelayout.reports.figure import Text
from tilelayout.reports.sheets.page import Frame
from tilelayout.reports.sheets.set_out_sheet import set_out_pages

DOOR = Edge(at=0, role=EdgeRole.DOORWAY)
ROOM = floor_of(
    (0, 0), (1700, 0), (1700, 1340), (0, 1340), edges=(DOOR,),
    cutouts=(square_cutout(600, 700, 80, name="outlet"), round_cutout(1200, 500, 60, name="pipe")),
)  # fmt: skip
AT_DOOR = ReferenceLine(kind=LineKind.CENTRE, edge=0, put=Centred.TILE)
FULL = ReferenceLine(kind=LineKind.FULL_TILE, edge=0)
NEIGHBOUR = ReferenceLine(kind=LineKind.JOINT, line=((100.0, 500.0), (900.0, 500.0)), name="the hall floor")
CLEAR = ReferenceLine(kind=LineKind.NO_JOINT, cutout="outlet", within=20.0)


def job_with(*lines: ReferenceLine, start: tuple[float, float] = (0.0, 0.0)) -> Job:
    return job_of(ROOM, SQUARE, gap=5.0, start=start, lines=lines)


def misses(*lines: ReferenceLine, start: tuple[float, float]) -> tuple[LineMiss, ...]:
    return line_misses(plan(job_with(*lines, start=start), "A"))


def found(job: Job, aim: Aim = Aim.BALANCED) -> Found:
    return list(seek(job, "floor", None, Wish(aim, 1)))[-1].found[0]


def test_a_miss_is_how_far_the_tiles_would_have_to_move() -> None:
    # A tile of 297 that begins at 701.5 has its middle at 850, that of the doorway.
    centred, full, joint = misses(AT_DOOR, FULL, NEIGHBOUR, start=(701.5, 0.0))
    assert [centred.miss, full.miss] == pytest.approx([0.0, 0.0])
    assert joint.miss == pytest.approx(98.5)  # joints from 297 to 300 and from 597 to 600
    moved = misses(AT_DOOR, FULL, NEIGHBOUR, start=(713.5, 3.0))
    assert [one.miss for one in moved] == pytest.approx([12.0, 3.0, 101.5])
    assert centred.is_kept and not moved[0].is_kept
    assert moved[0].words == "A tile centred on the doorway: 12 mm off"
    assert centred.words == "A tile centred on the doorway: kept"


def test_a_tile_a_joint_or_whichever_is_nearer_may_be_centred() -> None:
    point = (850.0, 600.0)
    centred = {
        put: ReferenceLine(kind=LineKind.CENTRE, point=point, put=put)
        for put in (Centred.TILE, Centred.JOINT, Centred.EITHER)
    }
    # The joint between tiles is 150 mm from their middles.
    at_joint = misses(*centred.values(), start=(851.5, 601.5))
    assert [one.miss for one in at_joint] == pytest.approx([150.0 * 2**0.5, 0.0, 0.0])
    both = misses(*centred.values(), start=(851.5, 451.5))
    assert [one.miss for one in both] == pytest.approx([150.0, 150.0, 0.0])


def test_a_joint_too_near_a_cutout_is_missed_by_what_it_lacks() -> None:
    # The outlet reaches from 600 to 680 along x and from 700 to 780 along y.
    assert misses(CLEAR, start=(570.0, 650.0))[0].miss == 0.0
    assert misses(CLEAR, start=(590.0, 650.0))[0].miss == pytest.approx(10.0)
    assert misses(CLEAR, start=(640.0, 650.0))[0].miss == pytest.approx(60.0)
    pipe = ReferenceLine(kind=LineKind.NO_JOINT, cutout="pipe", within=25.0)
    assert misses(pipe, start=(1160.0, 440.0))[0].miss == pytest.approx(15.0)  # 40 - 30 = 10 from its edge


def test_what_a_pattern_cannot_do_is_said() -> None:
    askew = ReferenceLine(kind=LineKind.JOINT, line=((0.0, 0.0), (500.0, 500.0)))
    (one,) = misses(askew, start=(0.0, 0.0))
    assert one.miss is None and not one.is_kept
    assert "nothing that runs there" in one.words
    hexagons = job_of(ROOM, HEXAGON, pattern="hexagon", gap=5.0, lines=(FULL,))
    assert line_misses(plan(hexagons, "A"))[0].miss is None  # point up: no side along the doorway


@pytest.mark.parametrize("aim", list(Aim))
def test_seek_keeps_to_the_lines_and_uses_what_freedom_is_left(aim: Aim) -> None:
    job = job_with(AT_DOOR)
    best = found(job, aim)
    kept = line_misses(plan(msgspec.structs.replace(job, layouts=(best.layout,)), best.layout.id))
    assert kept[0].is_kept and best.layout.lines == (AT_DOOR,)
    assert not best.is_proved
    for y in range(0, 300, 10):
        rival = lay(ROOM, SQUARE, msgspec.structs.replace(job.layouts[0], start=(701.5, float(y))))
        if aim is Aim.WIDEST_CUT and not rival.bare_patches:
            assert (rival.narrowest_cut or 0.0) <= (best.narrowest or 0.0) + 0.3


def test_two_lines_leave_no_freedom_and_a_third_is_missed_as_little_as_may_be() -> None:
    job = job_with(AT_DOOR, FULL, CLEAR)
    best = found(job)
    told = line_misses(plan(msgspec.structs.replace(job, layouts=(best.layout,)), best.layout.id))
    assert told[0].is_kept and told[1].is_kept


def test_lines_travel_through_the_file() -> None:
    job = job_with(AT_DOOR, FULL, NEIGHBOUR, CLEAR)
    assert files.job_from_bytes(files.job_to_bytes(job)) == job


def test_lines_are_added_changed_and_removed() -> None:
    job = add_line(job_with(), "A", AT_DOOR)
    job = add_line(job, "A", CLEAR)
    assert job.layout("A").lines == (AT_DOOR, CLEAR)
    wider = msgspec.structs.replace(CLEAR, within=30.0)
    assert replace_line(job, "A", 1, wider).layout("A").lines == (AT_DOOR, wider)
    assert remove_line(job, "A", 0).layout("A").lines == (CLEAR,)
    with pytest.raises(EditError, match="no reference line 7"):
        remove_line(job, "A", 7)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        (ReferenceLine(kind=LineKind.FULL_TILE, edge=9), "no edge 9"),
        (ReferenceLine(kind=LineKind.NO_JOINT, cutout="post"), "no cutout “post”"),
        (ReferenceLine(kind=LineKind.CENTRE), "no place"),
        (ReferenceLine(kind=LineKind.JOINT, edge=0), "has edge"),
        (ReferenceLine(kind=LineKind.CENTRE, edge=0, point=(1.0, 2.0)), "point and edge"),
        (ReferenceLine(kind=LineKind.JOINT, line=((5.0, 5.0), (5.0, 5.5))), "the same"),
        (ReferenceLine(kind=LineKind.NO_JOINT, cutout="outlet", within=-1.0), "distance of a joint"),
    ],
)
def test_a_line_that_cannot_be_is_refused(line: ReferenceLine, told: str) -> None:
    with pytest.raises(EditError, match=told):
        add_line(job_with(), "A", line)


def test_edited_corners_leave_the_lines_where_they_are() -> None:
    line = ReferenceLine(kind=LineKind.FULL_TILE, edge=2)
    job = job_with(line, NEIGHBOUR)
    grown = insert_corner(job, "floor", 0, (850.0, 0.0))
    assert [one.edge for one in grown.layout("A").lines] == [3, None]
    assert delete_corner(grown, "floor", 1).layout("A").lines == job.layout("A").lines
    assert move_corner(job, "floor", 1, (1750.0, 0.0)).layout("A") is job.layout("A")
    bare = job_of(rectangle(1700, 1340), SQUARE, lines=(line, NEIGHBOUR))
    assert delete_corner(bare, "floor", 2).layout("A").lines[0].edge == 1


def test_a_line_follows_its_cutout_and_goes_with_it() -> None:
    job = job_with(CLEAR, AT_DOOR)
    renamed = msgspec.structs.replace(ROOM.cutouts[0], name="socket")
    assert replace_cutout(job, "floor", 0, renamed).layout("A").lines[0].cutout == "socket"
    assert remove_cutout(job, "floor", 0).layout("A").lines == (AT_DOOR,)
    assert remove_cutout(job, "floor", 1).layout("A").lines == (CLEAR, AT_DOOR)


def test_a_job_whose_line_names_what_is_not_there_is_refused_with_its_place() -> None:
    plain = rectangle(1000, 1000)
    lost = msgspec.structs.replace(job_with(CLEAR), surfaces=(plain,))
    places = [problem.place for problem in job_problems(lost)]
    assert places == ["layouts[0].lines[0].cutout"]


def test_every_line_is_told_by_lay_and_stands_on_the_set_out_sheet() -> None:
    job = job_with(AT_DOOR, NEIGHBOUR, start=(713.5, 3.0))
    made = plan(job, "A")
    (layout,) = msgspec.json.decode(as_json([made]))["layouts"]
    assert [round(line["miss"], 6) for line in layout["lines"]] == [12.0, 101.5]
    assert "lines" not in msgspec.json.decode(as_json([plan(job_with(), "A")]))["layouts"][0]
    said = "A tile centred on the doorway: 12 mm off"
    assert said in as_text(job, [made], [])
    pages = set_out_pages(made, Frame(210.0, 297.0))
    texts = [mark.words for page in pages for mark in page.marks if isinstance(mark, Text)]
    assert any(said in words for words in texts)
