"""A chart with new accounts added in memory is the chart read anew, fact by fact."""

from dataclasses import fields
from datetime import timedelta

import time_machine

from teaching.record import figures
from teaching.record.charts import chart_for
from teaching.record.entries import CareEntry, FindingEntry, RatingEntry, RecheckEntry, SessionEntry
from teaching.record.sessions import record_care, record_recheck, record_session
from tests.bedside.ward import EMPTYING, NIGHT, build_ward

ALL_OF_IT = FindingEntry(
    colour="dusky", wet="dry", edge="gap", stands="sunk", width_mm=31.5, height_mm=28, opening_width_mm=34,
    opening_height_mm=30.5, skin={"feet": "wet-raw", "head": "good"}, noticed_by="learner", bleeding="spot",
    wear_end="leak", leak_track="feet",
)  # fmt: skip


def entries(stay, stoma):
    person = stay.learners.get(kind="person")
    rated = tuple(
        RatingEntry(learner=person, code=code, answer="04", reason="drowsy", aids=("mirror",), note="made up")
        for code in EMPTYING
    )
    return [
        (record_session, SessionEntry(
            stay=stay, stoma=stoma, procedure="emptying", began_at=NIGHT - timedelta(hours=3), ratings=rated,
            finding=ALL_OF_IT, interpreter="trained", place="bathroom",
        )),
        (record_session, SessionEntry(
            stay=stay, stoma=stoma, procedure="emptying", began_at=NIGHT - timedelta(hours=2), ended_how="broken-off",
            ratings=(RatingEntry(learner=person, code="em-open", answer="06", practice=True),
                     RatingEntry(learner=person, code="t-call", answer="told")),
        )),
        (record_care, CareEntry(
            stay=stay, stoma=stoma, procedure="change", at=NIGHT - timedelta(hours=1), finding=ALL_OF_IT,
        )),
        (record_care, CareEntry(stay=stay, stoma=stoma, procedure="emptying", at=NIGHT - timedelta(hours=1))),
        (record_recheck, RecheckEntry(stay=stay, stoma=stoma, procedure="emptying", learner=person, at=NIGHT)),
    ]  # fmt: skip


def test_every_kind_of_entry_is_added_as_it_is_read(db, monkeypatch):
    added = []
    usual = figures.with_added
    monkeypatch.setattr(figures, "with_added", lambda *told: added.append(usual(*told)) or added[-1])
    with time_machine.travel(NIGHT, tick=False):
        ward = build_ward()
        stay = ward.stay()
        stoma = ward.stoma(stay)
        for verb, entry in entries(stay, stoma):
            verb(actor=ward.staff["amber"], entry=entry)
            read = chart_for(stay)
            for name in (field.name for field in fields(read) if field.name != "revision"):
                assert in_any_order(getattr(added[-1], name)) == in_any_order(getattr(read, name)), name
    assert len(added) == 5


def in_any_order(facts):
    return sorted(map(repr_of, facts)) if isinstance(facts, tuple) else facts


def repr_of(fact):
    """Sets are written in an order of their own: sort them first."""
    told = [(field.name, getattr(fact, field.name)) for field in fields(fact)]
    return repr([(name, sorted(value) if isinstance(value, frozenset) else value) for name, value in told])
