from __future__ import annotations

import msgspec
import numpy as np
import pytest

from tests.cli.calls import SAMPLES
from tests.planning.jobs import job_of
from tests.rooms import L_SHAPED, PLANK, SQUARE, floor_of, rectangle
from tilelayout.job.values import Edge, EdgeRole, Job, Surface, Tile
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.region import region_of
from tilelayout.layout.seeking.aims import Aim
from tilelayout.layout.seeking.balance import Balance, facing_pairs
from tilelayout.layout.seeking.trials import Trials
from tilelayout.planning.alternative_figures import Figures, beats, figures_of, unbeaten
from tilelayout.planning.alternative_words import figures_told, reason_kept
from tilelayout.planning.alternatives import Alternative, Step, alternatives
from tilelayout.planning.open_job import open_job
from tilelayout.planning.plan import plan
from tilelayout.planning.seek import Wish, seek

SMALL = floor_of((0, 0), (1530, 0), (1530, 1240), (0, 1240), edges=(Edge(at=0, role=EdgeRole.DOORWAY),))
OBLIQUE = floor_of((0, 0), (1530, 60), (1480, 1240), (0, 1240))
ROOMS: dict[str, tuple[Surface, Tile]] = {
    "plain": (SMALL, SQUARE),
    "L-shaped": (L_SHAPED, PLANK),
    "oblique": (OBLIQUE, SQUARE),
}


def last_step(job: Job, most: int = 12) -> Step:
    return list(alternatives(job, "floor", None, Wish(most=most)))[-1]


@pytest.fixture(scope="module", params=sorted(ROOMS))
def sought(request: pytest.FixtureRequest) -> tuple[Job, Step]:
    job = job_of(*ROOMS[request.param], gap=5.0)
    return job, last_step(job)


def test_none_of_them_beats_another(sought: tuple[Job, Step]) -> None:
    _, step = sought
    assert step.found
    for one in step.found:
        assert not any(other.figures.beats(one.figures) for other in step.found)


def test_no_two_of_them_are_what_a_person_would_call_the_same(sought: tuple[Job, Step]) -> None:
    _, step = sought
    figures = [one.figures.weighed for one in step.found]
    assert len(set(figures)) == len(figures)
    assert len({one.layout.id for one in step.found} | {"A"}) == len(figures) + 1


def test_the_figures_are_those_of_the_plan_and_the_sentence_tells_them(sought: tuple[Job, Step]) -> None:
    job, step = sought
    for one in step.found:
        made = plan(msgspec.structs.replace(job, layouts=(one.layout,)), one.layout.id)
        figures = one.figures
        assert (len(made.slivers), made.cut, made.tiles_needed) == (
            figures.slivers, figures.cuts, figures.tiles_needed,
        )  # fmt: skip
        assert made.narrowest == pytest.approx(figures.narrowest, abs=1e-4)
        assert f"{figures.cuts} pieces to cut, {figures.tiles_needed} tiles to open" in one.why


def test_what_is_said_to_be_best_is_best(sought: tuple[Job, Step]) -> None:
    _, step = sought
    said: dict[str, list[float]] = {
        "fewest slivers of all": [one.figures.slivers for one in step.found],
        "widest cuts of all": [-one.figures.narrowest for one in step.found],
        "fewest cuts of all": [one.figures.cuts for one in step.found],
        "fewest tiles of all": [one.figures.tiles_needed for one in step.found],
        "fewest settings of the saw of all": [one.figures.saw_settings for one in step.found],
    }
    for words, values in said.items():
        telling = [at for at, one in enumerate(step.found) if words in one.why]
        assert len(telling) <= 1
        for at in telling:
            assert all(values[at] < other for k, other in enumerate(values) if k != at)


def test_the_best_of_every_aim_is_not_beaten_by_a_seek_for_it(sought: tuple[Job, Step]) -> None:
    job, step = sought
    widest = list(seek(job, "floor", None, Wish(Aim.WIDEST_CUT, 1)))[-1].found[0]
    fewest = list(seek(job, "floor", None, Wish(Aim.FEWEST_CUTS, 1)))[-1].found[0]
    assert max(one.figures.narrowest for one in step.found) >= (widest.narrowest or 0.0) - 1.0
    assert min(one.figures.cuts for one in step.found) <= fewest.cuts


def test_no_start_of_a_raster_beats_one_of_them_by_more_than_a_person_sees() -> None:
    surface, tile = ROOMS["plain"]
    job = job_of(surface, tile, gap=5.0)
    step, layout = last_step(job), job.layouts[0]
    region = region_of(surface, layout.gap)
    trials = Trials(tile, layout, region)
    balance = Balance(facing_pairs(region), trials.placed)
    shares = np.array([(a, b) for a in range(8) for b in range(8)]) / 8.0
    for trial in trials.of(shares @ cell_of(layout, tile).vectors):
        made = plan(
            msgspec.structs.replace(job, layouts=(msgspec.structs.replace(layout, start=trial.start),)), "A"
        )
        figures = figures_of(made, trial.narrowest, balance.unequal(trial.start))
        for one in step.found:
            assert not surely_beats(figures, one)


def surely_beats(figures: Figures, one: Alternative) -> bool:
    """Whether figures beat an alternative's with 1 mm to spare in every length."""
    ours = list(figures.weighed)
    for at in (2, 3, 7):
        ours[at] += 1.0
    return beats(tuple(ours), one.figures.weighed)


def test_the_same_on_every_run_and_steps_that_only_go_on() -> None:
    job = job_of(SMALL, SQUARE, gap=5.0)
    once, again = (list(alternatives(job, "floor")) for _ in range(2))
    assert once == again
    parts = [step.done for step in once]
    assert parts == sorted(parts) and parts[-1] == 1.0
    assert all(not step.found for step in once[:-1]) and len(once[-1].found) <= 5


def test_what_cannot_be_had_is_certain_only_where_it_is_proved() -> None:
    third = job_of(rectangle(3000, 4 * 300 - 3), SQUARE, row_offsets=(0.0, 1 / 3, 2 / 3), gap=0.0)
    (said,) = last_step(third).cannot
    assert said.startswith("No start leaves half a tile in a third offset here; the best is")
    (said,) = last_step(job_of(OBLIQUE, SQUARE, gap=5.0)).cannot
    assert said.startswith("No start that leaves half a tile in a plain grid was found; the best found is")
    assert last_step(job_of(rectangle(1530, 1240), SQUARE, gap=5.0)).cannot == ()


def test_of_figures_those_that_nothing_beats_stay() -> None:
    these = [(1.0, 2.0), (2.0, 1.0), (2.0, 2.0), (1.0, 2.0)]
    assert unbeaten(["a", "b", "c", "d"], these) == ["a", "b", "d"]
    assert not beats(these[0], these[0]) and beats(these[0], these[2])


def test_why_a_layout_is_kept() -> None:
    style = job_of(SMALL).show_lengths
    plain, other = Figures(0, 0, 100.0, 0.0, 20, 4, 30), Figures(0, 0, 100.0, 0.0, 18, 4, 31)
    assert reason_kept(plain, [plain, other], style) == "fewest tiles of all: 30"
    sliver = Figures(0, 1, 100.0, 0.0, 20, 4, 29)
    assert reason_kept(plain, [sliver, plain, other], style) == "fewest tiles of those with no slivers: 30"
    third, fourth = Figures(0, 0, 100.0, 5.0, 19, 3, 29), Figures(0, 0, 90.0, 0.0, 17, 3, 40)
    assert reason_kept(plain, [other, plain, third, fourth], style) == "fewer tiles than the first: 30"
    assert figures_told(plain, style).startswith("narrowest cut 100 mm, no slivers, 20 pieces to cut")


def test_a_border_narrower_than_the_field_is_told_and_weighs_nothing() -> None:
    job = open_job(SAMPLES / "garden_room.tilejob")
    *steps, last = alternatives(job, "floor", "sand")
    mitre = min(piece.narrowest for piece in plan(job, "A").laid.cut if piece.id.startswith("b"))
    assert {step.narrowest for step in steps} == {mitre}
    for one in last.found:
        made = plan(msgspec.structs.replace(job, layouts=(one.layout,)), one.layout.id)
        assert one.figures.narrowest_of_all == pytest.approx(made.narrowest)
    first = last.found[0]
    assert first.why.startswith(f"{first.reason}; narrowest cut 97 mm,")
    assert first.figures.weighed[2] < -mitre
