"""What would help most, in one line, for the list of who goes home when; and the plan's sentence for the handover."""

from dataclasses import asdict, dataclass
from datetime import datetime

from teaching.rules.acts import act_of_gap, act_of_move
from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart
from teaching.rules.home import PARTS
from teaching.rules.lines import Policy
from teaching.rules.moves import Move
from teaching.rules.opportunities import TAUGHT_WHILE
from teaching.rules.plan import plan
from teaching.rules.readiness import CANNOT_SAY, NOT_YET, Readiness
from teaching.rules.reasons import Reason, words
from teaching.rules.standing import soonest

OUTLOOK_VERSION = "2"  # moves with any change of what `outlook` answers, in words too: it is kept
LEARNED = ("know", *PARTS)
UNSAID = ("plan-held", "call-first", "to-facility")  # nothing is left to plan; or what is asked says so
SUPPOSES_SOMEBODY = "find-helper"


@dataclass(frozen=True, slots=True)
class Outlook:
    """`result` of readiness.RESULTS and its `words`; `why` it is not yet or cannot be said; `helps` most, an act.

    `plan`: its sentence, with the move that helps most; "" where nothing is left to plan.
    """

    result: str
    words: str
    why: str = ""
    helps: str = ""
    plan: str = ""

    @property
    def makes_it(self) -> bool:
        return self.result not in (NOT_YET, CANNOT_SAY)

    def plain(self) -> dict[str, str]:
        return asdict(self)


def outlook(
    chart: Chart, assessment: Assessment, readiness: Readiness, policy: Policy, now: datetime
) -> tuple[Outlook, datetime | None]:
    """What is shown of one stay, and until when it holds with no new fact (UTC; None: always).

    A plan says "not before", so it stays true while chances pass unused; it holds until the first moment it names.
    """
    wanting = readiness.gaps or readiness.missing
    learned = any(gap.part in LEARNED for gap in readiness.gaps)
    found = plan(chart, assessment, policy, now, try_moves=learned, find_aims=False)
    move = _most(found.moves)
    said = "" if chart.state not in TAUGHT_WHILE or found.said.code in UNSAID else words(found.said)
    act = act_of_move(chart, move, found.planned) if move else ""
    urgent = bool(wanting) and wanting[0].part == "caution"
    told = Outlook(
        readiness.result,
        readiness.words,
        words(wanting[0].reason) if wanting else "",
        (act_of_gap(chart, wanting[0], now) if urgent or not act else act) if wanting else "",
        f"{said} {act}".strip() if said else "",
    )
    reasons = [found.said, *([move.reason] if move else []), *(way.reason for gap in wanting[:1] for way in gap.ways)]
    change = next((one.at for one in found.chances if one.procedure == "change"), None)
    until = soonest(assessment.holds_until, readiness.holds_until, change, *_still_to_come(reasons, now))
    return told, until


def _most(moves: tuple[Move, ...]) -> Move | None:
    """The first, cheapest for the skin; one that supposes somebody not named yet only where there is no other."""
    return min(moves, key=lambda one: one.code == SUPPOSES_SOMEBODY, default=None)


def _still_to_come(reasons: list[Reason], now: datetime) -> list[datetime]:
    named = [value for reason in reasons for value in reason.parameters.values() if isinstance(value, datetime)]
    return [moment for moment in named if moment > now]
