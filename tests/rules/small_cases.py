"""Small random cases for the plan, and what they come to by trying everything: the independence rule is the judge.

A planned showing becomes a rating 06 of the chart; every way of sharing the opportunities is tried; at each moment
`independence.stand` says who holds what.
"""

from dataclasses import replace
from datetime import timedelta
from itertools import product
from random import Random

from story import ASSISTANT, CHECKLIST, COSIGNED, MONDAY, SIGNED_OFF, STOMA_NURSE, STUDENT, WARD_NURSE

from teaching.rules.chances import Opportunity
from teaching.rules.checklist import applicable
from teaching.rules.facts import Arrangement, BodyEvent, Chart, Consent, Kit, Learner, Rating, Recheck, Stoma
from teaching.rules.independence import stand
from teaching.rules.policy import DEFAULT
from teaching.rules.prospect import SET_OUT_FOR, Demand, timeline
from teaching.rules.scene import set_scene
from teaching.rules.standing import TICK
from teaching.rules.ward import Ward

NOW = MONDAY + timedelta(days=4, hours=9)
WITNESSES = (WARD_NURSE, WARD_NURSE, SIGNED_OFF, SIGNED_OFF, STOMA_NURSE, STUDENT, COSIGNED, ASSISTANT)
ANSWERS = ("06",) * 14 + ("05", "05", "05", "04", "03", "10", "88")
# What is asked of whom: rows alone, rows that share a rule, rows that lend to each other.
ROWS = {
    "ileostomy": (("em-open",), ("em-close",), ("off-peel",), ("cut",), ("look-skin",), ("close",), ("shut-first",),
                  ("em-open", "off-peel"), ("em-close", "close"), ("close", "shut-first"),
                  ("em-close", "close", "shut-first"), ("close", "shut-first"), ("em-close", "close", "shut-first")),
    "urostomy": (("ue-open",), ("ue-shut", "close"), ("nd-join",), ("nd-part", "off-peel"), ("shut-first", "ue-shut")),
}
POLICIES = (DEFAULT, DEFAULT, DEFAULT.with_overrides({"change_streak": 1}),
            DEFAULT.with_overrides({"emptying_streak": 1, "spacing": 9, "emptying_date": "36 hours"}))
WARDS = (Ward(), Ward("Europe/London"), Ward("Asia/Kathmandu"))


class Case:
    """One chart at `NOW`, a handful of opportunities after it, and rows that must be held by certain learners."""

    def __init__(self, seed: int) -> None:
        rng = self.rng = Random(seed)
        self.policy = rng.choice(POLICIES)
        kind = rng.choice(("ileostomy", "ileostomy", "urostomy"))
        codes = rng.choice(ROWS[kind])
        self.learners = ("person",) if rng.random() < 0.4 else ("person", "helper")
        kit = Kit("s", MONDAY - timedelta(days=5), outlet="tap" if kind == "urostomy" else "strip",
                  interval_hours=rng.choice((None, 48, 96)), items=frozenset({"night-bag"}))
        self.chart = Chart("small", rng.choice(WARDS), CHECKLIST, (Stoma("s", "stoma", kind),),
                           (Learner("person"), Learner("helper", "helper")), (kit,),
                           consents=tuple(Consent("helper", whose, True, MONDAY) for whose in ("person", "helper")))
        lenders = {one.code for code in codes for one in CHECKLIST.lenders.get(code, ())}
        self._history(sorted({*codes, *lenders}), kit)
        how_many = rng.choice((1, 2, 2, 3, 3, 4))
        self.opportunities = tuple(self._opportunity(number, codes, kind) for number in range(how_many))
        self.planned = NOW + timedelta(hours=rng.choice((1, 20, 40, 70, 100, 250)))
        self.line = timeline(self.opportunities, NOW, self.planned)
        everyone = [SET_OUT_FOR + one if rng.random() < 0.2 else one for one in self.learners]
        self.demand: Demand = {
            code: frozenset(everyone if rng.random() < 0.7 else (rng.choice(everyone),)) for code in codes
        }

    def _history(self, codes, kit) -> None:
        rng = self.rng
        ratings = []
        for learner in self.learners:
            for _ in range(rng.choice((0, 1, 1, 2, 3))):
                at = self._moment(-96, 0)
                for code in rng.sample(codes, rng.randint(1, len(codes))):
                    answer = rng.choice(ANSWERS)
                    ratings.append(Rating(
                        "s", code, learner, answer, at, f"{at:%d %H:%M}" + rng.choice(("", "", "x")),
                        rng.choice(WITNESSES), practice=rng.random() < 0.3,
                        reason=rng.choice(("", "drowsy")) if answer in ("05", "04", "03") else ""))
        events, kits, rechecks, arranged = [], [kit], [], []
        if rng.random() < 0.15:
            began = self._moment(-90, -30)
            events.append(BodyEvent("delirium", began, rng.choice((began + timedelta(hours=20), None))))
        if rng.random() < 0.2:
            outlet = "cap" if kit.outlet == "tap" else "clip"
            kits.append(replace(kit, since=self._moment(-60, 0), outlet=outlet, shape=rng.choice(("flat", "convex"))))
        if rng.random() < 0.3:
            events.append(BodyEvent("no-stool-yet", MONDAY))
            arranged = [Arrangement("first-stool-call", "made", MONDAY)] * rng.choice((0, 1, 1))
        for _ in range(rng.choice((0, 0, 1, 2))):
            at, who = self._moment(-60, 0), rng.choice(self.learners)
            rechecks.append(Recheck("s", rng.choice(("emptying", "urine", "night", "change")), who, at,
                                    f"recheck {at}", rng.choice((WARD_NURSE, ASSISTANT))))
        self.chart = replace(self.chart, ratings=tuple(ratings), body_events=tuple(events), kits=tuple(kits),
                             rechecks=tuple(rechecks), arrangements=tuple(arranged))

    def _moment(self, first: int, last: int):
        """Often the same hour of another day or four hours from it, or just beside: bounds are met from both sides."""
        days = range(first - first % 24 + 24, last, 24)
        hours = self.rng.choice((self.rng.randrange(first, last), *days, *(day + 4 for day in days)))
        beside = self.rng.choice((timedelta(), timedelta(), timedelta(), TICK, -TICK))
        return NOW + timedelta(hours=min(hours, last - 1), minutes=self.rng.choice((0, 0, 0, 15, 30))) + beside

    def _opportunity(self, number: int, codes, kind) -> Opportunity:
        rng = self.rng
        procedures = {CHECKLIST.by_code[code].procedure for code in codes} | {"change"}
        there = [one for one in self.learners if rng.random() < 0.9]
        return Opportunity(
            self._moment(1, 96), rng.choice(sorted(procedures)), "s", frozenset(there), practice=rng.random() < 0.25,
            signed_off=rng.random() < 0.7, key=str(number))

    # -- by trying everything ---------------------------------------------------------------------------------

    def enumerated(self) -> int:
        """At which moments some way of sharing holds all of the demand, as bits; each way is tried in full."""
        rows = {row.code: row for row in applicable(self.chart, "s", NOW) if row.rated}
        slots = sorted({
            one.code for code in self.demand
            for one in (CHECKLIST.by_code[code], *CHECKLIST.lenders.get(code, ())) if one.code in rows
        })
        places = [(one, slot) for one in self.opportunities for slot in slots if one.shows(rows[slot].item)]
        judged: dict[tuple, int] = {}
        found = 0
        for shared in product((None, *self.learners), repeat=len(places)):
            if any(who is not None and who not in one.learners for who, (one, _) in zip(shared, places, strict=True)):
                continue
            held = -1
            for learner in sorted({who for whose in self.demand.values() for who in whose}):
                shows = learner.removeprefix(SET_OUT_FOR)
                mine = tuple(place for place, who in zip(places, shared, strict=True) if who == shows)
                if (learner, mine) not in judged:
                    judged[learner, mine] = self._judge(rows, learner, mine)
                held &= judged[learner, mine]
                if not held:
                    break
            found |= held
        return found & self.line.always

    def _judge(self, rows, who: str, mine) -> int:
        """At which moments this learner holds all that is asked of them, after these showings."""
        learner = who.removeprefix(SET_OUT_FOR)
        planned = tuple(
            Rating("s", code, learner, "06", one.at, f"planned {one.key}", SIGNED_OFF if one.signed_off else WARD_NURSE,
                   practice=one.practice)
            for one, code in mine)
        chart = replace(self.chart, ratings=self.chart.ratings + planned)
        held = 0
        for place, moment in enumerate(self.line.moments):
            later = {f"planned {one.key}" for one in self._later(place)}
            here = chart
            if later:
                here = replace(chart, ratings=tuple(one for one in chart.ratings if one.event not in later))
            scene = set_scene(here, self.policy, moment, "s", learner)
            found = [stand(scene, rows[code]) for code, whose in self.demand.items() if who in whose]
            if all(one.held if who == learner else one.second_floor for one in found):
                held |= 1 << place
        return held

    def _later(self, place: int) -> list[Opportunity]:
        """Opportunities of the same moment that stand later on the line."""
        moment = self.line.moments[place]
        return [
            one for later, one in enumerate(self.line.chances)
            if later > place and one is not None and self.line.moments[later] == moment
        ]
