"""The one table of everything a person can ask for; menus, tool strip and the list of keys are made from it.

`keys` names the platform's own standard keys where there are any. A key without Ctrl or Alt acts only while
the board has the focus, so that it never gets in the way of typing.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtGui import QKeySequence

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.cards.lines import TOOL_WORDS
from tilelayout.app.heights.opened import open_heights
from tilelayout.app.look import Scheme
from tilelayout.app.trims.sheet import open_trims
from tilelayout.app.workplace import Workplace
from tilelayout.job.same_tile import has_stock
from tilelayout.job.values import SurfaceKind

Key = QKeySequence.StandardKey


class Menu(StrEnum):
    """The menus in their order; the letter after "&" opens one."""

    JOB = "&Job"
    EDIT = "&Edit"
    VIEW = "&View"
    DRAW = "&Draw"
    PATH = "&Path"
    HELP = "&Help"


@dataclass(frozen=True)
class Action:
    """One thing to ask for.

    `when` says whether it can be asked for now, `is_on` whether it is in force (for things that are either
    on or off). `on_board`: its keys act only while the board has the focus. `stages`: it stands in the
    strip above the board while one of these questions is in front, there as `short` if that is given.
    `begins_group`: a line goes before it.
    """

    id: str
    text: str
    menu: Menu
    does: Callable[[Workplace], object]
    keys: tuple[Key | str, ...] = ()
    when: Callable[[Bench], bool] = lambda _bench: True
    is_on: Callable[[Workplace], bool] | None = None
    on_board: bool = False
    stages: frozenset[Stage] = frozenset()
    begins_group: bool = False
    short: str = ""

    @property
    def strip_text(self) -> str:
        """What it is called in the strip, where the words beside it say the rest."""
        return self.short or self.text


def _has_surface(bench: Bench) -> bool:
    return bench.surface is not None


def _has_plan(bench: Bench) -> bool:
    return bench.plan is not None


def _is_at_surface(bench: Bench) -> bool:
    return bench.surface is not None and bench.stage is Stage.SURFACE


def _tool(
    name: str,
    text: str,
    key: str,
    stages: tuple[Stage, ...],
    *,
    kind: SurfaceKind | None = None,
    when: Callable[[Bench], bool] = _has_surface,
    short: str = "",
) -> Action:
    """Return the action that takes a drawing tool; a letter chooses it on the board."""

    def take(place: Workplace) -> None:
        if kind is None:
            place.board.use_tool(name)
        else:
            place.board.use_tool(name, new_kind=kind)

    def is_taken(place: Workplace) -> bool:
        return place.board.tool == name and (kind is None or place.board.new_kind is kind)

    id = f"{name}-{kind}" if kind else name
    return Action(
        id,
        text,
        Menu.DRAW,
        take,
        (key,),
        when,
        is_taken,
        on_board=True,
        stages=frozenset(stages),
        short=short,
    )


def _line_tool(name: str, text: str, *, begins_group: bool) -> Action:
    """Return the action that takes a tool to add a reference line of the layout."""

    def take(place: Workplace) -> None:
        place.bench.show(stage=Stage.SET_OUT)
        place.board.use_tool(name)

    return Action(
        name.replace("_", "-"),
        f"{text}…",
        Menu.DRAW,
        take,
        when=_has_plan,
        is_on=lambda place: place.board.tool == name,
        begins_group=begins_group,
    )


def _stage(stage: Stage, text: str, key: str) -> Action:
    return Action(
        f"stage-{stage}",
        text,
        Menu.PATH,
        lambda place: place.bench.show(stage=stage),
        (key,),
        is_on=lambda place: place.bench.stage is stage,
    )


def _scheme(scheme: Scheme, text: str, *, begins_group: bool = False) -> Action:
    return Action(
        f"look-{scheme}",
        text,
        Menu.VIEW,
        lambda place: place.window.choose_scheme(scheme),
        is_on=lambda place: place.bench.look.scheme is scheme,
        begins_group=begins_group,
    )


def _always(_bench: Bench) -> bool:
    return True


_M, _T, _S, _C = Stage.MEASURE, Stage.TILE, Stage.SET_OUT, Stage.CUT

ACTIONS: tuple[Action, ...] = (
    Action("new", "New job", Menu.JOB, lambda place: place.documents.new(), (Key.New,)),
    Action("open", "Open…", Menu.JOB, lambda place: place.documents.open(), (Key.Open,)),
    Action("save", "Save", Menu.JOB, lambda place: place.documents.save(), (Key.Save,), begins_group=True),
    Action(
        "save-as", "Save as…", Menu.JOB, lambda place: place.documents.save_as(), (Key.SaveAs, "Ctrl+Shift+S")
    ),
    Action(
        "print",
        "Print or save as PDF…",
        Menu.JOB,
        lambda place: place.printing.ask(),
        (Key.Print,),
        _has_plan,
        begins_group=True,
    ),
    Action(
        "what-to-buy",
        "What to buy…",
        Menu.JOB,
        lambda place: place.window.stock.show_what_to_buy(),
        when=_has_plan,
        begins_group=True,
    ),
    Action(
        "take-from-stock", "Take from stock…", Menu.JOB, lambda place: place.window.stock.ask_what_to_take()
    ),
    Action(
        "keep-what-is-left",
        "Keep what is left…",
        Menu.JOB,
        lambda place: place.window.stock.show_what_is_left(),
        when=lambda bench: bool(bench.job.tiles),
    ),
    Action("close", "Close", Menu.JOB, lambda place: place.window.close(), (Key.Quit, "Ctrl+Q")),
    Action(
        "undo",
        "Undo",
        Menu.EDIT,
        lambda place: place.bench.session.undo(),
        (Key.Undo,),
        lambda bench: bench.session.can_undo,
        stages=frozenset(Stage),
    ),
    Action(
        "redo",
        "Redo",
        Menu.EDIT,
        lambda place: place.bench.session.redo(),
        (Key.Redo, "Ctrl+Y", "Ctrl+Shift+Z"),
        lambda bench: bench.session.can_redo,
        stages=frozenset(Stage),
    ),
    Action(
        "find-start",
        "Find the best start",
        Menu.EDIT,
        lambda place: place.window.find_start(),
        (Key.Find,),
        _has_plan,
        begins_group=True,
    ),
    Action(
        "stop-search",
        "Stop the search",
        Menu.EDIT,
        lambda place: place.bench.seeker.cancel(),
        ("Esc",),
        lambda bench: bench.seeker.is_working,
    ),
    Action(
        "offcuts",
        "Offcuts on hand…",
        Menu.EDIT,
        lambda place: place.window.stock.show_offcuts(),
        when=lambda bench: bench.tile is not None,
        begins_group=True,
    ),
    Action(
        "make-it-fit",
        "Make it fit the tiles on hand…",
        Menu.EDIT,
        lambda place: place.window.stock.make_it_fit(),
        when=lambda bench: bench.plan is not None and any(has_stock(tile) for tile in bench.plan.tiles),
    ),
    Action(
        "heights",
        "Layers and heights…",
        Menu.EDIT,
        lambda place: open_heights(place.bench, place.window),
        when=_has_surface,
        begins_group=True,
    ),
    Action(
        "trims", "Trims…", Menu.EDIT, lambda place: open_trims(place.bench, place.window), when=_has_surface
    ),
    Action("zoom-in", "Larger", Menu.VIEW, lambda place: place.sight.zoom_in(), (Key.ZoomIn, "Ctrl+=")),
    Action("zoom-out", "Smaller", Menu.VIEW, lambda place: place.sight.zoom_out(), (Key.ZoomOut,)),
    Action("fit", "Everything", Menu.VIEW, lambda place: place.sight.fit(), ("Ctrl+0",)),
    Action(
        "fit-chosen",
        "What is chosen",
        Menu.VIEW,
        lambda place: place.sight.zoom_to_selection(),
        ("Ctrl+9",),
        _has_surface,
    ),
    Action("actual-size", "Actual size", Menu.VIEW, lambda place: place.sight.actual_size(), ("Ctrl+8",)),
    Action(
        "map-of-starts",
        "Map of starts",
        Menu.VIEW,
        lambda place: place.window.toggle_map(),
        ("M",),
        lambda bench: bench.plan is not None and bench.stage is Stage.SET_OUT,
        lambda place: place.window.map_is_open,
        on_board=True,
        stages=frozenset((Stage.SET_OUT,)),
        begins_group=True,
        short="Map",
    ),
    Action(
        "wipe",
        "Wipe between two layouts",
        Menu.VIEW,
        lambda place: place.window.compare.toggle_wipe(),
        ("Ctrl+B",),
        lambda bench: bench.stage is Stage.COMPARE and len(bench.layouts) + len(bench.seeker.offers) > 1,
        lambda place: place.window.compare.is_wiping,
        stages=frozenset((Stage.COMPARE,)),
    ),
    _scheme(Scheme.SYSTEM, "Look as the system", begins_group=True),
    _scheme(Scheme.LIGHT, "Light look"),
    _scheme(Scheme.DARK, "Dark look"),
    _tool("select", "Choose and move", "S", (_M, _T, _S, _C), when=_always, short="Choose"),
    _tool("draw_rectangle", "Plain room", "R", (_M,), kind=SurfaceKind.FLOOR, when=_always),
    _tool(
        "draw_surface", "Floor by corners", "F", (_M,), kind=SurfaceKind.FLOOR, when=_always, short="Floor"
    ),
    _tool("draw_surface", "Wall by corners", "W", (_M,), kind=SurfaceKind.WALL, when=_always, short="Wall"),
    _tool("insert_corner", "Corner", "C", (_M,)),
    _tool("bend_edge", "Bend an edge", "E", (_M,), short="Bend"),
    _tool("add_rect_cutout", "Box cutout", "B", (_M,)),
    _tool("add_round_cutout", "Round cutout", "O", (_M,)),
    _tool("read_heights", "Read heights", "H", (Stage.SURFACE,), when=_is_at_surface),
    _tool(
        "measure_between",
        "Measure between two points",
        "T",
        (_M, _T, Stage.SURFACE, _S, _C),
        short="Tape",
    ),
    _tool("drag_start", "Drag the start", "D", (_S,), when=_has_plan),
    *(_line_tool(name, text, begins_group=at == 0) for at, (name, text) in enumerate(TOOL_WORDS.items())),
    _stage(_M, "Measure", "Ctrl+1"),
    _stage(_T, "Tile", "Ctrl+2"),
    _stage(Stage.SURFACE, "Surface", "Ctrl+3"),
    _stage(_S, "Set out", "Ctrl+4"),
    _stage(Stage.COMPARE, "Compare", "Ctrl+5"),
    _stage(_C, "Cut", "Ctrl+6"),
    Action(
        "next-surface",
        "Next surface",
        Menu.PATH,
        lambda place: place.window.show_next_surface(),
        ("Ctrl+PgDown",),
        _has_surface,
        begins_group=True,
    ),
    Action("to-board", "Go to the board", Menu.PATH, lambda place: place.window.focus_sight(), ("F6",)),
    Action("to-card", "Go to the card", Menu.PATH, lambda place: place.window.focus_card(), ("F7",)),
    Action("keys", "List of keys", Menu.HELP, lambda place: place.window.show_keys(), (Key.HelpContents,)),
)


def key_sequences(action: Action) -> list[QKeySequence]:
    """Return the keys of an action on this platform, each once."""
    found: list[QKeySequence] = []
    for key in action.keys:
        many = [QKeySequence(key)] if isinstance(key, str) else QKeySequence.keyBindings(key)
        found += [each for each in many if not each.isEmpty() and each not in found]
    return found
