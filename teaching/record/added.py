"""A chart with what was just signed added to it, without reading it all again."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from teaching.models import Finding as FindingRow
from teaching.models import Rating as RatingRow
from teaching.record.accounts import Written
from teaching.record.seen import LENGTHS, WORDS, mm
from teaching.rules.facts import Care, Chart, Finding, Rating, Recheck, Witness


def with_added(chart: Chart, written: Sequence[Written], rater_name: str) -> Chart:
    """The same facts that `chart_for` would read from these original accounts (a test compares the two)."""
    ratings, care, rechecks, findings = [], [], [], []
    for made in written:
        event, account = made.event, made.account
        stoma, key, at = str(event.stoma.uid), str(event.uid), account.began_at
        witness = Witness(rater_name, account.rater_grade, account.sign_off is not None)
        if event.kind == "care":
            care.append(Care(stoma, event.procedure, at, key, made.finding.wear_end if made.finding else ""))
        elif event.kind == "recheck":
            learners = sorted({str(rating.learner.uid) for rating in made.ratings})
            rechecks += [Recheck(stoma, event.procedure, learner, at, key, witness) for learner in learners]
        else:
            ratings += [_rating(rating, stoma, key, witness) for rating in made.ratings]
        if made.finding:
            findings.append(_finding(made.finding, stoma, key, at))
    return replace(
        chart,
        ratings=(*chart.ratings, *ratings),
        care=(*chart.care, *care),
        rechecks=(*chart.rechecks, *rechecks),
        findings=(*chart.findings, *findings),
    )


def _rating(rating: RatingRow, stoma: str, event: str, witness: Witness) -> Rating:
    account = rating.account
    return Rating(
        stoma=stoma,
        code=rating.code,
        learner=str(rating.learner.uid),
        answer=rating.answer,
        at=account.began_at,
        event=event,
        witness=witness,
        practice=rating.practice,
        reported=rating.reported,
        reason=rating.reason,
        aids=frozenset(rating.aids),
        interpreter=account.interpreter,
        note=rating.note,
    )


def _finding(found: FindingRow, stoma: str, event: str, at: datetime) -> Finding:
    lengths = {name: mm(getattr(found, name)) for name in LENGTHS}
    words: dict[str, Any] = {name: getattr(found, name) for name in WORDS}
    return Finding(stoma=stoma, at=at, event=event, skin=tuple(sorted(found.skin.items())), **words, **lengths)
