"""A bundled face cut down to the signs that a drawing uses, to be carried inside another file."""

from __future__ import annotations

import io
from collections.abc import Iterable

from linework.picture.fonts import Face, FontError, font_path
from linework.words import say


def subset_woff(which: Face, signs: Iterable[str]) -> bytes:
    """The face with these signs alone, as WOFF; equal signs give equal bytes.

    Kerning and ligatures are left out, because every painter sets the signs by their own widths.
    FontError if the font's file is missing or damaged.
    """
    # Late: only a drawing that carries its letters with it needs the font library.
    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont, TTLibError

    options = Options(layout_features=[], hinting=False, notdef_outline=True)
    options.drop_tables += ["FFTM"]  # the font editor's own dates
    try:
        font = TTFont(font_path(which), recalcTimestamp=False)
        cutter = Subsetter(options)
        cutter.populate(unicodes=sorted({ord(sign) for sign in signs}))
        cutter.subset(font)
        font.flavor = "woff"
        out = io.BytesIO()
        font.save(out)
    except (OSError, TTLibError) as fault:
        raise FontError(
            say(
                "Text cannot be embedded, because the font {file} is damaged: {reason}",
                file=font_path(which),
                reason=fault,
            )
        ) from fault
    return out.getvalue()
