"""Conductor schedule: every run with its conductors, what it may carry and what it carries."""

from __future__ import annotations

from reportlab.platypus import Flowable

from linework.codes import CodesError, Step
from linework.design import Run, pole_map
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.circuits import run_amps, run_devices, run_drop, run_faults
from linework.handover.content import Content
from linework.handover.ends import end_text
from linework.handover.faults import span_text
from linework.handover.sheets import Room
from linework.handover.styles import Cell, table, text, with_room
from linework.kinds import RUN_RATINGS, Values
from linework.quantity import show
from linework.study.wires.ratings import run_ampacity
from linework.wiring import Pole

_MARKS = "abcdefghijklmnopqrstuvwxyz"


class _Notes:
    """What is said of several runs in the same words, once, with a letter."""

    def __init__(self) -> None:
        self._known: dict[str, str] = {}

    def mark(self, words: str) -> str:
        """The letter that stands for the words; after z come aa, ab ..."""
        if words not in self._known:
            n = len(self._known)
            first = _MARKS[n // len(_MARKS) - 1] if n >= len(_MARKS) else ""
            self._known[words] = first + _MARKS[n % len(_MARKS)]
        return self._known[words]

    def lines(self) -> list[Flowable]:
        """Each letter with its words."""
        return [text(f"{mark}  {words}", "small") for words, mark in self._known.items()]


def conductor_schedule(content: Content, room: Room) -> list[Flowable]:
    """The schedule, and what its marks stand for."""
    say = content.say
    runs = sorted(content.design.runs, key=lambda run: natural(content.name(run.id)))
    if not runs:
        return []
    notes = _Notes()
    rows = [_row(content, run, notes) for run in runs]
    heads = [
        say("run"),
        say("from, to"),
        say("conductors"),
        say("length"),
        say("ampacity, as laid"),
        say("device"),
        say("A most"),
        say("drop"),
        say("fault least to most"),
    ]
    note = say(
        "Lengths one way, in [brackets] what is assumed; letters: below, factors of 1 not told."
        " Device: of each source the one that protects the run from it. A most and drop, out and"
        " back: of the drawn loads, in the state that takes most. PE: {ground_wire}."
    )
    out: list[Flowable] = [
        with_room(),
        text(say("Conductor schedule"), "heading", anchor="runs"),
        text(note, "small"),
    ]
    return [*out, table(heads, rows, room.width, right=(3, 6)), *notes.lines()]


def _row(content: Content, run: Run, notes: _Notes) -> list[Cell]:
    values = content.design.run_values(run)
    amps = run_amps(content, run)
    return [
        text(content.name(run.id), "strong"),
        f"{end_text(content, run.a)}, {end_text(content, run.b)}",
        conductors_text(content, run, values),
        _length(content, values),
        _ampacity(content, run, values, notes),
        ", ".join(run_devices(content, run)),
        f"{amps:.3g}" if amps >= 1e-3 else "",
        _drop(content, run),
        _fault_span(content, run),
    ]


def _laid(content: Content, values: Values) -> str:
    word = values.pick("installation")
    label = next(c.label for c in RUN_RATINGS["installation"].choices if c.value == word)
    return content.say(label)


def _length(content: Content, values: Values) -> str:
    if not values.has("length"):
        return content.say("not given")
    told = show(values.num("length"), "length", family=content.family)
    return told if values.given("length") else f"[{told}]"


def _ampacity(content: Content, run: Run, values: Values, notes: _Notes) -> str:
    """The figure and the letter of how it comes about; what no table has is said."""
    laid = _laid(content, values)
    if values.pick("installation") == "jumper":
        return laid
    if not values.has("size"):
        return content.say("no size")
    try:
        worked = run_ampacity(content.design, run)
    except CodesError as fault:
        return notes.mark(content.say("not checked: {fault}", fault=fault))
    told = [each for each in worked.steps if each.effect != "times" or each.figure.value != 1.0]
    steps = "; ".join((laid, *dict.fromkeys(map(_step, told))))
    if not worked.confirmed:
        steps += content.say(" (not confirmed)")
    return f"{show(worked.value, 'current')} {notes.mark(steps)}"


def _step(step: Step) -> str:
    """ "Ambient temperature × 0.94", "Table value 35 A", "Terminals at most 30 A"."""
    figure = f"{step.figure.value:.3g}"
    if step.effect == "times":
        return f"{step.what} × {figure}"
    between = {"at most": " ≤", "at least": " ≥"}.get(step.effect, "")
    return f"{step.what}{between} {figure} A"


def _drop(content: Content, run: Run) -> str:
    lost = run_drop(content, run)
    return value_text(lost, "voltage") if lost >= 1e-3 else ""


def conductors_text(content: Content, run: Run, values: Values) -> str:
    """ "L, N 10 AWG + PE 8 AWG", with the metal where it is not copper."""
    sizes: dict[str, list[str]] = {}
    for p, q in pole_map(content.design, run):
        size = pole_size_text(values, p, q) or content.say("size not given")
        sizes.setdefault(size, []).append(_pole_text(content, p, q))
    broken = values.pick("broken")
    parts = " + ".join(f"{' '.join(poles)} {size}" for size, poles in sizes.items())
    metal = values.pick("material")
    label = next(c.label for c in RUN_RATINGS["material"].choices if c.value == metal)
    told = parts if metal == "copper" else f"{parts} {content.say(label)}"
    return told + (content.say("; {what} is cut", what=broken) if broken != "none" else "")


def _pole_text(content: Content, p: Pole, q: Pole) -> str:
    """A conductor by its poles at both ends; the body is told in words."""
    if p == q:
        return _sign(p)
    ends = [content.say("frame") if pole == Pole.BODY else _sign(pole) for pole in (p, q)]
    return content.say("{a} to {b}", a=ends[0], b=ends[1])


def _sign(pole: Pole) -> str:
    return "\N{MINUS SIGN}" if pole is Pole.NEG else pole.value


def pole_size_text(values: Values, p: str, q: str) -> str:
    """Size of one conductor of a run, empty where none is given."""
    if "PE" in (p, q) and values.has("ground_size"):
        return values.text("ground_size")
    if p == "N" and values.has("neutral_size"):
        return values.text("neutral_size")
    return values.text("size") if values.has("size") else ""


def _fault_span(content: Content, run: Run) -> str:
    span = run_faults(content, run)
    if span is None:
        return ""
    return span_text(content, *span)
