"""When the rows of one stoma can all be held, row by row and learner by learner, over the opportunities foreseen.

Moments are bits of one integer: the start, each opportunity in order, the planned moment. "All of these rows" is AND,
"any of these ways" is OR. At a fixed moment rows do not compete for an opportunity, so the AND is exact; rows that
lend each other showings do compete where two must learn, and are therefore swept together.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property

from teaching.rules.chances import Opportunity, Rule, Worth, apart_since, rule_of, ticks, worth
from teaching.rules.checklist import Row, applicable
from teaching.rules.facts import Chart, Item
from teaching.rules.lines import Policy
from teaching.rules.occasions import CLOSE
from teaching.rules.scene import Scene, set_scene
from teaching.rules.showings import ALONE_ONCE_SET_OUT, run_of
from teaching.rules.sweep import Step, Track, alone, several, track_of
from teaching.rules.vocabulary import SET_UP_ONLY

SET_OUT_FOR = "05 "  # before a learner's key: what they hold once somebody sets out and clears up (I9)
Demand = dict[str, frozenset[str]]  # the code of a row, and who must all hold it


@dataclass(frozen=True)
class Timeline:
    """The moments looked at, in order. `chances` has None at the start and at the planned moment."""

    moments: tuple[datetime, ...]
    chances: tuple[Opportunity | None, ...]

    @cached_property
    def times(self) -> tuple[int, ...]:
        return tuple(ticks(moment) for moment in self.moments)

    @cached_property
    def always(self) -> int:
        """Every moment, as bits."""
        return (1 << len(self.moments)) - 1

    def bit(self, moment: datetime) -> int:
        """The last entry of this moment: what was shown at it counts."""
        return 1 << max(place for place, at in enumerate(self.moments) if at == moment)

    def since(self, moment: datetime) -> int:
        """Every moment from this one on."""
        return sum(1 << place for place, at in enumerate(self.moments) if at >= moment)

    def with_learner(self, learner: str, stoma: str) -> int:
        """Every moment from the first opportunity on at which they are there."""
        first = next((place for place, one in enumerate(self.chances)
                      if one is not None and one.stoma == stoma and learner in one.learners), len(self.chances))
        return self.always & ~((1 << first) - 1)

    def earliest(self, held: int) -> datetime | None:
        return self.moments[(held & -held).bit_length() - 1] if held else None


def timeline(opportunities: tuple[Opportunity, ...], now: datetime, *others: datetime | None) -> Timeline:
    """Opportunities after now, and other moments at which it is asked what holds."""
    entries: list[tuple[datetime, bool, Opportunity | None]] = [
        (one.at, False, one) for one in opportunities if one.at > now
    ]
    entries += [(other, True, None) for other in others if other is not None and other >= now]
    entries.sort(key=lambda entry: entry[:-1])
    return Timeline((now, *(entry[0] for entry in entries)), (None, *(entry[-1] for entry in entries)))


class Prospect:
    """What one stoma's rows could come to. Only what is known by `now` is looked at, whatever the chart holds."""

    def __init__(
        self, chart: Chart, policy: Policy, now: datetime, stoma: str, line: Timeline,
        rows: Mapping[str, Row] | None = None,
    ) -> None:  # fmt: skip
        self.chart, self.policy, self.now, self.stoma, self.line = chart, policy, now, stoma, line
        self.rows = rows or {row.code: row for row in applicable(chart, stoma, now) if row.rated}
        self.practice = any(one is not None and one.practice for one in line.chances)
        self._scenes: dict[str, Scene] = {}
        self._worth: dict[tuple[Rule, int], list[Worth | None]] = {}
        self._ruled: dict[tuple[str, bool, str, bool], tuple[tuple[Rule, Rule], ...]] = {}
        self._tracks: dict[tuple[str, str], tuple[tuple[Rule, Track], ...]] = {}
        self.lost: tuple[int, str] | None = None  # a row taken as not shown at one moment of the line
        self._by_row = {one.procedure for one in line.chances if one is not None and one.only}
        self._places: dict[tuple[str, str, str], int] = {}
        self._apart: dict[bool, dict[int, int]] = {}
        self._swept: dict[object, int] = {}

    def held(self, demand: Demand) -> int:
        """At which moments some way of sharing the opportunities lets everyone hold what is asked of them."""
        found = self.line.always
        for codes in self.competing(demand) if len(_learners(demand)) > 1 else [list(demand)]:
            part = {code: demand[code] for code in codes}
            learners = _learners(part)
            if len(learners) > 1:
                found &= self._shared(part, sorted(learners))
            else:
                for code, whose in part.items():
                    for who in whose:
                        found &= self.one(code, who)
        return found

    def one(self, code: str, learner: str) -> int:
        """When this learner, alone or once set out for, can hold the row, if every chance of it is theirs."""
        found = 0
        usable = self.usable(code, learner.removeprefix(SET_OUT_FOR))
        for rule, track in self.tracks(code, learner):
            key = (usable, rule, track)
            if key not in self._swept:
                self._swept[key] = alone(track, rule, self.line.times, self.worth(rule, usable))
            found |= self._swept[key]
        return found

    def _shared(self, demand: Demand, learners: list[str]) -> int:
        """Rows that compete, for learners who must all hold them: one sweep over all of it."""
        start: list[Track] = []
        rules: list[Rule] = []
        wanted: list[list[tuple[int, Rule]]] = []
        moved: dict[tuple[str, str], list[int]] = {}
        for code, whose in demand.items():
            for who in sorted(whose):
                ways = []
                for rule, track in self.tracks(code, who):
                    ways.append((len(start), rule))
                    for slot in self.shown_by(code):
                        moved.setdefault((slot, who.removeprefix(SET_OUT_FOR)), []).append(len(start))
                    start.append(track)
                    rules.append(rule)
                wanted.append(ways)
        slots = sorted({slot for slot, _ in moved})
        usable = {(slot, learner): self._where(slot, learner) for slot, learner in moved}
        key = (tuple(start), tuple(rules), tuple(tuple(way[0] for way in ways) for ways in wanted), tuple(
            tuple((usable[slot, one], tuple(moved[slot, one])) for one in learners if (slot, one) in moved)
            for slot in slots
        ))
        if key not in self._swept:
            steps = [
                [choices for slot in slots if (choices := [
                    self._moves(moved[slot, one], rules, place)
                    for one in learners if (slot, one) in moved and usable[slot, one] >> place & 1
                ])]
                for place in range(len(self.line.times))
            ]
            self._swept[key] = several(tuple(start), wanted, self.line.times, steps)
        return self._swept[key]

    def _moves(self, tracks: list[int], rules: list[Rule], place: int) -> list[Step]:
        return [
            (track, rules[track], shown)
            for track in tracks if (shown := self.worth(rules[track], self.line.always)[place])
        ]

    def competing(self, codes: Iterable[str]) -> list[list[str]]:
        """The rows, those together that a showing of one row may serve."""
        groups: list[tuple[set[str], list[str]]] = []
        for code in codes:
            slots, together = set(self.shown_by(code)), [code]
            for group in [group for group in groups if group[0] & slots]:
                groups.remove(group)
                slots, together = slots | group[0], group[-1] + together
            groups.append((slots, together))
        return [together for _, together in groups]

    def shown_by(self, code: str) -> tuple[str, ...]:
        """The rows whose showing counts for this one: its own, and those that lend to it."""
        lenders = self.chart.checklist.lenders.get(code, ())
        return (code, *(lender.code for lender in lenders if lender.code in self.rows))

    def usable(self, code: str, learner: str) -> int:
        found = 0
        for slot in self.shown_by(code):
            found |= self._where(slot, learner)
        return found

    def _where(self, slot: str, learner: str) -> int:
        """At which moments this learner may show this row, as bits."""
        item = self.rows[slot].item
        key = (item.procedure, slot if item.procedure in self._by_row else "", learner)
        if key not in self._places:
            self._places[key] = sum(
                1 << place for place, one in enumerate(self.line.chances)
                if one is not None and one.stoma == self.stoma and learner in one.learners and one.shows(item)
            )
        found = self._places[key]
        return found & ~(1 << self.lost[0]) if self.lost and self.lost[1] == slot else found

    def worth(self, rule: Rule, usable: int) -> list[Worth | None]:
        """What each usable moment is worth to this rule; None elsewhere, and where it does not count."""
        key = (rule, usable)
        if key not in self._worth:
            since = self._apart.setdefault(rule.by_date, {})
            found: list[Worth | None] = []
            for place, one in enumerate(self.line.chances):
                if one is None or not usable >> place & 1:
                    found.append(None)
                    continue
                at = self.line.times[place]
                if place not in since:
                    since[place] = apart_since(one, rule, at, self.chart.ward)
                found.append(worth(one, rule, at, since[place]))
            self._worth[key] = found
        return self._worth[key]

    def tracks(self, code: str, who: str) -> tuple[tuple[Rule, Track], ...]:
        """Where they start from. While nothing of theirs is relied on, nothing can be foreseen: no track at all."""
        key = (code, who)
        if key not in self._tracks:
            scene, item = self.scene(who.removeprefix(SET_OUT_FOR)), self.rows[code].item
            found = []
            if not scene.meanwhile:
                runs = [run_of(scene, item)]
                if who.startswith(SET_OUT_FOR) and any(one.answer == SET_UP_ONLY for one in scene.seen(code)):
                    runs.append(run_of(scene, item, ALONE_ONCE_SET_OUT))
                for rule, coming in self._rules(scene, item):
                    found += [(coming, track_of(scene, item, rule, run)) for run in runs]
            self._tracks[key] = tuple(found)
        return self._tracks[key]

    def _rules(self, scene: Scene, item: Item) -> tuple[tuple[Rule, Rule], ...]:
        """The row's rule, and what of it matters to what is to come: where no practice is, its share does not.

        Before real stool has come a second one beside it, by which practice may stand for both (I6).
        """
        stands = scene.practice_may_stand(item) and scene.stool_call_booked
        key = (item.procedure, item.code == CLOSE, item.practice_share, stands)
        if key not in self._ruled:
            rule = rule_of(scene, item)
            rules = (rule, replace(rule, practice_stands=True)) if stands else (rule,)
            self._ruled[key] = tuple((one, one if self.practice else replace(one, share="all")) for one in rules)
        return self._ruled[key]

    def scene(self, learner: str) -> Scene:
        if learner not in self._scenes:
            self._scenes[learner] = set_scene(self.chart, self.policy, self.now, self.stoma, learner)
        return self._scenes[learner]


def _learners(demand: Demand) -> set[str]:
    return {who.removeprefix(SET_OUT_FOR) for whose in demand.values() for who in whose}
