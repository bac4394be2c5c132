"""Every text of the window passes through ``say``, with the words of the design's family.

A catalogue marks each letter that it hands out; what is shown without a mark was not said. The
words of the other family's glossary are marked otherwise, and none of them may be shown.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from gettext import NullTranslations
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from linework.bench import looks
from linework.bench.file.filing import Reply
from linework.bench.file.jobform import JobForm
from linework.bench.frame.window import BenchWindow
from linework.bench.judge.worker import Judge
from linework.bench.paper.runform import RunForm
from linework.bench.process.loop import Workbench
from linework.bench.process.messages import Judged, Request
from linework.design import Design
from linework.design.edits import change_settings
from linework.storage import dumps
from linework.words import speech, terms
from tests.bench.benches import two_sources
from tests.bench.frame.test_plain_text import texts_of

SAID, OTHERS = "\N{COMBINING DOT BELOW}", "\N{COMBINING MACRON BELOW}"
UNSAID = re.compile(rf"(?<![\w{SAID}{OTHERS}])[A-Za-z]{{2,}}(?![\w{SAID}{OTHERS}])")

SYMBOLS = {"AWG", "Ctrl", "Shift", "PE", "kA", "mA", "mV", "ms", "mm", "kVA", "degC", "ft", "Hz"}
"""Units, poles and keys, which are the same in every language."""
CITED = {"NFPA", "UL", "IEC", "Table", "copper"}
"""Standards, and what stands in the names of their tables."""


class Marking(NullTranslations):
    """Hands every text out with a mark under each letter."""

    def __init__(self, family: str) -> None:
        super().__init__()
        self._family = family

    def gettext(self, message: str) -> str:
        return marked(message, SAID)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return marked(msgid1 if n == 1 else msgid2, SAID)

    def pgettext(self, context: str, message: str) -> str:
        return marked(message, SAID if context.endswith(self._family) else OTHERS)


def marked(message: str, sign: str) -> str:
    """A message with its letters marked, but for the names in braces."""
    pieces = re.split(r"(\{[^}]*\})", message)
    return "".join(
        piece if piece.startswith("{") else re.sub("[A-Za-z]", lambda x: x.group() + sign, piece)
        for piece in pieces
    )


@pytest.fixture(params=["NA", "INT"])
def family(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """The design's family, while all texts are marked."""
    marking = Marking(request.param)
    for module in (speech, terms):
        monkeypatch.setattr(module, "catalogue", lambda: marking)
    monkeypatch.setattr(speech, "language", lambda: "marked")
    terms.glossary.cache_clear()
    yield request.param
    terms.glossary.cache_clear()


@pytest.fixture
def bench(
    qtbot: QtBot, qapp: QApplication, family: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[BenchWindow]:
    """A window whose designs are judged in this process, where the texts are marked."""
    monkeypatch.setattr(Judge, "start", lambda self: None)
    looks.dress(qapp, "light")
    draft = two_sources()
    draft.design.apply(change_settings(draft.design, family=family))
    file = tmp_path / "a.linework"
    file.write_bytes(dumps(draft.design))
    found = BenchWindow(ask=lambda title, text, replies: Reply.NO)
    qtbot.addWidget(found)
    found.show()
    assert found.filing.open(file)
    for answer in Workbench().answers(Request(1, "", dumps(found.history.design)), lambda: False):
        if isinstance(answer, Judged):
            found.judge.judged.emit(answer)
    assert found.judging.analysis is not None
    yield found
    qapp.setStyleSheet("")


def own_texts(bench: BenchWindow) -> list[str]:
    """What is shown as it stands: the file's name and texts, sources of values, and the keys and
    titles of states, which are made where the states are."""
    design, analysis = bench.history.design, bench.judging.analysis
    assert analysis is not None
    ratings = [str(answer) for part in design.parts for _, answer in part.ratings.answers]
    return [
        *(text for part in design.parts for text in (part.designation, part.title)),
        *ratings,
        *(run.designation for run in design.runs),
        design.settings.job,
        *analysis.unconfirmed,
        *(report.title for report in analysis.reports),
        *(report.key for report in analysis.reports),
        *(state for finding in analysis.findings for state in (*finding.states, *finding.spoken)),
        bench.filing.document.name,
        *(item.source for item in analysis.assumed),
    ]


def unsaid(design: Design, texts: list[tuple[str, str]], own: list[str]) -> list[str]:
    """What is shown without having been said, and where."""
    found = []
    for where, text in texts:
        rest = text.replace("\xa0", " ")
        for known in sorted(filter(None, own), key=len, reverse=True):
            rest = rest.replace(known, "")
        words = set(UNSAID.findall(rest)) - SYMBOLS - CITED
        if words or OTHERS in text:
            found.append(f"{where}: {sorted(words)} in {text!r}")
    return found


def everywhere(bench: BenchWindow) -> Iterator[tuple[str, str]]:
    """The texts of the window and of what it opens."""
    yield from texts_of(bench.top)
    for piece in (bench.levers, bench.margin, bench.strip, bench.menuBar()):
        yield from texts_of(piece)
    design = bench.history.design
    for element in (*design.parts, *design.runs):
        bench.view.select((element.id,))
        yield from texts_of(bench.card)
    bench.menus.actions["tree"].trigger()
    yield from texts_of(bench.tree)
    for _ in range(3):
        bench.menus.actions["walk"].trigger()
        yield from texts_of(bench.overlay.walk)
    yield from texts_of(RunForm(design, bench.view.surface.layout, (), bench))
    yield from texts_of(JobForm(design, whole=True, parent=bench))


def test_everything_shown_was_said_in_the_family_of_the_design(bench: BenchWindow) -> None:
    texts = list(everywhere(bench))
    assert sum(SAID in text for _, text in texts) > 300
    found = unsaid(bench.history.design, texts, own_texts(bench))
    assert not found, "\n".join(found)


def test_a_text_that_was_not_said_is_noticed(family: str) -> None:
    texts = [("a label", "Not said at all"), ("another", speech.say("Said"))]
    assert unsaid(Design(), texts, []) == [
        "a label: ['Not', 'all', 'at', 'said'] in 'Not said at all'"
    ]
    assert unsaid(Design(), [("x", marked("word", OTHERS))], []) != []
