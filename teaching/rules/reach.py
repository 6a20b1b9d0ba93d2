"""The earliest moment at which each result can be reached, over foreseen opportunities. A bound, never a prediction.

Each row needs some set of learners who leave no hour bare and who all hold it: union over sets, AND over rows.
Arrangements and cautions are not foreseen here; readiness judges them.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from teaching.rules.assess import Assessment
from teaching.rules.chances import Opportunity
from teaching.rules.changes import change_visits
from teaching.rules.cover import full_sets
from teaching.rules.facts import Chart
from teaching.rules.hands import Situation, situation_of
from teaching.rules.in_place import accepted
from teaching.rules.lines import Policy
from teaching.rules.prospect import Prospect, Timeline, timeline
from teaching.rules.readiness import SELF_CARING, WITH_HELPER, WITH_NURSING
from teaching.rules.standing import Standing

REACHED = (SELF_CARING, WITH_HELPER, WITH_NURSING)
Sets = tuple[frozenset[str], ...]


@dataclass(frozen=True, slots=True)
class Reach:
    """`earliest` moment (UTC) of each result, None: not within the time looked at; `at_planned`: holds then too."""

    earliest: tuple[tuple[str, datetime | None], ...]
    at_planned: tuple[tuple[str, bool], ...]

    def first(self, result: str) -> datetime | None:
        return dict(self.earliest)[result]

    def then(self, result: str) -> bool:
        return dict(self.at_planned)[result]

    @property
    def best(self) -> str:
        """The best result that can hold at the planned moment; "" where none can."""
        return next((result for result, holds in self.at_planned if holds), "")


class Reaching:
    """One stay's rows over one list of opportunities; `planned` the moment that is asked about besides."""

    def __init__(
        self, chart: Chart, assessment: Assessment, policy: Policy, now: datetime, planned: datetime,
        chances: tuple[Opportunity, ...], situation: Situation | None = None,
    ) -> None:  # fmt: skip
        self.chart, self.policy, self.now, self.planned = chart, policy, now, planned
        self.situation = situation or situation_of(chart, assessment, policy, now)
        self._known: dict[tuple[str, str, frozenset[str]], int] = {}
        self.line: Timeline = timeline(chances, now, planned)
        self.prospects = {
            stoma.key: Prospect(chart, policy, now, stoma.key, self.line) for stoma in chart.stomas
        }

    @cached_property
    def person(self) -> str:
        return self.situation.learners[0].key

    def reach(self) -> Reach:
        held = {SELF_CARING: self._alone(), WITH_HELPER: self._helped()}
        held[WITH_HELPER] |= held[SELF_CARING]
        held[WITH_NURSING] = self._nursed() | held[WITH_HELPER]
        there = self.line.bit(self.planned)
        return Reach(
            tuple((result, self.line.earliest(held[result])) for result in REACHED),
            tuple((result, bool(held[result] & there)) for result in REACHED),
        )

    def rows(self, stoma: str, *parts: str) -> list[Standing]:
        told = self.situation.parts(stoma)
        return [one for part in parts for one in told.get(part, ())]

    def _all(self, stoma: str, rows: Iterable[Standing], sets: Sets, helped: bool = True) -> int:
        """When each of these rows can be held by all of some set. Looking that a helper may do is held; so is, where
        helpers are leaned on, what is done with somebody to set out and clear up.
        """
        found = self.line.always
        for row in rows:
            if row.may_look or (helped and row.helper_only):
                continue
            one = 0
            for members in sets:
                one |= self._row(stoma, row, members)
            found &= one
        return found

    def _row(self, stoma: str, row: Standing, members: frozenset[str]) -> int:
        key = (stoma, row.code, members)
        if key not in self._known:
            self._known[key] = self._worked_out(stoma, row, members)
        return self._known[key]

    def _worked_out(self, stoma: str, row: Standing, members: frozenset[str]) -> int:
        if row.row.item.topic:
            found = self.line.always
            for learner in members:
                found &= self.topic(stoma, row.code, learner)
            return found
        return self.prospects[stoma].held({row.code: members}) if members else self.line.always

    def _alone(self) -> int:
        found, only = self.line.always, (frozenset({self.person}),)
        for stoma in self.prospects:
            rows = self.rows(stoma, "know", "topics", "pouch", "night", "change", "look")
            found &= self._all(stoma, rows, only, helped=False)
        return found

    def _helped(self) -> int:
        """At every hour somebody who counts; topics beyond the hard minimum by anybody."""
        found, hours = self.line.always, dict(self.situation.hours[0])
        by_day, by_night = full_sets(hours, self.situation.span.full), full_sets(hours, self.situation.nights)
        for stoma in self.prospects:
            found &= self._all(stoma, self.rows(stoma, "know", "pouch", "change"), by_day)
            found &= self._all(stoma, self.rows(stoma, "night"), by_night)
            found &= self._all(stoma, self.rows(stoma, "topics", "look"), self._anybody())
        return found

    def _nursed(self) -> int:
        """As helped, where the leak service and accepted visits stand in for what they are for."""
        found, hours = self.line.always, dict(self.situation.hours[0])
        by_day, by_night = full_sets(hours, self.situation.span.full), full_sets(hours, self.situation.nights)
        bare = self.situation.span.full & ~self.situation.service
        for stoma in self.prospects:
            found &= self._all(stoma, self.rows(stoma, "know", "pouch"), by_day)
            found &= self._all(stoma, self.rows(stoma, "night"), by_night)
            found &= self._all(stoma, self.rows(stoma, "change"), full_sets(hours, bare))
            if not change_visits(self.situation, stoma):
                found &= self._all(stoma, self.rows(stoma, "change", "look"), self._anybody())
            if not accepted(self.chart, self.situation.leaving, stoma):
                found &= self._all(stoma, self.rows(stoma, "topics"), self._anybody())
        return found

    def _anybody(self) -> Sets:
        return tuple(frozenset({one.key}) for one in self.situation.learners)

    def topic(self, stoma: str, code: str, learner: str) -> int:
        """From when a topic can be explained: told, and said back the wait later on another day, or the same day
        where a first contact is booked. Any opportunity at which the learner is there is a time to talk.
        """
        rows = self.situation.rows.get((stoma, learner), {})
        row = next((one for one in (*rows.get("know", ()), *rows.get("topics", ())) if one.code == code), None)
        if row is None:
            return 0
        if row.held:
            return self.line.always
        told = None
        if row.last is not None and row.state in ("learning", "shown once", "slipped"):
            talk = self.chart.by_row.get((stoma, code, learner), ())
            told = talk[0].at if talk else None
        for place, (moment, chance) in enumerate(zip(self.line.moments, self.line.chances, strict=True)):
            if chance is None or learner not in chance.learners:
                continue
            if told is None:
                told = moment
            elif moment - told >= self.policy.topic_wait and (self._called or self._later_day(told, moment)):
                return self.line.always & ~((1 << place) - 1)
        return 0

    @cached_property
    def _called(self) -> bool:
        return any(one.code == "first-contact" and one.state == "made" for one in self.chart.arrangements)

    def _later_day(self, told: datetime, moment: datetime) -> bool:
        return self.chart.ward.date(told) != self.chart.ward.date(moment)
