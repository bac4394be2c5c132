"""The Qt program, in rooms that a person who sees the window would name.

Each room is a package whose ``__init__.py`` is its front door: what the other rooms may use. They
meet nowhere else (`pyproject.toml` holds the contracts).
"""

from __future__ import annotations

from collections.abc import Sequence


def main(argv: Sequence[str]) -> int:
    """Open the bench with these arguments; return the exit code. Qt is imported here."""
    from linework.bench.app import run

    return run(argv)
