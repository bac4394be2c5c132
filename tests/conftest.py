"""Settings shared by all tests: no screen unless asked for, and reproducible random tests."""

from __future__ import annotations

import os

import pytest
from hypothesis import HealthCheck, settings

# Before anything imports Qt. A real window test is run with QT_QPA_PLATFORM=xcb under Xvfb.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
# Tests read English, whoever runs them.
os.environ["LC_ALL"] = "C.UTF-8"

# A shared machine is no measure of time: neither profile has a deadline.
settings.register_profile("dev", max_examples=50, deadline=None)
settings.register_profile(
    "ci",
    max_examples=200,
    deadline=None,
    derandomize=True,
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci" if "CI" in os.environ else "dev"))


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    if os.environ["QT_QPA_PLATFORM"] == "xcb":
        return
    skip = pytest.mark.skip(
        reason="needs a real window: QT_QPA_PLATFORM=xcb xvfb-run pytest -m window"
    )
    for item in items:
        if item.get_closest_marker("window"):
            item.add_marker(skip)
