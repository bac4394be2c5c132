"""``python -m tests.trial``: draw the rigs, make the mistakes, print the table."""

from __future__ import annotations

import argparse

from tests.trial.mends import mend_lines, mend_table, run_mends
from tests.trial.mistakes import MISTAKES
from tests.trial.rigs import RIGS
from tests.trial.table import argued, mistake_table, sound_table, wrong_ones
from tests.trial.trial import drawn, run, run_sound, tasks


def _asked() -> argparse.Namespace:
    words = argparse.ArgumentParser(prog="python -m tests.trial", description=__doc__)
    words.add_argument("--rig", action="append", choices=[*RIGS], help="only this rig (again)")
    words.add_argument("--mistake", action="append", choices=[*MISTAKES], help="only this kind")
    words.add_argument("--seed", type=int, default=1, help="which mistakes are drawn")
    words.add_argument("--most", type=int, default=450, help="how many; 0: at every place")
    words.add_argument("--wrong", action="store_true", help="print misses and false alarms too")
    words.add_argument("--mends", action="store_true", help="try the mends of what is found")
    words.add_argument("--each", action="store_true", help="with --mends: a line for each")
    words.add_argument("--argue", type=int, default=0, metavar="N", help="print N labels")
    return words.parse_args()


def main() -> None:
    """Run the trial."""
    asked = _asked()
    rigs = asked.rig or [*RIGS]
    every = tasks(rigs, asked.mistake or [*MISTAKES])
    chosen = drawn(every, asked.most, asked.seed)
    if asked.mends:
        attempts = run_mends(chosen)
        print(mend_lines(attempts) if asked.each else "", mend_table(attempts), sep="\n")
        return
    if not asked.argue:
        print(sound_table(run_sound(rigs)), "\n")
    outcomes = sorted(run(chosen), key=lambda o: [*MISTAKES].index(o.task.kind))
    if asked.argue:
        print(argued(outcomes, asked.argue, asked.seed))
        return
    print(f"{len(chosen)} of {len(every)} mistakes, seed {asked.seed}")
    print(mistake_table(outcomes))
    if asked.wrong:
        print(wrong_ones(outcomes))


if __name__ == "__main__":
    main()
