"""``python -m tests.cases``: judge every situation and print the table."""

from __future__ import annotations

from tests.cases.table import cases, table

if __name__ == "__main__":
    print(table({number: (case, case.verdict()) for number, case in cases().items()}))
