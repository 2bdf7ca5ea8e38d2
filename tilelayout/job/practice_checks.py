"""What cannot be of all that the trade's rules judge by: layers, heights, adhesive, trims, breakage."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tilelayout.job import limits
from tilelayout.job.adhesive_class import adhesive_class
from tilelayout.job.ground import Adhesive, Breakage, Layer, Trim
from tilelayout.job.limits import Problem, inside
from tilelayout.job.values import Cutout, Edge, Surface


def ground_problems(surface: Surface) -> Iterator[Problem]:
    """Return what is wrong with what the surface is built of and with what meets it."""
    yield from _layer_problems("layers", surface.layers)
    for index, edge in enumerate(surface.edges):
        yield from inside(f"edges[{index}]", _meeting_problems(edge))
    for index, cutout in enumerate(surface.cutouts):
        yield from inside(f"cutouts[{index}]", _fitting_problems(cutout))
    if surface.adhesive is not None:
        yield from inside("adhesive", adhesive_problems(surface.adhesive))
    for index, trim in enumerate(surface.trims):
        yield from inside(f"trims[{index}]", _trim_problems(trim, len(surface.outline)))


def adhesive_problems(adhesive: Adhesive) -> Iterator[Problem]:
    """Return what is wrong with the class, bed and notch of an adhesive."""
    if adhesive.grade and adhesive_class(adhesive.grade) is None:
        what = f"“{adhesive.grade[:40]}” is no class of an adhesive known here."
        yield Problem("class", what, "Write it as on the bag: C2TE S1, D1, A118.4H or A136.1 Type I.")
    least, most = adhesive.bed or (0.0, 0.0)
    for index, thickness in enumerate((least, most)):
        yield from limits.BED.problems(thickness, f"bed[{index}]")
    if least > most:
        what = f"The bed goes from {least:g} mm down to {most:g} mm."
        yield Problem("bed", what, "Give the thinnest first, then the thickest.")
    yield from limits.NOTCH.problems(adhesive.notch, "notch")


def breakage_problems(breakage: Breakage | None) -> Iterator[Problem]:
    """Return what is wrong with the allowances for breakage."""
    for key in ("straight", "notch", "hole", "narrow") if breakage is not None else ():
        yield from limits.ONE_BREAKS_IN.problems(getattr(breakage, key), key)
    if breakage is None:
        return
    yield from limits.BREAKAGE.problems(breakage.tiles, "tiles")
    yield from limits.BREAKAGE_PERCENT.problems(breakage.percent, "percent")
    if breakage.tiles is not None and breakage.percent is not None:
        what = "What breaks is set twice, as a number of tiles and as a share."
        yield Problem("percent", what, "Give one of the two.")


def _layer_problems(place: str, layers: Iterable[Layer]) -> Iterator[Problem]:
    for index, layer in enumerate(layers):
        yield from limits.LAYER_THICKNESS.problems(layer.thickness, f"{place}[{index}].thickness")


def _meeting_problems(edge: Edge) -> Iterator[Problem]:
    yield from limits.HEIGHT.problems(edge.meets, "meets")
    yield from limits.HEIGHT.problems(edge.door, "door")
    yield from _layer_problems("beyond", edge.beyond)
    if edge.beyond and edge.meets is not None:
        what = "The height of the floor beyond is given twice, as a height and in layers."
        yield Problem("meets", what, "Give one of the two.")


def _fitting_problems(cutout: Cutout) -> Iterator[Problem]:
    yield from limits.HEIGHT.problems(cutout.meets, "meets")
    yield from limits.HEIGHT.problems(cutout.tall, "tall")
    if cutout.kind is None and (cutout.meets is not None or cutout.tall is not None):
        yield Problem("is", "A height is given of a cutout that is nothing in particular.", _SAY_WHAT)


_SAY_WHAT = 'Say what it "is", a flange or an appliance, or leave the height out.'


def _trim_problems(trim: Trim, edges: int) -> Iterator[Problem]:
    yield from limits.TRIM_HEIGHT.problems(trim.height, "height")
    for index, edge in enumerate(trim.edges):
        if not 0 <= edge < edges:
            mend = f"The edges of this outline are 0 to {edges - 1}."
            yield Problem(f"edges[{index}]", f"There is no edge {edge}.", mend)
    if len(set(trim.edges)) < len(trim.edges):
        yield Problem("edges", "An edge is named twice.", "Name each edge once.")
