"""What a session, care given or a recheck must be before it is stored: every fault, each a sentence with its mend.

A fault of one row stands under "ratings.<code>", a fault of a finding under "finding.<name>".
"""

from collections.abc import Iterable
from datetime import datetime

from teaching.models import Stay, Stoma
from teaching.record.charts import Sheet
from teaching.record.checking import Faults
from teaching.record.entries import CareEntry, RatingEntry, RecheckEntry, SessionEntry
from teaching.record.finding_checks import check_finding
from teaching.record.rating_checks import check_answer, check_row
from teaching.rules import vocabulary as words
from teaching.rules.checklist import applicable, features, kit_at, states_at

NURSES = ("stoma-nurse", "registered")
BY_AN_ASSISTANT = ("emptying", "swap", "urine", "night")
NEEDED = {
    "emptying": ("drainable", "a drainable bowel pouch"),
    "swap": ("closed", "a closed pouch"),
    "urine": ("urostomy", "a stoma that passes urine"),
    "night": ("urostomy", "a stoma that passes urine"),
}
NOT_OPEN = {
    "paused": "Teaching is paused. Note that it has resumed, then record the session.",
    "left": "The person had left by then. Correct the time, or reopen the stay.",
    "stopped": "The stay had ended by then. Correct the time, or reopen the stay.",
    "cancelled": "This stay was cancelled. Reopen it, or open the right one.",
}


class Look:
    """One entry looked over against the chart of its stay. `grade` is the rater's, `now` the server's moment."""

    def __init__(self, sheet: Sheet, stay: Stay, grade: str, now: datetime) -> None:
        self.sheet, self.chart, self.stay, self.grade, self.now = sheet, sheet.chart, stay, grade, now
        self.faults = Faults()

    def session(self, entry: SessionEntry) -> Faults:
        timed = self._times(entry.began_at, entry.ended_at)
        self._rater(entry)
        known = self._place(entry.stoma, entry.procedure, entry.began_at if timed else None)
        if timed:
            self._open(entry.began_at, {"paused", "left", "stopped", "cancelled"})
        self.faults.word("place", entry.place, words.PLACES, blank=True)
        self.faults.word("interpreter", entry.interpreter, words.INTERPRETERS, blank=True)
        self.faults.word("ended_how", entry.ended_how, words.ENDED_HOW)
        self.faults.text("language", entry.language, 20)
        if not entry.ratings:
            self.faults.add("ratings", "Nothing is rated. Rate at least one row, or record it as care given.")
        self._ratings(entry, known and timed)
        if known and timed:
            self._before_surgery(entry)
        if entry.finding:
            check_finding(self.faults, entry.finding)
        return self.faults

    def care(self, entry: CareEntry) -> Faults:
        timed = self.faults.moment("at", entry.at, self.now)
        self._carer()
        self._place(entry.stoma, entry.procedure, entry.at if timed else None)
        if entry.procedure == "topics":
            self.faults.add("procedure", "Topics are explained, not done for someone; record a session instead.")
        if timed:
            self._open(entry.at, {"left", "stopped", "cancelled"})
        if entry.finding:
            check_finding(self.faults, entry.finding)
            if timed and self._is_before_surgery(entry.stoma, entry.at):
                self.faults.add("finding", "This is before surgery, so there was no stoma to look at. Check the time.")
        return self.faults

    def recheck(self, entry: RecheckEntry) -> Faults:
        timed = self.faults.moment("at", entry.at, self.now)
        if self.grade not in NURSES:
            self.faults.add("", "A recheck is for a registered nurse; ask one to see it.")
        if entry.procedure not in ("emptying", "swap", "urine", "night"):
            self.faults.add("procedure", "Only emptying, swapping and night drainage are rechecked this way.")
        known = self._place(entry.stoma, entry.procedure, entry.at if timed else None)
        if timed:
            self._open(entry.at, {"paused", "left", "stopped", "cancelled"})
            if known and self._is_before_surgery(entry.stoma, entry.at):
                self.faults.add("at", "This is before surgery, so nothing could be managed yet. Check the time.")
        self._learner(entry.learner)
        return self.faults

    def _times(self, began: datetime, ended: datetime | None) -> bool:
        timed = self.faults.moment("began_at", began, self.now)
        if self.faults.moment("ended_at", ended, self.now, needed=False) and timed:
            assert ended is not None
            if ended < began:
                self.faults.add("ended_at", "It ends before it starts. Correct one of the two times.")
        return timed

    def _open(self, at: datetime, closed: set[str]) -> None:
        """Late entry is welcome: what counts is whether the stay was open when it happened."""
        then, today = self.sheet.state_at(at), self.chart.state
        state = "cancelled" if today == "cancelled" else then
        if state in closed:
            self.faults.add("stay", NOT_OPEN[state])

    def _rater(self, entry: SessionEntry) -> None:
        self.faults.word("role", entry.role, words.ACCOUNT_ROLES)
        if self.grade == "other":
            self.faults.add("", "Ratings are signed by nursing staff. Ask a nurse to record this session.")
        elif self.grade == "student" and entry.role == "taught":
            self.faults.add("role", "A student signs a student's entry; a registered nurse then co-signs it.")
        elif self.grade != "student" and entry.role == "student":
            self.faults.add("role", "Only a student signs a student's entry; sign it as yourself.")
        elif self.grade == "assistant" and entry.procedure not in BY_AN_ASSISTANT:
            self.faults.add(
                "procedure", "A nursing assistant logs care, leaks and output; a nurse rates this. Record care given."
            )

    def _carer(self) -> None:
        if self.grade == "other":
            self.faults.add("", "Care is recorded by nursing staff. Ask a nurse to record it.")

    def _place(self, stoma: Stoma, procedure: str, at: datetime | None) -> bool:
        """Whether the stoma is this person's and the procedure is one its kit has."""
        self.faults.word("procedure", procedure, words.PROCEDURES)
        if str(stoma.uid) not in {each.key for each in self.chart.stomas}:
            self.faults.add("stoma", "This stoma belongs to another person's stay. Choose one of this person's.")
            return False
        if procedure in NEEDED and at is not None:
            feature, what = NEEDED[procedure]
            if feature not in self.features(stoma, at):
                name = words.PROCEDURES[procedure]
                others = [each.label for each in self.chart.stomas if feature in self._features(each.key, at)]
                mend = f"Did you mean the other stoma ({others[0]})?" if others else "Write down the kit first."
                self.faults.add("procedure", f"{name} needs {what}; this stoma does not wear one. {mend}")
                return False
        return procedure in words.PROCEDURES

    def features(self, stoma: Stoma, at: datetime) -> frozenset[str]:
        return self._features(str(stoma.uid), at)

    def _features(self, key: str, at: datetime) -> frozenset[str]:
        return features(self.chart.stoma(key), kit_at(self.chart, key, at), states_at(self.chart, key, at))

    def _ratings(self, entry: SessionEntry, placed: bool) -> None:
        seen = set()
        here = applicable(self.chart, str(entry.stoma.uid), entry.began_at) if placed else ()
        rows = {row.code: row for row in here}
        for rating in entry.ratings:
            field = f"ratings.{rating.code}"
            if (rating.code, rating.learner.pk) in seen:
                self.faults.add(field, "This row is rated twice for the same learner. Keep one answer.")
            seen.add((rating.code, rating.learner.pk))
            self._learner(rating.learner)
            item = self.chart.checklist.by_code.get(rating.code)
            if item is None:
                name = f"{self.chart.checklist.code} {self.chart.checklist.number}"
                self.faults.add(field, f"This is not a row of the checklist in use ({name}). Open the page again.")
                continue
            check_answer(self.faults, field, item, rating)
            if placed:
                check_row(self.faults, field, self.chart, entry, item, rows)
            if self.grade == "assistant" and item.topic:
                self.faults.add(field, "A nurse explains topics. Leave this one to a nurse.")

    def _learner(self, learner: object) -> None:
        key = str(learner.uid)  # type: ignore[attr-defined]
        if key not in {each.key for each in self.chart.learners}:
            self.faults.add("learner", "This learner belongs to another person's stay. Choose one of this person's.")
            return
        if self.chart.learner(key).kind == "helper":
            said = {each.whose for each in self.chart.consents if each.learner == key and each.yes}
            missing = [words.CONSENT_WHOSE[whose] for whose in words.CONSENT_WHOSE if whose not in said]
            if missing:
                name, who = self.chart.learner(key).name, " and ".join(missing)
                self.faults.add(
                    "learner", f"{name} cannot be taught yet: {who} has not said yes. Record the yes first."
                )

    def _before_surgery(self, entry: SessionEntry) -> None:
        if not self._is_before_surgery(entry.stoma, entry.began_at):
            return
        if entry.finding:
            self.faults.add("finding", "This is before surgery, so there was no stoma to look at. Check the time.")
        for code in real_showings(entry.ratings):
            self.faults.add(f"ratings.{code}", "This is before surgery. Mark it as practice, or check the time.")

    def _is_before_surgery(self, stoma: Stoma, at: datetime) -> bool:
        surgery = stoma.formed_at or self.chart.surgery_at
        return at < surgery if surgery else self.chart.state == "expected"


def real_showings(ratings: Iterable[RatingEntry]) -> list[str]:
    hands = words.LEVEL_CODES + words.DECISION_CODES
    return [each.code for each in ratings if each.answer in hands and not each.practice]
