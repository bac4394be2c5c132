"""The program's one door: opens the bench, or hands a command to the command line."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from linework import __version__

COMMANDS = frozenset({"check", "study", "export"})


def main(argv: Sequence[str] | None = None) -> int:
    """Run ``linework`` with these arguments (the process's own by default); return the exit code.

    What starts with a command or an option is the command line's. All else, nothing or the
    files to open, is the bench's. Each is imported only when it is wanted, so that a check
    needs no Qt and ``--version`` needs no more than this file.
    """
    arguments = list(sys.argv[1:] if argv is None else argv)
    if arguments == ["--version"]:
        print(f"linework {__version__}")
        return 0
    if arguments and (arguments[0] in COMMANDS or arguments[0].startswith("-")):
        from linework.cli import main as run_command

        return run_command(arguments)
    from linework.bench import main as open_bench

    return open_bench(arguments)


if __name__ == "__main__":
    sys.exit(main())
