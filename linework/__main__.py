"""The program's one door: opens the bench, or hands a command to the command line."""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Sequence

from linework import __version__

COMMANDS = frozenset({"check", "study", "supply", "export"})

READER_GONE = 141
"""As a shell tells of a command that the closed pipe has ended: 128 and the signal's number."""

_NO_READER = (errno.EPIPE, errno.EINVAL)
"""What writing into a closed pipe raises; the second one on Windows."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run ``linework`` with these arguments (the process's own by default); return the exit code.

    What starts with a command or an option is the command line's. All else, nothing or the
    files to open, is the bench's. Each is imported only when it is wanted, so that a check
    needs no Qt and ``--version`` needs no more than this file.
    """
    arguments = list(sys.argv[1:] if argv is None else argv)
    if arguments and (arguments[0] in COMMANDS or arguments[0].startswith("-")):
        return _printing(arguments)
    from linework.bench import main as open_bench

    return open_bench(arguments)


def _printing(arguments: Sequence[str]) -> int:
    """The exit code of a command, READER_GONE where nobody reads on what it prints."""
    try:
        try:
            return _command(arguments)
        finally:
            if sys.stdout is not None:
                sys.stdout.flush()  # else it would fail when nobody can catch it any more
    except OSError as fault:
        if fault.errno not in _NO_READER:
            raise
        # What is still held back would fail once more at the very end.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return READER_GONE


def _command(arguments: Sequence[str]) -> int:
    if list(arguments) == ["--version"]:
        print(f"linework {__version__}")
        return 0
    from linework.cli import main as run_command

    return run_command(arguments)


if __name__ == "__main__":
    sys.exit(main())
