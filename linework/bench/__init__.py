"""The Qt program: canvas, card, levers, findings margin, actions."""

from __future__ import annotations

from collections.abc import Sequence


def main(argv: Sequence[str]) -> int:
    """Open the bench with these arguments; return the exit code. Qt is imported here."""
    from linework.bench.app import run

    return run(argv)
