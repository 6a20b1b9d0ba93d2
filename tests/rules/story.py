"""A small language for stories at the bedside: a test of the rules reads like a ward sentence. Invented people."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from teaching.exchange.checklist_file import load_checklist
from teaching.rules.checklist import applicable
from teaching.rules.facts import (
    Arrangement,
    BodyEvent,
    Care,
    Chart,
    Consent,
    Finding,
    Kit,
    Learner,
    Rating,
    Recheck,
    Stoma,
    Witness,
)
from teaching.rules.independence import independence
from teaching.rules.policy import DEFAULT
from teaching.rules.ward import Ward

CHECKLIST = load_checklist()
WARD_NURSE = Witness("Ward Nurse", "registered")
OTHER_NURSE = Witness("Other Nurse", "registered")
SIGNED_OFF = Witness("Teaching Nurse", "registered", signed_off=True)
STOMA_NURSE = Witness("Stoma Nurse", "stoma-nurse")
STUDENT = Witness("Student", "student")
COSIGNED = Witness("Student", "student", cosigned_by="registered")
ASSISTANT = Witness("Assistant", "assistant")

UTC_WARD = Ward()
MONDAY = datetime(2026, 5, 11, tzinfo=UTC)
DAYS = {name: number for number, name in enumerate(("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"))}


def at(text):
    """ "Tue 10:00", or "Tue+1 10:00" a week later; UTC unless the story's ward says otherwise."""
    day, clock = text.split()
    name, _, weeks = day.partition("+")
    hour, minute = clock.split(":")
    days = DAYS[name] + 7 * int(weeks or 0)
    return MONDAY + timedelta(days=days, hours=int(hour), minutes=int(minute))


class Story:
    def __init__(self, kind="ileostomy", ward=UTC_WARD, policy=DEFAULT, **kit):
        self.policy = policy
        self.chart = Chart(
            stay="story",
            ward=ward,
            checklist=CHECKLIST,
            stomas=(Stoma("s", "stoma", kind),),
            learners=(Learner("person"),),
            kits=(Kit("s", at("Mon 00:00") - timedelta(days=3), **kit),),
        )

    def _add(self, name, *facts):
        self.chart = replace(self.chart, **{name: getattr(self.chart, name) + facts})
        return self

    def stoma(self, key, kind, **kit):
        self._add("stomas", Stoma(key, key, kind))
        return self._add("kits", Kit(key, at("Mon 00:00") - timedelta(days=3), **kit))

    def helper(self, key="helper", agreed=True, needs=()):
        self._add("learners", Learner(key, "helper", key, needs=frozenset(needs)))
        if agreed:
            for whose in ("person", "helper"):
                self._add("consents", Consent(key, whose, True, at("Mon 00:00")))
        return self

    def shows(self, codes, answer, when, by=WARD_NURSE, learner="person", stoma="s", event="", **more):
        moment = at(when) if isinstance(when, str) else when
        event = event or f"{stoma} {learner} {moment:%a %d %H:%M}"
        return self._add(
            "ratings", *(Rating(stoma, code, learner, answer, moment, event, by, **more) for code in codes.split())
        )

    def care(self, procedure, when, wear_end="", stoma="s"):
        return self._add("care", Care(stoma, procedure, at(when), f"care {when}", wear_end))

    def recheck(self, procedure, when, by=WARD_NURSE, learner="person"):
        return self._add("rechecks", Recheck("s", procedure, learner, at(when), f"recheck {when}", by))

    def state(self, code, began, ended=None, stoma=""):
        return self._add("body_events", BodyEvent(code, at(began), at(ended) if ended else None, stoma))

    def finds(self, when, event, noticed_by, **seen):
        return self._add("findings", Finding("s", at(when), event, noticed_by=noticed_by, **seen))

    def new_kit(self, when, stoma="s", **changes):
        newest = max((kit for kit in self.chart.kits if kit.stoma == stoma), key=lambda kit: kit.since)
        return self._add("kits", replace(newest, since=at(when), **changes))

    def arranged(self, code, when="Mon 00:00", state="made", due=None, **details):
        due_at = at(due) if due else None
        return self._add("arrangements", Arrangement(code, state, at(when), "", due_at, tuple(details.items())))

    def needs(self, *codes):
        person, *others = self.chart.learners
        self.chart = replace(self.chart, learners=(replace(person, needs=frozenset(codes)), *others))
        return self

    def leaving(self, when):
        self.chart = replace(self.chart, planned_at=at(when))
        return self

    def standing(self, code, now, learner="person", stoma="s"):
        moment = at(now) if isinstance(now, str) else now
        rows = {row.code: row for row in applicable(self.chart, stoma, moment)}
        return independence(self.chart, self.policy, moment, stoma, learner, rows[code])

    def is_(self, code, now, **whose):
        return self.standing(code, now, **whose).state
