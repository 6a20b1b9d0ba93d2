"""What the huddle list of a unit says now, read from the board, the ticks and what is booked."""

from collections.abc import Iterator
from datetime import datetime

from teaching.access.working import teaching_on
from teaching.papers.huddle import HuddleList, huddle_content
from teaching.record.figures import board
from teaching.record.places import policy_for, ward_of
from teaching.record.staff import SKILLS
from teaching.record.who_teaches import Teaching, who_teaches_on
from teaching.rules.huddle_cover import holder
from teaching.rules.to_facility import COMING
from teaching.rules.ward import Ward

TO_TEACH = [skill for skill in SKILLS if skill != "change"]


def read_huddle(unit, now: datetime, printed_by: str) -> HuddleList:
    ward, policy, rows = ward_of(unit), policy_for(unit, now), board(unit, now)
    people = {key: str(each.uid) for key, each in teaching_on(unit).items()}
    teaching = who_teaches_on(unit, rows, people, policy, ward, now)
    here = {row.stay for row in rows if not row.paused}
    return huddle_content(
        unit=unit.name,
        ward=ward,
        rows=rows,
        now=now,
        printed_by=printed_by,
        policy=policy.version,
        teaches=_teach(teaching, people, ward, now),
        covers=teaching.covers,
        stoma_nurse=[each for each in _stoma_nurses_times(teaching, people, ward, now) if each[2] in here],
    )


def _teach(teaching: Teaching, people: dict[int, str], ward: Ward, now: datetime) -> Iterator[tuple[str, bool]]:
    """Who is ticked for this shift and works here, each with whether signed off to teach some stoma."""
    for key in teaching.ticks.get(ward.shift(now), ()):
        if key in people:
            spans = holder(people[key], teaching.known[key])
            yield teaching.known[key].name, any(spans.holds(skill, now) for skill in TO_TEACH)


def _stoma_nurses_times(
    teaching: Teaching, people: dict[int, str], ward: Ward, now: datetime
) -> Iterator[tuple[str, datetime, str]]:
    """What is booked with a stoma nurse and still to come today, or in this shift."""
    nurses = {uid: teaching.known[key] for key, uid in people.items() if teaching.known[key].grade == "stoma-nurse"}
    for stay, booked in teaching.booked.items():
        for one in booked:
            today = ward.date(one.at) == ward.date(now) or ward.shift(one.at) == ward.shift(now)
            if one.teacher in nurses and one.state in COMING and one.at >= now and today:
                yield nurses[one.teacher].name, one.at, stay
