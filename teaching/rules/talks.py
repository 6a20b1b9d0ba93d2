"""From when a topic can be explained: two moments a learner, the telling and the saying back, in closed form (I16)."""

from datetime import datetime

from teaching.rules.chances import Opportunity
from teaching.rules.checklist import Row
from teaching.rules.prospect import Timeline
from teaching.rules.scene import FIRST_CONTACT, Scene, arranged
from teaching.rules.topics import TALK, called_in_time, needs_interpreter


class Talks:
    """The topics of one learner on one stoma. Every opportunity they are at is a time to tell and to ask back.

    `explained`: those that are already. Whoever will teach and is not named is not another nurse; an interpreter not
    booked is none.
    """

    def __init__(self, scene: Scene, line: Timeline, explained: frozenset[str]) -> None:
        self.scene, self.line, self.already = scene, line, explained
        self.needs_interpreter = needs_interpreter(scene.chart, scene.learner)
        self.called = called_in_time(scene, arranged(scene.chart, FIRST_CONTACT, scene.now))
        self._found: dict[tuple[tuple[datetime, str], ...], int] = {}

    def explained(self, row: Row) -> int:
        """The moments from which it is explained, as bits; what was said back once is never out of date."""
        if row.code in self.already:
            return self.line.always
        said = tuple((one.at, one.witness.name) for one in self.scene.seen(row.code) if one.answer in TALK)
        if said not in self._found:
            self._found[said] = self._from_first_chance(list(said))
        return self._found[said]

    def _from_first_chance(self, said: list[tuple[datetime, str]]) -> int:
        for place, one in enumerate(self.line.chances):
            if one is None or self.scene.learner.key not in one.learners or one.stoma != self.scene.stoma.key:
                continue
            if said and self._explains(one, said):
                return self.line.always & ~((1 << place) - 1)
            said.append((one.at, one.teacher))
        return 0

    def _explains(self, one: Opportunity, said: list[tuple[datetime, str]]) -> bool:
        ward, wait, told = self.scene.chart.ward, self.scene.policy.topic_wait, said[0][0]
        if one.at - told < wait or (self.needs_interpreter and not one.interpreter):
            return False
        if ward.date(one.at) != ward.date(told):
            return True
        return self.called and any(
            one.teacher and by and by != one.teacher and one.at - at >= wait for at, by in said
        )
