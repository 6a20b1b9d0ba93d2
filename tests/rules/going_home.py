"""The story language, gone on to leaving: what is held part by part, what is arranged, who comes, and the judgement.

"All else" is what stories take as given: topics explained, the blocking arrangements, a round-the-clock leak service.
"""

from dataclasses import replace
from datetime import timedelta

from story import DAYS, STOMA_NURSE, Story, at

from teaching.rules.assess import assess
from teaching.rules.checklist import applicable
from teaching.rules.facts import Arrangement, Caution, OutputTotal, Visit
from teaching.rules.holding import PROCEDURE_PARTS
from teaching.rules.readiness import ready

NOW, LEAVING = "Wed 18:00", "Thu 12:00"
TIMES = {"pouch": ("Tue 10:00", "Wed 10:00"), "night": ("Mon 22:30", "Tue 22:30"), "change": ("Mon 09:00", "Wed 09:00")}
ALL_HOURS = "1" * 168
BY_DAY = "".join("1" if 8 <= hour % 24 < 20 else "0" for hour in range(168))
FLUID_PLAN = {
    "tablets": "loperamide before meals", "drink": "1 litre", "plain_water": "half a litre", "target": "under 1200 mL",
    "bloods": "2026-05-18", "call": "2026-05-15",
}


def week(*spans):
    """week("Mon 08-20", "Sat 00-24"): there at those hours of the ward's week."""
    said = ["0"] * 168
    for span in spans:
        name, hours = span.split()
        since, until = (DAYS[name] * 24 + int(hour) for hour in hours.split("-"))
        said[since:until] = "1" * (until - since)
    return "".join(said)


class Going(Story):
    def __init__(self, kind="ileostomy", **kit):
        super().__init__(kind, **{"interval_hours": 72, **kit})
        self.given = None
        self.leaving(LEAVING)

    def leaving(self, when):
        """What all else is timed by goes with it."""
        super().leaving(when)
        return self.all_else(*self.given) if self.given else self

    def rows(self, part, stoma="s", now=NOW):
        """Codes of the essential rows of a part, as they apply at a moment."""
        found = [row.item for row in applicable(self.chart, stoma, at(now)) if row.essential]
        return " ".join(item.code for item in found if _part(item) == part)

    def holds(self, *parts, learner="person", stoma="s", by=STOMA_NURSE, answer="06", but=(), now="Mon 00:00"):
        for part in parts:
            codes = " ".join(code for code in self.rows(part, stoma, now).split() if code not in but)
            if part == "topics":
                self.shows(codes, "told", "Mon 08:00", learner=learner, stoma=stoma)
                self.shows(codes, "own_words", "Tue 09:00", learner=learner, stoma=stoma)
                continue
            for when in TIMES[part]:
                self.shows(codes, answer, when, by=by, learner=learner, stoma=stoma)
        return self

    def comes(self, learner, said, *exceptions):
        """A helper's week, and exceptions as (from, to, there)."""
        told = tuple((at(since), at(until), there) for since, until, there in exceptions)
        learners = (
            replace(one, week=said, exceptions=told) if one.key == learner else one for one in self.chart.learners
        )
        self.chart = replace(self.chart, learners=tuple(learners))
        return self

    def visit(self, when, for_change=True, state="made", by="Nurse Example", stoma="", key=""):
        return self._add("visits", Visit(key or f"visit {when}", at(when), state, for_change, by, stoma=stoma))

    def all_else(self, but=(), contact=timedelta(days=1), delivery=timedelta(days=14)):
        """The blocking arrangements and the leak service; first contact and delivery so long after leaving."""
        self.given = (but, contact, delivery)
        planned = self.chart.planned_at
        told = {
            "supplies": (planned + delivery, {"days": 14}),
            "number": (None, {"phone": "000", "day_and_night": True}),
            "first-contact": (planned + contact, {}),
            "sheet": (None, {"language": "English", "theirs": True}),
            "leak-service": (None, {"answers_hours": 2, "day_and_night": True}),
        }
        others = tuple(one for one in self.chart.arrangements if one.code not in told)
        self.chart = replace(self.chart, arrangements=others)
        made = (
            Arrangement(code, "made", at("Mon 00:00"), "", due, tuple(details.items()))
            for code, (due, details) in told.items() if code not in but
        )
        return self._add("arrangements", *made)

    def caution(self, sign, when, told=None, settled=None, words="A sign"):
        listed = self.policy.sign[sign].list
        moments = {"told": at(told) if told else None, "settled": at(settled) if settled else None}
        return self._add("cautions", Caution(f"{sign} {when}", sign, listed, words, at(when), "s", **moments))

    def total(self, until, ml, stoma="s"):
        return self._add("totals", OutputTotal(stoma, at(until), ml))

    def to(self, where):
        self.chart = replace(self.chart, goes_to=where)
        return self

    def ready(self, now=NOW):
        return judge(self.chart, self.policy, at(now) if isinstance(now, str) else now)

    def result(self, now=NOW):
        return self.ready(now).result


def judge(chart, policy, now):
    return ready(chart, assess(chart, policy, now), policy, now)


def _part(item):
    if item.topic:
        return "topics"
    return "change" if item.procedure == "change" else PROCEDURE_PARTS.get(item.procedure, "")


def all_held(kind="ileostomy", **kit):
    """Holds everything; leaves Thursday noon; the change seen Wednesday morning, the next due Saturday 09:00."""
    story = Going(kind, **kit).holds("pouch", "change", "topics")
    if kind == "urostomy":
        story.holds("night")
    return story.all_else()


def only(*parts, kind="ileostomy", **kit):
    """Holds these parts and no others; a nurse changed the pouch Wednesday 09:00; the topics and all else as given."""
    return Going(kind, **kit).holds("topics", *parts).care("change", "Wed 09:00").all_else()
