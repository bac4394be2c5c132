"""The analysis process and what is said to it. It knows nothing of Qt.

The process itself is ``loop``. The judge's room starts it by its name; this door does not lead to
it, because it brings the solver along.
"""

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

__all__ = ["Begun", "Done", "Failed", "Inbox", "Judged", "Mended", "Request", "packed"]
