"""The one check command: `python -m tests.check` runs everything a change has to pass, quickest first.

It prints a table of sizes (functions and files, with the ones over the limit named) before the tests, and
ends with the tests' own closing line.
"""

from __future__ import annotations

import ast
import os
import statistics
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LONGEST_FUNCTION = 60
LONGEST_FILE = 400

STEPS = (
    ("format", ["ruff", "format", "--check", "."]),
    ("lint", ["ruff", "check", "."]),
    ("types", ["mypy"]),
    ("imports", ["lint-imports"]),
    ("sizes", None),
    ("tests", ["pytest", "-n", "auto", "--dist", "worksteal"]),
)


def functions_of(path: Path) -> Iterator[tuple[int, str]]:
    """Yield (lines, name) of every function in a file."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield (node.end_lineno or node.lineno) - node.lineno + 1, f"{path.relative_to(ROOT)}: {node.name}"


def _sizes_ok() -> bool:
    """Print the table of sizes; False if a file or function is over the limit."""
    files = sorted((ROOT / "tilelayout").rglob("*.py"))
    lines = {path: len(path.read_text(encoding="utf-8").splitlines()) for path in files}
    sizes = sorted(size for path in files for size in functions_of(path))
    only = [size for size, _ in sizes]
    ninth = only[int(len(only) * 0.9)]
    print(
        f"  functions {len(only)}: median {statistics.median(only):.0f} lines, nine in ten under {ninth + 1}"
    )
    print(f"  files     {len(files)}: median {statistics.median(lines.values()):.0f} lines")
    long = [f"  too long: {name} ({size} lines)" for size, name in sizes if size > LONGEST_FUNCTION]
    long += [f"  too long: {path.relative_to(ROOT)} ({n})" for path, n in lines.items() if n > LONGEST_FILE]
    print("\n".join(long), end="\n" if long else "")
    return not long


def _passes(command: list[str] | None) -> bool:
    if command is None:
        return _sizes_ok()
    module_or_script = Path(sys.executable).parent / command[0]
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    return (
        subprocess.run([module_or_script, *command[1:]], cwd=ROOT, env=environment, check=False).returncode
        == 0
    )


def main() -> int:
    """Run the steps named on the command line, or all of them; stop at the first that fails."""
    wanted = sys.argv[1:] or [name for name, _ in STEPS]
    for name, command in STEPS:
        if name not in wanted:
            continue
        print(f"== {name}", flush=True)
        if not _passes(command):
            print(f"{name} failed", file=sys.stderr)
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
