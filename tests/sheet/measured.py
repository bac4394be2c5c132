"""The figures of every sample's sheets and of the rigs: ``python -m tests.sheet.measured``."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from linework.design import Design
from linework.sheet.arranging import lay_out, needs_arranging
from linework.sheet.compose import compose_all
from linework.storage import load
from tests.sheet.measures import Measures, measured
from tests.trial.rigs import RIGS

SAMPLES = sorted(Path(__file__).parents[2].glob("samples/*.linework"))
_HEADS = (
    *("overlap", "erased", "outside", "touch", "through", "far", "short", "lost"),
    *("bends", "cross", "length/mm", "clear/mm"),
)


def designs() -> Iterator[tuple[str, Design]]:
    """Samples as they are drawn, rigs as they are laid out."""
    for path in SAMPLES:
        yield path.stem, load(path)
    for name, draw in RIGS.items():
        yield name, draw().design


def row(found: Measures) -> tuple[object, ...]:
    """The figures in the order of the heads."""
    return (
        len(found.overlaps),
        len(found.erased),
        len(found.outside),
        len(found.touching),
        len(found.through),
        len(found.far),
        found.short,
        found.lost,
        found.bends,
        found.crossings,
        found.length // 10,
        f"{found.clearance / 10:.2f}",
    )


def main() -> None:
    """Print a line for each sheet."""
    print(f"{'':32}", *(f"{head:>9}" for head in _HEADS))
    for name, design in designs():
        placed = lay_out(design) if needs_arranging(design) else design
        for number, sheet in enumerate(compose_all(placed), start=1):
            figures = row(measured(placed, sheet))
            print(f"{name + ' ' + str(number):32}", *(f"{figure!s:>9}" for figure in figures))


if __name__ == "__main__":
    main()
