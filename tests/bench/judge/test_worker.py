"""The analysis process: the shown state first, the newest design wins, a crash is told."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from linework.advice import flat
from linework.bench.judge import worker
from linework.bench.judge.fingerprint import electrical
from linework.bench.judge.worker import Judge
from linework.bench.process.loop import Workbench
from linework.bench.process.messages import (
    Begun,
    Done,
    Failed,
    Inbox,
    Judged,
    Mended,
    Request,
    packed,
)
from linework.design.edits import (
    accept_finding,
    add_note,
    change_settings,
    move_parts,
    rate,
    reroute,
    retitle,
    turn_parts,
)
from linework.storage import dumps
from tests.bench.benches import small, two_sources

ROOT = Path(__file__).resolve().parents[3]


@pytest.fixture
def judge(qtbot: QtBot) -> Iterator[Judge]:
    found = Judge()
    yield found
    found.stop()


def fresh() -> bool:
    return False


# what is said to a request


def test_the_shown_state_is_judged_first_then_all_then_mends() -> None:
    request = Request(7, "G1=running QT1=set", dumps(two_sources().design))
    answers = list(Workbench().answers(request, fresh))
    assert {answer.number for answer in answers} == {7}
    sorts = [type(answer) for answer in answers if not isinstance(answer, Mended)]
    assert sorts == [Begun, Judged, Begun, Judged, Begun, Done]
    partial, whole = (a for a in answers if isinstance(a, Judged))
    assert partial.analysis.partial
    assert partial.analysis.states() == ("G1=running QT1=set",)
    assert not whole.analysis.partial
    assert len(whole.analysis.states()) > 1
    assert whole.cautions
    mends = [a for a in answers if isinstance(a, Mended)]
    assert "Take the link out of QP1" in [a.title for a in mends]
    assert all(a.change.pairs for a in mends)
    assert all(f.mend is None for f in flat(whole.analysis.findings))


def test_every_answer_can_travel_in_pieces() -> None:
    answers = list(Workbench().answers(Request(1, "", dumps(small().design)), fresh))
    stream = b"".join(packed(answer) for answer in answers)
    inbox, heard = Inbox(), []
    for at in range(0, len(stream), 1000):
        heard += list(inbox.feed(stream[at : at + 1000]))
    assert [type(answer) for answer in heard] == [type(answer) for answer in answers]
    original = next(a for a in answers if isinstance(a, Judged))
    arrived = next(a for a in heard if isinstance(a, Judged))
    assert arrived.analysis.findings == original.analysis.findings


def test_work_on_an_older_design_is_left_off() -> None:
    request = Request(1, "G1=running", dumps(small().design))
    answers = list(Workbench().answers(request, lambda: True))
    assert [type(answer) for answer in answers] == [Begun, Judged]


def test_what_is_known_is_not_said_again() -> None:
    bench, data = Workbench(), dumps(two_sources().design)
    list(bench.answers(Request(1, "", data), fresh))
    again = list(bench.answers(Request(2, "G1=running QT1=shore", data, known=True), fresh))
    judged = [a for a in again if isinstance(a, Judged)]
    assert [a.analysis.states() for a in judged] == [("G1=running QT1=shore",)]
    assert not [a for a in again if isinstance(a, Mended)]


def test_a_mend_whose_proof_was_left_off_is_proven_later() -> None:
    bench, data = Workbench(), dumps(two_sources().design)
    asked = iter([False, False])
    first = list(bench.answers(Request(1, "", data), lambda: next(asked, True)))
    assert not [a for a in first if isinstance(a, Mended)]
    second = list(bench.answers(Request(2, "", data, known=True), fresh))
    assert "Take the link out of QP1" in [a.title for a in second if isinstance(a, Mended)]


def test_a_broken_design_is_an_answer_and_not_the_end() -> None:
    bench = Workbench()
    (failed,) = bench.answers(Request(1, "", b"{"), fresh)
    assert isinstance(failed, Failed)
    assert failed.text
    answers = list(bench.answers(Request(2, "", dumps(small().design)), fresh))
    assert isinstance(answers[-1], Done)


def test_an_error_of_the_program_is_told_with_its_account(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object, **__: object) -> None:
        raise ZeroDivisionError("by a test")

    monkeypatch.setattr("linework.bench.process.loop.analyse", fails)
    failed = list(Workbench().answers(Request(1, "", dumps(small().design)), fresh))[-1]
    assert isinstance(failed, Failed)
    assert "by a test" in failed.text
    assert "Traceback" in failed.details


def test_a_proof_that_fails_leaves_the_verdict_standing(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fails(*_: object) -> None:
        raise ZeroDivisionError("by a test")

    monkeypatch.setattr("linework.bench.process.loop.settled", fails)
    answers = list(Workbench().answers(Request(1, "", dumps(two_sources().design)), fresh))
    assert isinstance(answers[-1], Done)
    assert not [a for a in answers if isinstance(a, Mended)]
    assert "by a test" in capsys.readouterr().err


# the process


def test_a_design_is_judged_in_another_process(judge: Judge, qtbot: QtBot) -> None:
    with qtbot.waitSignal(judge.judged, timeout=30_000) as heard:
        judge.ask(dumps(small().design), "")
    assert heard.args is not None
    assert not heard.args[0].analysis.partial
    assert judge.process_id() not in (0, os.getpid())
    assert judge.known


def test_only_the_newest_design_is_told(judge: Judge, qtbot: QtBot) -> None:
    told: list[int] = []
    judge.judged.connect(lambda message: told.append(message.number))
    draft = small()
    for watts in ("60 W", "70 W", "80 W", "90 W"):
        draft.rate("EL1", power=watts)
        last = judge.ask(dumps(draft.design), "G1=running")
    qtbot.waitUntil(lambda: judge.known, timeout=30_000)
    assert set(told) == {last}


def test_a_crash_is_told_and_the_process_started_again(judge: Judge, qtbot: QtBot) -> None:
    with qtbot.waitSignal(judge.judged, timeout=30_000):
        judge.ask(dumps(two_sources().design), "")
    old = judge.process_id()
    with qtbot.waitSignal(judge.trouble, timeout=10_000) as heard:
        os.kill(old, signal.SIGKILL)
    assert heard.args is not None
    assert "started again" in heard.args[0].text
    with qtbot.waitSignal(judge.judged, timeout=30_000) as judged:
        pass
    assert judged.args is not None
    assert not judged.args[0].analysis.partial
    assert judge.process_id() not in (0, old)


def test_a_design_that_brings_it_down_is_not_tried_for_ever(qtbot: QtBot) -> None:
    code = "import sys; sys.stdin.buffer.read(20); sys.stderr.write('sunk'); sys.exit(3)"
    judge = Judge(command=[sys.executable, "-c", code])
    told: list[worker.Trouble] = []
    judge.trouble.connect(told.append)
    judge.ask(b"a", "")
    qtbot.waitUntil(lambda: len(told) == worker.MOST_CRASHES, timeout=20_000)
    qtbot.wait(300)
    assert len(told) == worker.MOST_CRASHES
    assert "until the drawing changes" in told[-1].text
    assert "sunk" in told[-1].details
    assert judge.process_id() == 0
    judge.ask(b"b", "")
    # a slow machine may hand over both crashes of the second design between two looks
    qtbot.waitUntil(lambda: len(told) > worker.MOST_CRASHES, timeout=20_000)
    judge.stop()


def test_a_process_that_cannot_be_started_is_told(qtbot: QtBot) -> None:
    judge = Judge(command=["/nonexistent/program"])
    told: list[worker.Trouble] = []
    judge.trouble.connect(told.append)
    judge.ask(b"a", "")
    qtbot.waitUntil(lambda: len(told) >= worker.MOST_CRASHES, timeout=10_000)
    assert "could not be started" in told[0].text
    judge.stop()


def test_long_work_on_an_older_design_is_broken_off(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(worker, "PATIENCE_S", 0.2)
    # Stands for an analysis without end on the first request, and a quick one on the next.
    code = (
        "import sys, time\n"
        "from linework.bench.process.messages import Begun, Done, packed, read_from\n"
        "request = read_from(sys.stdin.buffer)\n"
        "out = sys.stdout.buffer\n"
        "out.write(packed(Begun(request.number, 'all'))); out.flush()\n"
        "time.sleep(60 if request.data == b'long' else 0)\n"
        "out.write(packed(Done(request.number))); out.flush()\n"
        "time.sleep(60)\n"
    )
    judge = Judge(command=[sys.executable, "-c", code])
    phases: list[str] = []
    judge.working.connect(phases.append)
    judge.ask(b"long", "")
    qtbot.waitUntil(lambda: phases == ["all"], timeout=10_000)
    old = judge.process_id()
    judge.ask(b"short", "")
    qtbot.waitUntil(lambda: phases == ["all", "all", ""], timeout=10_000)
    assert judge.process_id() not in (0, old)
    judge.stop()


def test_the_process_ends_with_its_input() -> None:
    process = subprocess.run(
        [sys.executable, "-m", "linework.bench.process.loop"],
        input=packed(Request(1, "", dumps(small().design))),
        capture_output=True,
        cwd=ROOT,
        timeout=60,
        check=False,
    )
    assert process.returncode == 0
    assert [type(answer) for answer in Inbox().feed(process.stdout)][-1] is Done


# what has a part in the verdict


def test_places_bends_turns_and_notes_have_no_part_in_the_verdict() -> None:
    design = small().design
    before = electrical(design)
    design.apply(move_parts(design, ["G1", "XD1"], 25, 50))
    design.apply(turn_parts(design, ["EL1"], 1, flip=True))
    design.apply(reroute(design, "W1", [(10, 10), (20, 10)]))
    design.apply(add_note(design, "hello", (0, 0)))
    design.apply(change_settings(design, job="another", drawn_by="somebody"))
    said = {"reason": "measured", "by": "", "date": "2026-03-01"}
    design.apply(accept_finding(design, "bond-missing", ("G1",), "mark", **said))
    assert electrical(design) == before


def test_ratings_titles_and_places_of_use_have() -> None:
    design = small().design
    seen = {electrical(design)}
    for make in (
        lambda: rate(design, "EL1", {"power": "60 W"}),
        lambda: retitle(design, "G1", "other words"),
        lambda: change_settings(design, place="boat"),
        lambda: change_settings(design, wet=True),
    ):
        design.apply(make())
        seen.add(electrical(design))
    assert len(seen) == 5
