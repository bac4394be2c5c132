"""The open design and its file: beginning, keeping, leaving, handing over, and what fails."""

from linework.bench.file.filing import Ask, Filing
from linework.bench.file.guard import Fault, Guard, account, sentence
from linework.bench.file.habits import load as load_habits
from linework.bench.file.handing import HandingOver
from linework.bench.file.jobform import JobForm, first_questions
from linework.bench.file.startcard import StartCard
from linework.bench.file.trouble import tell

__all__ = [
    "Ask",
    "Fault",
    "Filing",
    "Guard",
    "HandingOver",
    "JobForm",
    "StartCard",
    "account",
    "first_questions",
    "load_habits",
    "sentence",
    "tell",
]
