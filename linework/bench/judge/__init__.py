"""The window's side of the judging: what is asked of the analysis process, and what holds."""

from linework.bench.judge.judging import Judging
from linework.bench.judge.mending import rebased
from linework.bench.judge.ownprocess import own_process
from linework.bench.judge.worker import Judge

__all__ = ["Judge", "Judging", "own_process", "rebased"]
