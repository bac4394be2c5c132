"""Samples and rigs arranged from nothing: ``python -m tests.sheet.arranged [--draw FOLDER] [NAME]``

Prints bends, crossings, length, clearance and processor time of each; with a folder it writes each
as a PDF, without the ground jumpers.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Iterator
from pathlib import Path

from reportlab.pdfgen.canvas import Canvas

from linework.design import Design
from linework.picture.fonts import face
from linework.picture.pdf import POINTS_PER_TENTH, PdfPainter, use_fonts
from linework.sheet.arranging import lay_out
from linework.sheet.compose import compose_all
from linework.storage import load
from tests.sheet.plainness import Plainness, bare, plainness, without_jumpers
from tests.trial.rigs import RIGS

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
_HEAD = f"{'design':34}{'parts':>6}{'lines':>6}{'bends':>6}{'cross':>6}{'mm':>7}{'clear':>6}"


def names() -> list[str]:
    """Of the samples, then of the rigs."""
    return [*(path.stem for path in sorted(SAMPLES.glob("*.linework"))), *RIGS]


def drawn(name: str) -> Design:
    """A sample as it is drawn, or a rig."""
    return RIGS[name]().design if name in RIGS else load(SAMPLES / f"{name}.linework")


def designs() -> Iterator[tuple[str, Design]]:
    """By name: the samples, then the rigs, without positions."""
    for name in names():
        yield name, bare(drawn(name))


def row(name: str, design: Design, plain: Plainness, seconds: float) -> str:
    """A line of the table."""
    told = [f" {plain.sheets} sheets"] if plain.sheets > 1 else []
    told += [f" {plain.outside} outside"] if plain.outside else []
    told += [f" {plain.overlaps} overlaps"] if plain.overlaps else []
    return (
        f"{name:34}{len(design.parts):6}{plain.lines:6}{plain.bends:6}{plain.crossings:6}"
        f"{plain.length:7}{plain.clearance:6.1f}{seconds:6.2f} s{''.join(told)}"
    )


def draw(design: Design, path: Path) -> None:
    """All sheets of a design as a PDF."""
    use_fonts()
    canvas = Canvas(str(path), invariant=1, initialFontName=face().name)
    painter = PdfPainter(canvas)
    for sheet in compose_all(without_jumpers(design)):
        picture = sheet.picture
        canvas.setPageSize((picture.width * POINTS_PER_TENTH, picture.height * POINTS_PER_TENTH))
        painter.paint(picture)
        canvas.showPage()
    canvas.save()


def main() -> None:
    """The table, and the drawings that are asked for."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--draw", type=Path)
    parser.add_argument("--as-placed", action="store_true", help="the samples as they are")
    parser.add_argument("names", nargs="*")
    asked = parser.parse_args()
    print(_HEAD)
    bends = crossed = 0
    for name in asked.names or names():
        design, start = drawn(name), time.process_time()
        placed = design if asked.as_placed else lay_out(bare(design))
        seconds = time.process_time() - start
        plain = plainness(placed)
        bends, crossed = bends + plain.bends, crossed + plain.crossings
        print(row(name, design, plain, seconds), flush=True)
        if asked.draw:
            draw(placed, asked.draw / f"{name}.pdf")
    print(f"{'together':46}{bends:6}{crossed:6}")


if __name__ == "__main__":
    main()
