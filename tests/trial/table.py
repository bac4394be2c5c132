"""What the trial prints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from random import Random
from statistics import median

from tests.trial.judge.label import HARMLESS, UNLABELLED
from tests.trial.trial import Outcome, Sound, Told

_LABELS = ("danger", "warning", HARMLESS, UNLABELLED)
_VERDICTS = ("found", "elsewhere", "unchecked", "missed", "false alarm")
_HEAD = (
    f"{'kind of mistake':32} {'made':>5} {'dang':>5} {'warn':>5} {'harml':>5} {'none':>5} |"
    f" {'found':>5} {'else':>5} {'unchk':>5} {'miss':>5} {'false':>5} |"
    f" {'first':>5} {'soft':>5} {'med':>4} {'most':>4}"
)


def sound_table(sounds: Sequence[Sound]) -> str:
    """A line a rig, and what is said of those that should be silent."""
    lines = []
    for sound in sounds:
        lines.append(f"{sound.rig:28} {sound.parts:3} parts  {'silent' if sound.silent else 'NOT'}")
        lines += [f"    {_line(told)}" for told in sound.findings]
        lines += [f"    not checked: {gap}" for gap in sound.gaps]
    silent = sum(sound.silent for sound in sounds)
    lines.append(f"{silent} of {len(sounds)} sound rigs are silent")
    return "\n".join(lines)


def mistake_table(outcomes: Sequence[Outcome]) -> str:
    """A line a kind, and the totals."""
    kinds: dict[str, list[Outcome]] = {}
    for outcome in outcomes:
        kinds.setdefault(outcome.task.kind, []).append(outcome)
    lines = [_HEAD, *(_row(kind, found) for kind, found in kinds.items()), _row("all", outcomes)]
    return "\n".join([*lines, "", *_totals(outcomes)])


def _row(name: str, found: Sequence[Outcome]) -> str:
    labels = Counter(outcome.label.word for outcome in found)
    verdicts = Counter(outcome.verdict for outcome in found)
    wrong = [outcome for outcome in found if outcome.verdict in ("found", "elsewhere")]
    counts = [len(outcome.told) for outcome in wrong]
    cells = " ".join(f"{labels[word]:5}" for word in _LABELS)
    met = " ".join(f"{verdicts[word]:5}" for word in _VERDICTS)
    first = sum(outcome.first_is_cause for outcome in wrong)
    soft = sum(outcome.softened for outcome in wrong)
    many = f"{median(counts):4g} {max(counts):4}" if counts else f"{'-':>4} {'-':>4}"
    return f"{name:32} {len(found):5} {cells} | {met} | {first:5} {soft:5} {many}"


def _totals(outcomes: Sequence[Outcome]) -> list[str]:
    lines = []
    for word in ("danger", "warning"):
        mine = Counter(outcome.verdict for outcome in outcomes if outcome.label.word == word)
        lines.append(f"{word}: {_shares(mine, ('found', 'elsewhere', 'unchecked', 'missed'))}")
    mild = Counter(outcome.verdict for outcome in outcomes if outcome.label.word == HARMLESS)
    lines.append(f"harmless: {_shares(mild, ('quiet', 'false alarm'))}")
    labelled = sum(outcome.label.word != UNLABELLED for outcome in outcomes)
    lines.append(
        f"harmless share of {labelled} labelled: {100 * mild.total() / max(labelled, 1):.0f} %"
    )
    return lines


def _shares(counts: Counter[str], words: Sequence[str]) -> str:
    total = max(counts.total(), 1)
    told = ", ".join(
        f"{word} {counts[word]} ({100 * counts[word] / total:.1f} %)" for word in words
    )
    return f"{counts.total()}: {told}"


def wrong_ones(outcomes: Sequence[Outcome]) -> str:
    """Every miss and false alarm, and every danger that is told as less."""
    lines = []
    for verdict in ("missed", "unchecked", "elsewhere", "false alarm", "softened"):
        for outcome in outcomes:
            if outcome.verdict == verdict or (verdict == "softened" and outcome.softened):
                lines.append(f"{verdict}: {_name(outcome)}: {outcome.label.reason}")
                lines += [f"    {_line(told)}" for told in outcome.told]
                lines += [f"    left unchecked: {gap}" for gap in outcome.gaps]
                lines += [f"    said of the sound rig: {_line(told)}" for told in outcome.masked]
    return "\n".join(lines)


def argued(outcomes: Sequence[Outcome], number: int, seed: int) -> str:
    """Labels drawn at random, with all that a person needs to argue them."""
    chosen = Random(seed).sample(list(outcomes), min(number, len(outcomes)))
    lines = []
    for count, outcome in enumerate(chosen, start=1):
        lines.append(f"{count}. {_name(outcome)}")
        lines += [f"   changed: {line}" for line in outcome.difference]
        lines.append(f"   label: {outcome.label.word}: {outcome.label.reason}")
        lines.append(f"   program: {outcome.verdict}")
        lines += [f"      {_line(told)}" for told in outcome.told]
        lines += [f"      left unchecked: {gap}" for gap in outcome.gaps]
    return "\n".join(lines)


def _name(outcome: Outcome) -> str:
    return f"{outcome.task.kind} in {outcome.task.rig} at {' '.join(outcome.place)}"


def _line(told: Told) -> str:
    level, rule, where, message = told
    return f"{level} {rule} at {' '.join(where)}: {message}"
