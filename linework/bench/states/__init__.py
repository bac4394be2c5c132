"""The states of the installation as the window tells them. It knows nothing of Qt."""

from linework.bench.states.board import Choice, Key, Lever, LeverBoard
from linework.bench.states.elements import foot, sound_lines, told
from linework.bench.states.shown import liveliest, number_of, report_of, reports_of
from linework.bench.states.text import feeding, links_text, part_name
from linework.bench.states.walking import changes, found_here

__all__ = [
    "Choice",
    "Key",
    "Lever",
    "LeverBoard",
    "changes",
    "feeding",
    "foot",
    "found_here",
    "links_text",
    "liveliest",
    "number_of",
    "part_name",
    "report_of",
    "reports_of",
    "sound_lines",
    "told",
]
