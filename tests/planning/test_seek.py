from __future__ import annotations

import msgspec
import pytest

from tests.rooms import INCH, L_SHAPED, PLANK, SQUARE, floor_of, layout_of, rectangle
from tilelayout.base.errors import LayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Edge, HexagonTile, Job, Layout, RectangleTile, Surface, Tile
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.seek import Found, Step, Wish, seek
from tilelayout.planning.seek_basis import basis_of

ROOM = floor_of(
    (0, 0),
    (2760, 0),
    (2760, 2075),
    (0, 2075),
    edges=(Edge(at=1, name="window wall"), Edge(at=3, name="door wall")),
)
TILE = RectangleTile(id="tile", length=297, width=297)


def job_of(surface: Surface, tile: Tile, *layouts: Layout, style: LengthStyle = LengthStyle.MM) -> Job:
    return Job(surfaces=(surface,), tiles=(tile,), layouts=layouts, show_lengths=style)


def sought(job: Job, wish: Wish, tile: str | None = None) -> tuple[Found, ...]:
    return list(seek(job, job.surfaces[0].id, tile, wish))[-1].found


def test_what_is_found_lays_to_the_figures_told() -> None:
    job = job_of(L_SHAPED, PLANK, layout_of(PLANK, row_offsets=(0.0, 0.5), gap=6.0))
    for aim in Aim:
        found = sought(job, Wish(aim=aim, most=4))
        assert 1 <= len(found) <= 4
        for one in found:
            made = plan(msgspec.structs.replace(job, layouts=(one.layout,)), one.layout.id)
            assert (len(made.slivers), made.cut, made.tiles_needed) == (
                one.slivers,
                one.cuts,
                one.tiles_needed,
            )
            assert made.narrowest == pytest.approx(one.narrowest)
            assert one.layout.settings == {"row_offsets": (0.0, 0.5)}
        assert len({one.layout.id for one in found} | {"A"}) == len(found) + 1


def test_each_aim_puts_first_what_it_aims_at() -> None:
    job = job_of(L_SHAPED, SQUARE, layout_of(SQUARE, gap=6.0))
    found = {aim: sought(job, Wish(aim=aim, most=6)) for aim in Aim}
    firsts = {aim: of_aim[0] for aim, of_aim in found.items()}
    everything = [one for of_aim in found.values() for one in of_aim]
    assert firsts[Aim.WIDEST_CUT].narrowest == max(one.narrowest or 0.0 for one in everything)
    assert firsts[Aim.FEWEST_TILES].tiles_needed == min(one.tiles_needed for one in everything)
    assert firsts[Aim.FEWEST_CUTS].cuts == min(one.cuts for one in everything)
    assert firsts[Aim.BALANCED].slivers == 0
    assert firsts[Aim.WIDEST_CUT].is_proved and not firsts[Aim.FEWEST_CUTS].is_proved


def test_a_balanced_start_leaves_equal_cuts_and_says_so_in_the_units_of_the_job() -> None:
    found = sought(job_of(ROOM, TILE, layout_of(TILE, gap=0.0)), Wish(most=1))[0]
    borders = {cut.edge: cut.usual for cut in plan(job_of(ROOM, TILE, found.layout), found.layout.id).borders}
    assert borders[1] == pytest.approx(borders[3]) and borders[0] == pytest.approx(borders[2])
    # 2760 = 8 x 297 + 9 x 3 + 2 x 178.5 and 2075 = 5 x 297 + 6 x 3 + 2 x 286
    assert "178.5 mm at both the door wall and the window wall" in found.why
    assert "286 mm at both the bottom wall and the top wall" in found.why
    inches = job_of(rectangle(100 * INCH, 80 * INCH), TILE, style=LengthStyle.INCH)
    assert '"' in sought(inches, Wish(most=1))[0].why


def test_it_tells_what_a_usual_start_would_leave_and_what_cannot_be_had() -> None:
    # A third offset leaves a third of the coordinating 300 mm at best, and a strip under 5 mm to the joint.
    run = rectangle(3000, 4 * 300 - 3)
    job = job_of(run, TILE, layout_of(TILE, row_offsets=(0.0, 1 / 3, 2 / 3), gap=0.0))
    found = sought(job, Wish(aim=Aim.WIDEST_CUT, most=1))[0]
    assert found.is_proved and found.narrowest is not None and found.narrowest <= 100.0 + 5.0
    assert "no start leaves half a tile in a third offset here, the best is" in found.why
    thin = job_of(rectangle(9 * 300 + 20, 4 * 300 - 3), TILE, layout_of(TILE, gap=0.0))
    assert "would leave" in sought(thin, Wish(aim=Aim.WIDEST_CUT, most=1))[0].why


def test_layouts_that_a_person_would_call_the_same_come_once() -> None:
    found = sought(job_of(ROOM, TILE, layout_of(TILE, gap=0.0)), Wish(aim=Aim.WIDEST_CUT, most=20))
    figures = [(one.slivers, round(one.narrowest or 0.0), one.tiles_needed, one.cuts) for one in found]
    assert len(set(figures)) == len(figures)


def test_angles_offsets_and_joints_are_tried_as_wished() -> None:
    job = job_of(ROOM, PLANK, layout_of(PLANK, gap=5.0))
    wish = Wish(Aim.WIDEST_CUT, 8, (0.0, 90.0), ((0.0, 0.5), (0.0, 1 / 3)), (2.0, 3.0))
    found = sought(job, wish)
    assert {one.layout.angle for one in found} <= {0.0, 90.0}
    assert all(2.0 <= one.layout.joint <= 3.0 for one in found)
    plain = max(sought(job, Wish(Aim.WIDEST_CUT, 1)), key=lambda one: one.narrowest or 0.0)
    wider = sought(job, Wish(Aim.WIDEST_CUT, 1, (0.0, 90.0), (), (2.0, 3.0)))[0]
    assert (wider.narrowest or 0.0) >= (plain.narrowest or 0.0)


def test_a_square_grid_is_not_tried_again_at_a_quarter_turn() -> None:
    job = job_of(ROOM, SQUARE, layout_of(SQUARE, gap=5.0))
    once = list(seek(job, "floor", None, Wish(Aim.WIDEST_CUT, angles=(0.0,))))
    both = list(seek(job, "floor", None, Wish(Aim.WIDEST_CUT, angles=(0.0, 90.0))))
    assert both == once


def test_steps_come_with_the_best_so_far_and_end_with_everything() -> None:
    job = job_of(L_SHAPED, SQUARE, layout_of(SQUARE, gap=6.0))
    steps: list[Step] = list(seek(job, "floor"))
    assert all(not step.found for step in steps[:-1]) and steps[-1].found
    parts = [step.done for step in steps]
    assert parts == sorted(parts) and parts[-1] == 1.0
    assert steps == list(seek(job, "floor"))


def test_the_basis_is_a_layout_of_the_surface_and_tile_then_of_the_surface_then_a_plain_one() -> None:
    hexagon = HexagonTile(id="hex", across_flats=200)
    bond = layout_of(PLANK, row_offsets=(0.0, 0.5), joint=4.0, gap=7.0)
    job = Job(surfaces=(ROOM,), tiles=(PLANK, TILE, hexagon), layouts=(bond,))
    assert basis_of(job, "floor") is bond
    assert basis_of(job, "floor", "plank") is bond
    other = basis_of(job, "floor", "tile")
    assert (other.tile, other.settings, other.joint) == ("tile", bond.settings, 4.0)
    assert (basis_of(job, "floor", "hex").pattern, basis_of(job, "floor", "hex").gap) == ("hexagon", 7.0)
    assert basis_of(job_of(ROOM, TILE), "floor") == Layout(id="A", surface="floor", tile="tile")


def test_what_is_missing_is_named_with_what_there_is() -> None:
    job = Job(surfaces=(ROOM,), tiles=(PLANK, TILE))
    with pytest.raises(LayoutError, match=r'no surface "attic".* "floor"'):
        list(seek(job, "attic"))
    with pytest.raises(LayoutError, match=r'no tile "slate".* "plank", "tile"'):
        list(seek(job, "floor", "slate"))
    with pytest.raises(LayoutError, match=r'No tile is named.* "plank", "tile"'):
        list(seek(job, "floor"))
    with pytest.raises(LayoutError, match="no tile"):
        list(seek(Job(surfaces=(ROOM,)), "floor"))


def test_what_was_found_is_planned_one_layout_a_step(monkeypatch: pytest.MonkeyPatch) -> None:
    """So that a search can be left at once: however many are wished for, a step plans one at most."""
    planned, told, before = list[str](), list[float](), 0

    def counted(job: Job, layout_id: str) -> Plan:
        planned.append(layout_id)
        return plan(job, layout_id)

    monkeypatch.setattr("tilelayout.planning.seek.plan", counted)
    for step in seek(job_of(L_SHAPED, PLANK, layout_of(PLANK)), L_SHAPED.id, wish=Wish(most=4)):
        assert len(planned) - before <= 1
        before = len(planned)
        told.append(step.done)
    assert len(planned) >= 4 and told == sorted(told) and told[-1] == 1.0
