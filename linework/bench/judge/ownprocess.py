"""Processes that run this same program."""

from __future__ import annotations

import os
from pathlib import Path

from PySide6.QtCore import QObject, QProcess, QProcessEnvironment

import linework


def own_process(parent: QObject) -> QProcess:
    """A process, not started yet, that finds this very copy of the program."""
    environment = QProcessEnvironment.systemEnvironment()
    root = str(Path(linework.__file__).resolve().parents[1])
    old = environment.value("PYTHONPATH")
    environment.insert("PYTHONPATH", os.pathsep.join([root, old] if old else [root]))
    process = QProcess(parent)
    process.setProcessEnvironment(environment)
    return process
