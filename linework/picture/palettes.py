"""Which colour each ink has on the screen (light, dark, high contrast) and on paper.

Every ink that writes or draws meaning has at least 4.5:1 against paper and tint (WCAG 2.1, 1.4.3,
which includes the 3:1 of 1.4.11); the tests compute it. No source is red or green: those stay
free for danger and for what was found sound. Colour never stands alone: levels have their own
shapes, sources their letters.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from linework.picture.inks import Ink

PaletteName = Literal["light", "dark", "contrast", "print"]


@dataclass(frozen=True)
class Palette:
    """A colour, as #rrggbb, for every ink."""

    name: PaletteName
    colors: Mapping[Ink, str]

    def color(self, ink: Ink) -> str:
        """The colour of an ink."""
        return self.colors[ink]

    def rgb(self, ink: Ink) -> tuple[float, float, float]:
        """The colour of an ink, each part from 0 to 1."""
        return rgb(self.colors[ink])


def rgb(color: str) -> tuple[float, float, float]:
    """Red, green and blue of #rrggbb, each from 0 to 1."""
    red, green, blue = (int(color[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return red, green, blue


def luminance(color: str) -> float:
    """Relative luminance (WCAG 2.1, definitions)."""
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in rgb(color)
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.1, definitions)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


# Insulation colours stay what they are on any paper (IEC 60445, NEC 200.6 and 250.119); an edge
# line makes the pale and the dark ones visible.
_WIRES = {
    Ink.WIRE_BLACK: "#1a1a1a",
    Ink.WIRE_RED: "#c8281e",
    Ink.WIRE_BLUE: "#2a6fc0",
    Ink.WIRE_WHITE: "#ffffff",
    Ink.WIRE_GREY: "#9a9a9a",
    Ink.WIRE_BROWN: "#7a4a21",
    Ink.WIRE_GREEN: "#1f8a3b",
    Ink.WIRE_YELLOW: "#f2d21b",
    Ink.WIRE_PINK: "#e79ab0",
    Ink.WIRE_ORANGE: "#e8811a",
}

LIGHT = Palette(
    "light",
    {
        Ink.INK: "#1d2226",
        Ink.QUIET: "#5c6166",
        Ink.FAINT: "#d9dad6",
        Ink.DESK: "#dfe0dc",
        Ink.PAPER: "#fffefa",
        Ink.TINT: "#f6f4ec",
        Ink.DANGER: "#b3141f",
        Ink.WARNING: "#8a4b00",
        Ink.NOTE: "#4a5568",
        Ink.SOUND: "#17694a",
        Ink.ASSUMED: "#6b5a14",
        Ink.ASSUMED_FIELD: "#fdf3cf",
        Ink.CHOSEN: "#0b6577",
        Ink.CHOSEN_FIELD: "#d8eef2",
        Ink.SOURCE_1: "#005fb0",
        Ink.SOURCE_2: "#a84a00",
        Ink.SOURCE_3: "#5b45b0",
        Ink.SOURCE_4: "#00707f",
        Ink.SOURCE_5: "#963c7c",
        Ink.SOURCE_6: "#7d6000",
        Ink.WIRE_EDGE: "#3c4146",
        **_WIRES,
    },
)

DARK = Palette(
    "dark",
    {
        Ink.INK: "#eceae4",
        Ink.QUIET: "#a6a9ab",
        Ink.FAINT: "#3a3d40",
        Ink.DESK: "#101112",
        Ink.PAPER: "#1c1e20",
        Ink.TINT: "#26292b",
        Ink.DANGER: "#ff8a85",
        Ink.WARNING: "#f0ad55",
        Ink.NOTE: "#a9b8cf",
        Ink.SOUND: "#6fcf9f",
        Ink.ASSUMED: "#e2c765",
        Ink.ASSUMED_FIELD: "#3b3519",
        Ink.CHOSEN: "#63cfe3",
        Ink.CHOSEN_FIELD: "#163c45",
        Ink.SOURCE_1: "#6db8f2",
        Ink.SOURCE_2: "#f59a55",
        Ink.SOURCE_3: "#b3a4f7",
        Ink.SOURCE_4: "#58cbd8",
        Ink.SOURCE_5: "#e79ad0",
        Ink.SOURCE_6: "#d9b84a",
        Ink.WIRE_EDGE: "#c9ccce",
        **_WIRES,
    },
)

CONTRAST = Palette(
    "contrast",
    {
        Ink.INK: "#000000",
        Ink.QUIET: "#333333",
        Ink.FAINT: "#bbbbbb",
        Ink.DESK: "#c8c8c8",
        Ink.PAPER: "#ffffff",
        Ink.TINT: "#ffffff",
        Ink.DANGER: "#94000d",
        Ink.WARNING: "#6b3600",
        Ink.NOTE: "#26323f",
        Ink.SOUND: "#004d30",
        Ink.ASSUMED: "#4d3f00",
        Ink.ASSUMED_FIELD: "#fff4c2",
        Ink.CHOSEN: "#00485a",
        Ink.CHOSEN_FIELD: "#d2f1f8",
        Ink.SOURCE_1: "#003f8f",
        Ink.SOURCE_2: "#803600",
        Ink.SOURCE_3: "#43309a",
        Ink.SOURCE_4: "#00525e",
        Ink.SOURCE_5: "#75215c",
        Ink.SOURCE_6: "#5c4600",
        Ink.WIRE_EDGE: "#000000",
        **_WIRES,
    },
)

PRINT = Palette(
    "print",
    {
        Ink.INK: "#000000",
        Ink.QUIET: "#555555",
        Ink.FAINT: "#c4c4c4",
        Ink.DESK: "#dfe0dc",
        Ink.PAPER: "#ffffff",
        Ink.TINT: "#f7f7f5",
        Ink.DANGER: "#a3000f",
        Ink.WARNING: "#7a4100",
        Ink.NOTE: "#3d4856",
        Ink.SOUND: "#0f5c3f",
        Ink.ASSUMED: "#5c4d0e",
        Ink.ASSUMED_FIELD: "#f7f1d8",
        Ink.CHOSEN: "#0b5766",
        Ink.CHOSEN_FIELD: "#e3f1f4",
        Ink.SOURCE_1: "#00539f",
        Ink.SOURCE_2: "#944100",
        Ink.SOURCE_3: "#4f3aa3",
        Ink.SOURCE_4: "#00626f",
        Ink.SOURCE_5: "#85316c",
        Ink.SOURCE_6: "#6b5200",
        Ink.WIRE_EDGE: "#222222",
        **_WIRES,
    },
)

PALETTES: Mapping[PaletteName, Palette] = {
    palette.name: palette for palette in (LIGHT, DARK, CONTRAST, PRINT)
}
