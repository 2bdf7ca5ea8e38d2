"""What can be typed after `tilelayout`, and the help for it."""

from __future__ import annotations

import argparse
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from tilelayout.base.errors import LengthError
from tilelayout.base.units import parse_length
from tilelayout.cli.trouble import CallError

AIMS = ("balanced", "widest-cut", "fewest-tiles", "fewest-cuts", "all")
"""What `seek` can aim at, the usual one first; "all" finds the layouts that nothing else beats."""

_MOST_FOUND = 50

_EXAMPLES = """\
examples:
  tilelayout                                       open the window
  tilelayout open kitchen.tilejob                  open the window on a job
  tilelayout lay kitchen.tilejob                   lay its layouts and say what they take
  tilelayout lay kitchen.tilejob --json            the same for a program to read
  tilelayout seek kitchen.tilejob --surface floor  look for the best start and rank what was found
  tilelayout flat kitchen.tilejob                  judge whether the floor is flat enough for the tile
  tilelayout print kitchen.tilejob --to cuts.pdf   write the plan and the cut list

exit status: 0 done, 1 done but a check asked for with --strict failed, 2 the input or the call was wrong
"""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise CallError(f"{message[:1].upper()}{message[1:]}.", f"`{self.prog} --help` shows what there is.")


if TYPE_CHECKING:
    _Commands = argparse._SubParsersAction[_Parser]


def parser() -> argparse.ArgumentParser:
    """Return the parser of the whole command line. A wrong call raises CallError."""
    top = _Parser(
        prog="tilelayout",
        description="Plans a tiled floor or wall: where to start, what to cut, and a cut list for the saw.",
        epilog=_EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    top.add_argument("--version", action=_Version, nargs=0, help="show the version and leave")
    commands = top.add_subparsers(dest="command", metavar="COMMAND", title="commands")
    _add_open(commands)
    _add_lay(commands)
    _add_seek(commands)
    _add_flat(commands)
    _add_print(commands)
    return top


class _Version(argparse.Action):
    """Prints the version; what knows it is slow to load and is loaded only here."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> NoReturn:
        from importlib.metadata import PackageNotFoundError, version

        try:
            print(f"tilelayout {version('tilelayout')}")
        except PackageNotFoundError:
            print("tilelayout (run from its source folder)")
        parser.exit()


def _command(commands: _Commands, name: str, help_text: str, description: str) -> argparse.ArgumentParser:
    return commands.add_parser(name, help=help_text, description=description, allow_abbrev=False)


def _add_open(commands: _Commands) -> None:
    command = _command(
        commands, "open", "open the window", "Opens the window, on a job file if one is named."
    )
    command.add_argument("job", metavar="JOB", nargs="?", type=Path, help="a .tilejob file")


def _add_lay(commands: _Commands) -> None:
    command = _command(
        commands,
        "lay",
        "lay the layouts of a job and measure them",
        "Lays the layouts of a job: whole tiles and cut pieces, slivers, tiles to open, and the cut list.",
    )
    command.add_argument("job", metavar="JOB", type=Path, help="a .tilejob file")
    command.add_argument("--layout", metavar="ID", help="only this layout")
    command.add_argument("--json", action="store_true", help="print one JSON document, every length in mm")
    command.add_argument("--strict", action="store_true", help="exit with status 1 on slivers, broken rules")
    command.add_argument(
        "--ranges", action="store_true", help="say what a wall 3 mm off or tiles 0.5 mm off would do"
    )
    command.add_argument(
        "--findings", action="store_true", help="show all that the trade's rules find, each with its source"
    )
    command.add_argument(
        "--whole-job",
        action="store_true",
        help="say what the first layout of every surface and all trims take together",
    )
    command.add_argument(
        "--fit", action="store_true", help="where tiles on hand are too few, try what would make them enough"
    )
    command.add_argument(
        "--stock", metavar="FILE", type=Path, help="lay what this file holds of the job's tiles first"
    )
    command.add_argument(
        "--keep-left",
        metavar="FILE",
        type=Path,
        help="write what the whole job leaves to this .tilestock file: whole tiles and offcuts",
    )


def _add_seek(commands: _Commands) -> None:
    command = _command(
        commands,
        "seek",
        "look for the best start of a layout",
        "Looks for the start of a layout that suits an aim best, and ranks what it found.",
    )
    command.add_argument("job", metavar="JOB", type=Path, help="a .tilejob file")
    command.add_argument("--surface", metavar="ID", required=True, help="the surface to lay")
    command.add_argument("--tile", metavar="ID", help="default: the tile of the surface's first layout")
    command.add_argument("--aim", metavar="NAME", default=AIMS[0], choices=AIMS, help=f"{', '.join(AIMS)}")
    command.add_argument("--most", metavar="N", type=_count, default=5, help="how many to return; default: 5")
    command.add_argument(
        "--alternatives", action="store_true", help="find the layouts nothing else beats, as --aim all"
    )
    command.add_argument(
        "--angle", metavar="DEGREES", type=float, action="append", help="try this angle; may stand again"
    )
    command.add_argument(
        "--row-offsets",
        metavar="SHARES",
        type=_shares,
        action="append",
        help='try these, such as "0,1/2" or "0,1/3,2/3"; may stand again',
    )
    command.add_argument("--joint-from", metavar="LENGTH", type=_joint, help="the least joint allowed")
    command.add_argument("--joint-to", metavar="LENGTH", type=_joint, help="the greatest joint allowed")
    command.add_argument("--json", action="store_true", help="print one JSON document, every length in mm")


def _shares(text: str) -> tuple[float, ...]:
    """Read row offsets, each a share of length and joint: a decimal or a fraction."""
    try:
        return tuple(float(Fraction(share.strip())) for share in text.split(","))
    except (ValueError, ZeroDivisionError):
        raise argparse.ArgumentTypeError(f'"{text}" is not like "0,1/2" or "0,0.3333"') from None


def _joint(text: str) -> float:
    try:
        return parse_length(text)
    except LengthError as error:
        raise argparse.ArgumentTypeError(str(error)) from None


def _count(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= _MOST_FOUND:
        raise argparse.ArgumentTypeError(f"{text} is not a number from 1 to {_MOST_FOUND}")
    return int(text)


def _add_flat(commands: _Commands) -> None:
    command = _command(
        commands,
        "flat",
        "judge how flat the surveyed surfaces are",
        "Judges each survey of a job against each tile planned on that surface, and says what it takes to "
        "make it flat enough.",
    )
    command.add_argument("job", metavar="JOB", type=Path, help="a .tilejob file")
    command.add_argument("--json", action="store_true", help="print one JSON document, every length in mm")
    command.add_argument("--strict", action="store_true", help="exit with status 1 if a verdict fails")
    command.add_argument(
        "--standards", action="store_true", help="show what other countries' standards would say"
    )
    command.add_argument(
        "--way",
        choices=("least-fill", "level", "plane", "grind-and-fill"),
        help="say what this way of making it flat takes, whatever the job asks",
    )
    command.add_argument(
        "--meet",
        metavar='"PLACE=HEIGHT, FALL"',
        action="append",
        default=[],
        help='fill to a plane through this height, as "hall door=5" or "1200, 300=3"; with a fall, as '
        '"drain=-12, 2 %%", to the surface that falls to it so; may be given several times',
    )


def _add_print(commands: _Commands) -> None:
    command = _command(
        commands,
        "print",
        "write the plan and the cut list as a PDF",
        "Writes the plan to scale and the cut list for the saw as a PDF.",
    )
    command.add_argument("job", metavar="JOB", type=Path, help="a .tilejob file")
    command.add_argument("--to", metavar="FILE.pdf", type=Path, required=True, help="the file to write")
    command.add_argument("--paper", choices=("letter", "a4"), default="letter", help="default: letter")
    command.add_argument("--layout", metavar="ID", help="only this layout")
