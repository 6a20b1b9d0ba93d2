"""The readiness record of one stay, read from the record itself as it stands at a moment."""

import json
from datetime import datetime
from hashlib import sha256

from teaching.papers.dated import day
from teaching.papers.readiness_record import Person, ReadinessRecord, readiness_record
from teaching.record.arranged_by import arranged_by
from teaching.record.kept_papers import newest_paper
from teaching.record.outlook import readiness_of
from teaching.rules.band import place_words
from teaching.rules.facts import Chart
from teaching.rules.paper_kinds import READINESS
from teaching.rules.plan import plan
from teaching.rules.reasons import words


def person_here(stay, unit) -> Person:
    """The two identifiers and the place, as they stand now."""
    here = stay.now
    return Person(here.name, day(here.born), here.mrn, unit.name, place_words(here.bed))


def record_of(stay, unit, now: datetime) -> tuple[Chart, ReadinessRecord]:
    """Unsigned; it names the signed record that it would replace."""
    chart, assessment, readiness, policy = readiness_of(stay, now)
    planned = plan(chart, assessment, policy, now, try_moves=False)
    return chart, readiness_record(
        chart, assessment, readiness, policy, now, person=person_here(stay, unit), plan=(words(planned.said),),
        written=arranged_by(stay), replaces=_before(stay),
    )  # fmt: skip


def _before(stay) -> str:
    before = newest_paper(stay, READINESS)
    if before is None or before.signed_by is None:
        return ""
    signed = before.content["signature"]
    return f"Replaces the record that {signed['name']} signed {signed['at']}."


def digest(paper: ReadinessRecord) -> str:
    """Of every word that is to be signed: the page and the paper must say the same."""
    return sha256(json.dumps(paper.plain, sort_keys=True, ensure_ascii=False).encode()).hexdigest()
