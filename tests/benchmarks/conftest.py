"""Forty people on a unit, each with five sessions behind them, at a fixed moment."""

import pytest
import time_machine

from tests.bedside.ward import NIGHT, build_ward
from tests.record.conftest import file_database  # noqa: F401


@pytest.fixture
def forty_people(file_database):  # noqa: F811
    """On a file, as on a ward: a database in memory commits for nothing."""
    with time_machine.travel(NIGHT, tick=True):
        ward = build_ward()
        for number in range(40):
            stay = ward.stay("Given", f"Family{number}", f"{'ABCDEFGH'[number // 5]}{number % 5 + 1}")
            stoma = ward.stoma(stay)
            for hours_ago, level in ((70, "03"), (52, "04"), (40, "06"), (20, "04"), (9, "06")):
                ward.teach(stay, stoma, hours_ago, level)
        yield ward
