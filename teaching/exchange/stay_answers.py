"""Which answer a row may take, and which rows may be answered for one stoma at one moment."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from teaching.exchange.wrong_file import did_you_mean
from teaching.rules.checklist import applicable
from teaching.rules.facts import Chart, Item
from teaching.rules.vocabulary import (
    DECISION_CODES,
    LEVEL_CODES,
    NEVER_OFFERED,
    NOT_RATED_CODES,
    PROCEDURES,
    TOPIC_CODES,
    UNAIDED,
)


def answers_of(item: Item) -> tuple[str, ...]:
    """The answers a row takes: a topic's, a decision's or a level of help, and always the not-rated codes."""
    own = TOPIC_CODES if item.topic else DECISION_CODES if item.decision else LEVEL_CODES
    return own + NOT_RATED_CODES


def answer_of_all(item: Item, answer: str) -> str:
    """What one answer for the whole procedure says of this row; "" when it says nothing.

    06 for all means that each decision was judged rightly. A lower level says nothing of a decision: name it.
    """
    if item.decision and answer == UNAIDED:
        return DECISION_CODES[0]
    return answer if answer in answers_of(item) else ""


def answer_fault(item: Item, answer: object) -> str:
    """Why the row cannot take this answer, with the mend; "" when it can."""
    allowed = answers_of(item)
    if not isinstance(answer, str):
        return f'{answer!r} is not text; write the answer in quotes, such as "{allowed[0]}".'
    if answer == NEVER_OFFERED:
        return "09 is never written: leave out a row that does not apply."
    if answer not in allowed:
        what = "topic" if item.topic else "decision" if item.decision else "step"
        return f"{answer} is not an answer for a {what}; {did_you_mean(answer, allowed)}"
    return ""


@dataclass(frozen=True)
class Rows:
    """The rows in force for one stoma at one moment."""

    chart: Chart
    stoma: str
    at: datetime

    def rated(self, procedure: str) -> Mapping[str, Item]:
        """Rows of a procedure that are rated now; topics are all answered."""
        return {
            row.item.code: row.item
            for row in applicable(self.chart, self.stoma, self.at)
            if row.item.procedure == procedure and (row.rated or row.item.topic)
        }

    def procedure_fault(self, procedure: str) -> str:
        """Why this stoma has no such procedure now, with the mend; "" when it has."""
        if procedure not in PROCEDURES or self._has(self.stoma, procedure):
            return ""
        name = PROCEDURES[procedure].lower()
        if not self._has_kit():
            return f"{name} cannot be placed: no kit is recorded for {self.stoma} by then; add one to kits."
        others = [one.key for one in self.chart.stomas if self._has(one.key, procedure)]
        mend = f"did you mean the stoma {others[0]}?" if others else "correct kits, or the procedure."
        return f"{self.stoma} had no {name} with the kit it wore then; {mend}"

    def _has(self, stoma: str, procedure: str) -> bool:
        return any(row.item.procedure == procedure for row in applicable(self.chart, stoma, self.at))

    def _has_kit(self) -> bool:
        return any(kit.stoma == self.stoma and kit.since <= self.at for kit in self.chart.kits)

    def fault(self, code: str, procedure: str) -> str:
        """Why this row cannot be answered here, with the mend; "" when it can."""
        item = self.chart.checklist.by_code.get(code)
        if item is None:
            known = [one.code for one in self.chart.checklist.items if one.procedure == procedure]
            name = f"{self.chart.checklist.code} {self.chart.checklist.number}"
            return f"is not a row of the checklist {name}; {did_you_mean(code, known)}"
        if item.procedure != procedure and not item.topic:
            return f"belongs to {item.procedure}, not to {procedure}; move it to a session of its own."
        if code in self.rated(item.procedure):
            return ""
        return self._absent(code)

    def _absent(self, code: str) -> str:
        here = {row.item.code for row in applicable(self.chart, self.stoma, self.at)}
        if code in here:
            return "is a prompt here, not rated; leave it out."
        if not self._has_kit():
            return f"cannot be placed: no kit is recorded for {self.stoma} by then; add one to kits."
        others = [
            stoma.key
            for stoma in self.chart.stomas
            if stoma.key != self.stoma
            and code in {row.item.code for row in applicable(self.chart, stoma.key, self.at)}
        ]
        if others:
            return f"is a row of the stoma {others[0]}, not of {self.stoma}; correct the stoma or the row."
        applies = " or ".join(" and ".join(words) for words in self.chart.checklist.by_code[code].applies)
        return (
            f"is not for this stoma with the kit and states it had then: it needs {applies}; "
            "correct kits or body_events, or leave the row out."
        )
