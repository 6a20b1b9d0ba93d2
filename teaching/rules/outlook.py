"""One sentence of what would help most, for the list of who goes home when."""

from dataclasses import asdict, dataclass
from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart
from teaching.rules.lines import Policy
from teaching.rules.readiness import CANNOT_SAY, NOT_YET, Readiness
from teaching.rules.reasons import words


@dataclass(frozen=True, slots=True)
class Outlook:
    """`result` of readiness.RESULTS and its `words`; `why` it is not yet or cannot be said; `helps` most."""

    result: str
    words: str
    why: str = ""
    helps: str = ""

    @property
    def makes_it(self) -> bool:
        return self.result not in (NOT_YET, CANNOT_SAY)

    def plain(self) -> dict[str, str]:
        return asdict(self)


def outlook(chart: Chart, assessment: Assessment, readiness: Readiness, policy: Policy, now: datetime) -> Outlook:
    """What the list shows of one stay."""
    wanting = readiness.gaps or readiness.missing
    if not wanting:
        return Outlook(readiness.result, readiness.words)
    first = wanting[0]
    helps = next((words(way.reason) for gap in wanting for way in gap.ways if way.reason != gap.reason), "")
    return Outlook(readiness.result, readiness.words, words(first.reason), helps)
