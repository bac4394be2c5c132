"""What runs when in the samples, and where they stand: only supply over time asks for it."""

from __future__ import annotations

from linework.design import Draft
from linework.design.edits import change_settings

_HUT = {
    "EA1": {"use": "keeps_cold", "use_share": "33 %"},
    "EH1": {"use": "hours", "use_hours": "1.5 h", "use_from": "11 h", "use_until": "19 h"},
    "EL1": {"use": "hours", "use_hours": "5 h", "use_from": "17 h", "use_until": "23 h"},
    "EP2": {"use": "hours", "use_hours": "2 h", "use_from": "17 h", "use_until": "21 h"},
    "EP3": {"use": "hours", "use_hours": "1 h", "use_from": "6 h", "use_until": "9 h"},
    "MA1": {"use": "hours", "use_hours": "0.5 h", "use_from": "7 h", "use_until": "21 h"},
    **{f"GB{n}": {"kept_warm": "yes"} for n in range(1, 5)},
}
_TRAILER = {
    "EA1": {"use": "keeps_cold", "use_share": "45 %"},
    "EL1": {"use": "hours", "use_hours": "6 h", "use_from": "8 h", "use_until": "18 h"},
    "EP1": {"use": "hours", "use_hours": "7 h", "use_from": "8 h", "use_until": "17 h"},
    "MA1": {
        "use": "cools_room", "use_hours": "8 h", "use_from": "9 h", "use_until": "17 h",
        "use_share": "60 %",
    },
    "MA2": {
        "use": "hours", "use_hours": "8 h", "use_from": "9 h", "use_until": "18 h",
        "use_share": "50 %", "use_first": "4", "use_last": "10",
    },
    "GB1": {"kept_warm": "yes"},
    "GP1": {"tilt": "0", "mounted": "flush"},
    "GS1": {"plugged_hours": "0 h"},
}  # fmt: skip


def hut_with_habits(d: Draft) -> Draft:
    """The hut above the tree line, lived in all year."""
    return _told(d, _HUT, climate="fort-collins", altitude="2600 m")


def trailer_with_habits(d: Draft) -> Draft:
    """The trailer on a working day, away from shore."""
    return _told(d, _TRAILER, climate="des-moines")


def _told(d: Draft, habits: dict[str, dict[str, str]], **where: str) -> Draft:
    d.design.apply(change_settings(d.design, **where))
    for name, answers in habits.items():
        d.rate(name, **answers)
    return d
