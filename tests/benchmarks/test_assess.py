"""`assess` under 1 ms of processor time: one learner, thirty sessions, the chart already loaded."""

import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from teaching.exchange.checklist_file import read_checklist
from teaching.rules.assess import assess
from teaching.rules.checklist import applicable
from teaching.rules.facts import Chart, Kit, Learner, Rating, Stoma, Witness
from teaching.rules.policy import DEFAULT
from teaching.rules.ward import Ward
from tests.benchmarks.measuring import processor_ms, say

CHECKLIST = Path(__file__).parents[2] / "fixtures" / "checklist-1.json"
NOW = datetime(2026, 5, 13, 13, tzinfo=UTC)
SESSIONS = 30
NURSE = Witness("Amber Oakley", "registered", signed_off=True)


def thirty_sessions() -> Chart:
    """Twelve days of an ileostomy: every fifth session a change, the others emptyings; helped first, alone later."""
    formed = NOW - timedelta(days=12)
    stoma, kit = Stoma("s", "right", "ileostomy", formed_at=formed), Kit("s", formed, interval_hours=72)
    checklist = read_checklist(json.loads(CHECKLIST.read_text(encoding="utf-8")), "en")
    bare = Chart(
        "stay", Ward("Europe/London"), checklist, (stoma,), (Learner("p"),), (kit,),
        surgery_at=formed, planned_at=NOW + timedelta(days=1),
    )  # fmt: skip
    rows = [row for row in applicable(bare, "s", NOW) if row.rated]
    ratings = [
        Rating("s", row.code, "p", "06" if number < 20 else "04", NOW - timedelta(hours=9 * number + 1), f"e{number}",
               NURSE)
        for number in range(SESSIONS)
        for row in rows
        if row.item.procedure == ("change" if number % 5 == 0 else "emptying")
    ]  # fmt: skip
    return replace(bare, ratings=tuple(ratings))


@pytest.mark.benchmark
def test_assess_takes_less_than_a_millisecond():
    chart = thirty_sessions()
    assert len({rating.event for rating in chart.ratings}) == SESSIONS
    taken, slower = processor_ms(lambda: replace(chart), lambda fresh: assess(fresh, DEFAULT, NOW), rounds=300)
    say(f"assess, one learner, {SESSIONS} sessions, {len(chart.ratings)} ratings: {taken:.2f} ms "
        f"(at most 1, machine {slower:.2f} times as slow)")  # fmt: skip
    assert taken / slower < 1
