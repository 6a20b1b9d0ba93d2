"""The teaching plan on the page: one sentence, a timeline to the planned day, what would help, what costs a day."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from teaching.rules.arrangements import FACILITY
from teaching.rules.assess import Assessment
from teaching.rules.chances import Opportunity
from teaching.rules.facts import Chart
from teaching.rules.huddle import DAYS, sentences, when
from teaching.rules.lines import Policy
from teaching.rules.moves import Move
from teaching.rules.plan import Plan
from teaching.rules.reach import REACHED
from teaching.rules.reasons import words
from teaching.rules.scene import has_agreed
from teaching.rules.teach_now import teach_now
from teaching.rules.vocabulary import PROCEDURES

HOURS_IN_A_DAY = 24
A_FEW_MINUTES = 10
HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Row:
    """One procedure on the timeline: its name, and the hours from now at which there is a chance."""

    name: str
    hours: tuple[float, ...]
    said: str


@dataclass(frozen=True, slots=True)
class Timeline:
    """`hours` from now to the planned moment; `ticks` are (hour, day) at each midnight of the ward's clock."""

    hours: float
    rows: tuple[Row, ...]
    ticks: tuple[tuple[float, str], ...]

    @property
    def words(self) -> str:
        return sentences(*(f"{row.name}: {row.said}" for row in self.rows))


def here_now(chart: Chart, assessment: Assessment, policy: Policy, now: datetime) -> list[tuple[str, str]]:
    """(who, what could be taught them in a few minutes) for each helper who has agreed and still wants something."""
    found = []
    for learner in chart.learners:
        if learner.kind == "helper" and has_agreed(chart, learner, now):
            rows = teach_now(chart, assessment, policy, now, learner.key, A_FEW_MINUTES)
            if rows:
                found.append((learner.name or learner.relation, "; ".join(one.row.item.title for one in rows)))
    return found


class PlanPage:
    def __init__(self, plan: Plan, chart: Chart, now: datetime, here: list[tuple[str, str]]):
        self.plan, self.chart, self.now, self.here = plan, chart, now, here

    @property
    def said(self) -> str:
        said = words(self.plan.said)
        return said[0].upper() + said[1:]

    @property
    def results(self) -> list[tuple[str, str]]:
        """Each result and from when, if each chance is taken. Bound for a facility no result waits for learning."""
        if self.chart.goes_to == FACILITY:
            return []
        return [(result.capitalize(), self._from(result)) for result in REACHED]

    def _from(self, result: str) -> str:
        at = self.plan.reach.first(result)
        if at is None:
            return "not within the time there is"
        holds = "" if self.plan.reach.then(result) else ", out of date again by the planned moment"
        return ("now" if at <= self.now else f"not before {self._when(at)}") + holds

    @property
    def slack(self) -> str:
        if self.plan.planned is None or self.plan.slack is None or self.plan.slack < timedelta():
            return ""
        days, rest = divmod(self.plan.slack, DAY)
        return f"Room to spare: {f'{days} d ' if days else ''}{rest // HOUR} h."

    @property
    def moves(self) -> list[tuple[str, str]]:
        return [(words(one.reason), self._brings(one)) for one in self.plan.moves]

    def _brings(self, move: Move) -> str:
        """A bound: the soonest that what is learned would do for this result."""
        return f"{move.result} could then be reached, not before {self._when(move.at)}"

    @property
    def aims(self) -> list[str]:
        return [one.row.item.title for one in self.plan.aims]

    @property
    def timeline(self) -> Timeline:
        rows: dict[str, list[Opportunity]] = {}
        for one in self.plan.chances:
            rows.setdefault(one.procedure, []).append(one)
        hours = (self.plan.until - self.now) / HOUR
        return Timeline(hours, tuple(self._row(name, told) for name, told in rows.items()), tuple(self._midnights()))

    def _row(self, procedure: str, told: list[Opportunity]) -> Row:
        count = "1 chance" if len(told) == 1 else f"{len(told)} chances"
        return Row(
            PROCEDURES[procedure], tuple((one.at - self.now) / HOUR for one in told),
            f"{count}, the next {self._when(told[0].at)}",
        )  # fmt: skip

    def _midnights(self):
        here = self.chart.ward.local(self.now)
        first = HOURS_IN_A_DAY - here.hour - here.minute / 60
        hour = first
        while hour < (self.plan.until - self.now) / HOUR:
            yield hour, DAYS[self.chart.ward.local(self.now + (hour + 1) * HOUR).weekday()]
            hour += HOURS_IN_A_DAY

    def _when(self, moment: datetime) -> str:
        return when(moment, self.chart.ward, self.now)
