"""One sentence of what would help most, for the list of who goes home when."""

from dataclasses import asdict, dataclass
from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart
from teaching.rules.gaps import CLOSERS
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
    ways = [way for way in first.ways if way.reason != first.reason]
    helps = words(ways[0].reason) if ways else " ".join(f"This is for {CLOSERS[way.who]}." for way in first.ways[:1])
    return Outlook(readiness.result, readiness.words, words(first.reason), helps)
