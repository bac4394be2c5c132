"""Solar arrays that are drawn one by one and wired in series, in words."""

from __future__ import annotations

from collections.abc import Iterable

from linework.findings.view import View


def in_series(view: View, arrays: Iterable[str]) -> str:
    """Their designations as those of one string: "GP1 + GP2"."""
    return " + ".join(map(view.name, arrays))
