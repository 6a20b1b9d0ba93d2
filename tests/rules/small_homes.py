"""Small random ways home, and what they come to by trying everything: independence and readiness are the judges.

A checklist of eight rows, two or three learners with their hours, two or three opportunities. Every way of sharing the
rows among those who are there is tried; at each moment `home.bare_parts` says what is left bare.
"""

from dataclasses import replace
from datetime import timedelta
from itertools import product
from random import Random

from story import CHECKLIST, MONDAY, SIGNED_OFF, STOMA_NURSE, WARD_NURSE

from teaching.rules.assess import assess
from teaching.rules.chances import Opportunity
from teaching.rules.checklist import applicable
from teaching.rules.facts import Arrangement, Care, Chart, Consent, Kit, Learner, Rating, Stoma, Visit, Witness
from teaching.rules.hands import situation_of
from teaching.rules.holding import as_shown, by_part, skill
from teaching.rules.home import NURSING, PERSON, TOGETHER, bare_parts
from teaching.rules.independence import stand
from teaching.rules.items import Checklist
from teaching.rules.policy import DEFAULT
from teaching.rules.prospect import timeline
from teaching.rules.scene import set_scene
from teaching.rules.standing import Standing
from teaching.rules.ward import Ward

CODES = ("em-open", "em-close", "cut", "shut-first", "close", "look-skin", "t-call", "t-signs")
STEPS, TOPICS = CODES[:6], CODES[6:]
SHORT = Checklist("short", 1, tuple(item for item in CHECKLIST.items if item.code in CODES))
NOW = MONDAY + timedelta(days=2, hours=9)
LEANS = (PERSON, TOGETHER, NURSING)
WEEKS = ("1" * 168, "1" * 168, ("0" * 8 + "1" * 12 + "0" * 4) * 7, ("1" * 8 + "0" * 12 + "1" * 4) * 7, "")
NURSES = ("Ward Nurse", "Other Nurse")


class Home:
    def __init__(self, seed: int) -> None:
        rng = self.rng = Random(seed)
        keys = ("person", "helper", "second")[: rng.choice((2, 2, 3))]
        self.learners = tuple(
            Learner(key, "helper" if number else "person", week=rng.choice(WEEKS) if number else "",
                    needs=frozenset({"sight"}) if rng.random() < 0.15 else frozenset())
            for number, key in enumerate(keys))
        self.planned = NOW + timedelta(hours=rng.choice((20, 30, 50)))
        kit = Kit("s", MONDAY, interval_hours=72)
        arranged = [Arrangement("leak-service", "made", MONDAY, details=(
            ("answers_hours", 2), ("day_and_night", rng.random() < 0.6), ("from_hour", 8), ("until_hour", 20),
            ("weekends", True)))] * (rng.random() < 0.5)
        arranged += [Arrangement("first-contact", "made", MONDAY)] * (rng.random() < 0.5)
        self.chart = Chart(
            "home", Ward(), SHORT, (Stoma("s", "stoma", "ileostomy"),), self.learners, (kit,),
            ratings=tuple(self._history(keys)),
            care=(Care("s", "change", NOW - timedelta(hours=rng.choice((3, 40))), "c"),),
            consents=tuple(Consent(key, whose, True, MONDAY) for key in keys[1:] for whose in ("person", "helper")),
            arrangements=tuple(arranged), planned_at=self.planned, visits=tuple(
                Visit("v", self.planned + timedelta(hours=rng.choice((2, 30))), "made", rng.random() < 0.5, "N")
                for _ in range(rng.random() < 0.3)))
        many = 3 if len(keys) == 2 and rng.random() < 0.6 else 2
        self.opportunities = tuple(
            Opportunity(NOW + timedelta(hours=rng.choice((1, 2, 5, 8, 20, 25, 28))), rng.choice(("emptying", "change")),
                        "s", frozenset(key for key in keys if rng.random() < 0.9), signed_off=rng.random() < 0.85,
                        practice=rng.random() < 0.1, teacher=rng.choice(NURSES), key=str(number))
            for number in range(many))
        self.line = timeline(self.opportunities, NOW, self.planned)
        self.situation = situation_of(self.chart, assess(self.chart, DEFAULT, NOW), DEFAULT, NOW)
        self.rows = {row.code: row for row in applicable(self.chart, "s", NOW)}

    def _history(self, keys):
        """Often nearly there: what is left to do is what is asked about."""
        rng = self.rng
        for key in keys:
            for code in STEPS:
                for days in range(rng.choice((0, 1, 1, 2, 2, 2))):
                    at = NOW - timedelta(hours=24 * days + rng.choice((1, 4, 20)))
                    yield Rating("s", code, key, "05" if rng.random() < 0.1 else "06", at, f"{key} {at:%d %H}",
                                 rng.choice((WARD_NURSE, SIGNED_OFF, STOMA_NURSE)), practice=rng.random() < 0.1)
            for code in TOPICS:
                for answer, hours in (("told", 30), ("own_words", 3))[: rng.choice((1, 2, 2, 2, 0))]:
                    at = NOW - timedelta(hours=hours)
                    yield Rating("s", code, key, answer, at, f"talk {at:%d %H}", Witness("Ward Nurse"))

    # -- by trying everything ---------------------------------------------------------------------------------

    def enumerated(self) -> dict:
        """For each lean the moments at which some way of sharing leaves nothing bare, as bits."""
        places = [
            (one, code) for one in self.opportunities for code in STEPS
            if one.learners and one.shows(self.rows[code].item)
        ]
        talks = {one.key: self._explained(one.key) for one in self.learners}
        judged: dict[tuple, list] = {}
        at_moment: list[dict] = [{} for _ in self.line.moments]
        for shared in product(*(sorted(one.learners) for one, _ in places)):
            columns = []
            for learner in self.learners:
                mine = tuple(place for place, who in zip(places, shared, strict=True) if who == learner.key)
                for code in STEPS:  # a row stands on its own showings and on what is lent to it
                    serving = {code, *(lender.code for lender in SHORT.lenders.get(code, ()))}
                    key = learner.key, code, tuple(each for each in mine if each[1] in serving)
                    if key not in judged:
                        judged[key] = self._standings(*key)
                    columns.append(judged[key])
                columns += talks[learner.key]
            for place, standings in enumerate(zip(*columns, strict=True)):
                at_moment[place].setdefault(tuple(shown for _, shown in standings), [one for one, _ in standings])
        return {lean: sum(
            1 << place for place, ways in enumerate(at_moment)
            if any(self._manages(each, lean) for each in ways.values())
        ) for lean in LEANS}

    def _manages(self, standings, lean) -> bool:
        rows = by_part(standings)
        skills = {("s", one.key): skill(rows["s", one.key], as_shown, "") for one in self.learners}
        return not bare_parts(replace(self.situation, rows=rows, skills=(skills, skills)), "s", lean)

    def _standings(self, learner, code, mine) -> list[tuple]:
        """Steps as shown in `mine`; what to look for is told whenever they are there."""
        planned = tuple(Rating("s", shown, learner, "06", one.at, f"planned {one.key}", _seen_by(one), one.practice)
                        for one, shown in mine)
        told = tuple(Rating("s", "t-signs", learner, "told", one.at, f"planned {one.key}", _seen_by(one))
                     for one in self.opportunities if learner in one.learners)
        chart = replace(self.chart, ratings=(*self.chart.ratings, *planned, *told))
        found = []
        for place, moment in enumerate(self.line.moments):
            scene = set_scene(self._until(chart, place), DEFAULT, moment, "s", learner)
            found.append(_with_what_matters(stand(scene, self.rows[code])))
        return found

    def _explained(self, learner) -> list[list[tuple]]:
        """Each topic by every choice of telling and saying back; a moment counts if any choice explains it by then."""
        there = [one for one in self.opportunities if learner in one.learners]
        found = []
        for code in TOPICS:
            best: list = [None] * len(self.line.moments)
            for answers in product((None, "told", "own_words"), repeat=len(there)):
                said = tuple(Rating("s", code, learner, answer, one.at, f"planned {one.key}", _seen_by(one))
                             for one, answer in zip(there, answers, strict=True) if answer)
                chart = replace(self.chart, ratings=self.chart.ratings + said)
                for place, moment in enumerate(self.line.moments):
                    one = stand(set_scene(self._until(chart, place), DEFAULT, moment, "s", learner), self.rows[code])
                    if best[place] is None or one.held:
                        best[place] = one
            found.append([_with_what_matters(one) for one in best])
        return found

    def _until(self, chart, place):
        """Of opportunities at one moment, only those that stand up to here on the line."""
        later = {f"planned {one.key}" for one in self.line.chances[place + 1 :] if one is not None}
        return replace(chart, ratings=tuple(one for one in chart.ratings if one.event not in later))


def _seen_by(one: Opportunity) -> Witness:
    return Witness(one.teacher, "registered", signed_off=one.signed_off)


def _with_what_matters(one: Standing) -> tuple:
    return one, (one.held, one.second_floor, one.may_look)
