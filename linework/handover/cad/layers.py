"""An empty drawing with what the sheet is drawn by: layers, line types, type faces, units."""

from __future__ import annotations

from typing import Literal

from ezdxf import units
from ezdxf._options import options
from ezdxf.document import Drawing
from ezdxf.filemanagement import new

from linework.picture.fonts import WRITING, Face
from linework.picture.inks import Dash

Layer = Literal["CONDUCTORS", "GROUNDS", "SYMBOLS", "TEXT", "FINDINGS", "TIES", "FRAME"]

LAYERS: dict[Layer, str] = {
    "CONDUCTORS": "runs with a live conductor or a neutral",
    "GROUNDS": "runs of ground wires and bonds alone",
    "SYMBOLS": "parts",
    "TEXT": "writing at parts and runs, notes, signs to other sheets",
    "FINDINGS": "flags of findings",
    "TIES": "where plugs may be put, interlocks",
    "FRAME": "frame, zones, title block",
}
"""Every layer with what lies on it."""

APPLICATION = "LINEWORK"
"""Under this name extended data is kept."""

_BLACK_OR_WHITE = 7
"""The colour that a drawing program turns against its background."""


def empty_drawing(width: float, height: float) -> Drawing:
    """A drawing in millimetres, R2010, for a paper of this size; nothing in it hangs on the day."""
    options.write_fixed_meta_data_for_testing = True
    drawing = new("R2010", units=units.MM)
    drawing.appids.add(APPLICATION)
    for name, told in LAYERS.items():
        layer = drawing.layers.add(name, color=_BLACK_OR_WHITE)
        layer.description = told
    for dash in Dash:
        if dash.pattern:
            drawing.linetypes.add(dash.name, _elements(dash), description=dash.value)
    for which in WRITING:
        drawing.styles.add(style_of(which.bold), font=f"{which.name}.ttf")
    drawing.header["$MEASUREMENT"] = 1
    drawing.header["$LTSCALE"] = 1.0
    drawing.modelspace().reset_limits((0, 0), (width, height))
    drawing.modelspace().reset_extents((0, 0, 0), (width, height, 0))
    drawing.set_modelspace_vport(height, center=(width / 2, height / 2))
    return drawing


def settle(drawing: Drawing) -> None:
    """Before it is written: the library lists its classes as the hash of their names falls."""
    drawing.classes.add_required_classes(drawing.dxfversion)
    ordered = sorted(drawing.classes.classes.items())
    drawing.classes.classes.clear()
    drawing.classes.classes.update(ordered)


def _elements(dash: Dash) -> list[float]:
    """For a line 1 mm wide: the whole length, then dashes and, below nought, gaps."""
    parts = [part if at % 2 == 0 else -part for at, part in enumerate(dash.pattern)]
    return [float(sum(dash.pattern)), *map(float, parts)]


def style_of(bold: bool) -> str:
    """The name of the style in which writing is set."""
    which: Face = WRITING[bold]
    return which.name
