"""One session read in full: each nurse's statement, every version of it, notes beside it, and what may be done."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.urls import reverse

from teaching.bedside.band import Band, band_of
from teaching.bedside.care_again import has_form
from teaching.bedside.caution_page import cautions_of
from teaching.bedside.finding_words import finding_words
from teaching.bedside.recorders import ratable_beside
from teaching.bedside.which import learner_name
from teaching.rules.facts import Chart
from teaching.rules.handover.steps import HELP
from teaching.rules.huddle import when
from teaching.rules.late import written_late
from teaching.rules.policy import Policy
from teaching.rules.reasons import words
from teaching.rules.vocabulary import (
    ACCOUNT_KINDS,
    ACCOUNT_ROLES,
    AIDS,
    ANSWERS,
    GRADES,
    LOWER_REASONS,
    PLACES,
    PROCEDURES,
    TOPIC_CODES,
    UNAIDED,
)

# The answers as one nurse tells another; on the buttons "you" is whoever taps.
READ = {UNAIDED: "Alone, nobody spoke"} | {code: words[0].upper() + words[1:] for code, words in HELP.items()}
KINDS = {"care": "Care given", "recheck": "Still managed alone"}
STANDS, REPLACED, IN_ERROR = "stands", "replaced by a later version", "entered in error: it does not count"


@dataclass(frozen=True, slots=True)
class Said:
    """One answer of one version, with the steps it was given for; `who` is "" where one learner did all of it."""

    who: str
    answer: str
    more: str
    titles: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Version:
    """One account: who signed it when, what for, how it stands now, and all that it says."""

    kind: str
    who: str
    signed: str
    happened: str
    stands: str
    reason: str
    meaning: str
    seen: tuple[str, ...]
    marked: tuple[str, ...]
    why: str
    whose: str
    rows: tuple[Said, ...]
    acts: tuple[tuple[str, str], ...]


class SessionPage:
    def __init__(self, event, accounts: Sequence[Any], chart: Chart, policy: Policy, now: datetime, asker):
        self.event, self.chart, self.policy, self.now, self.asker = event, chart, policy, now, asker
        self.stay = event.stay
        self.band: Band = band_of(event.stay, chart)
        self.cautions = cautions_of(chart, now)
        self.accounts = accounts
        self.newest = {one.rater_id: one for one in accounts if one.kind != "addendum"}
        self.versions = tuple(self._version(one) for one in accounts)

    @property
    def title(self) -> str:
        what = PROCEDURES[self.event.procedure]
        said = f"{KINDS[self.event.kind]}: {what.lower()}" if self.event.kind in KINDS else what
        return f"{said}, {when(self.event.opened_at, self.chart.ward, self.now)}"

    def about(self, account) -> Version:
        """The one version that an act is about."""
        return next(version for one, version in zip(self.accounts, self.versions, strict=True) if one == account)

    @property
    def signs_as(self) -> str:
        return self.asker.signs_as

    @property
    def beside(self) -> str:
        """Where a nurse who was there may rate it alone; "" where they have signed it, or nobody may."""
        own = self.asker.clinician_id in {one.rater_id for one in self.accounts if one.kind != "addendum"}
        may = ratable_beside(self.event) and self.asker("cosign") and not own
        return reverse("rate-beside", args=[self.accounts[0].uid]) if may and self._counts else ""

    @property
    def _counts(self) -> bool:
        return any(one.kind != "retraction" for one in self.newest.values())

    @property
    def note(self) -> str:
        return reverse("add-note", args=[self.accounts[0].uid]) if self.asker("correct_account") else ""

    def _version(self, one) -> Version:
        ward = self.chart.ward
        own = one.by_id == one.rater_id or one.imported_from is not None
        ratings = list(one.ratings.all())
        whose = {self._who(each) for each in ratings}
        role = f", {ACCOUNT_ROLES[one.role]}" if one.role != "taught" else ""
        return Version(
            kind=ACCOUNT_KINDS[one.kind].capitalize(),
            who=f"{one.rater_name}, {GRADES[one.rater_grade]}{role}" if own else one.signer_name,
            signed=when(one.signed_at, ward, self.now),
            happened="" if one.kind in ("addendum", "retraction") else self._happened(one),
            stands=self._stands(one),
            reason=one.reason,
            meaning=one.meaning,
            seen=finding_words(one.finding) if hasattr(one, "finding") else (),
            marked=tuple(self._marks(one)),
            why="Note" if one.kind == "addendum" else "Why",
            whose=next(iter(whose)) if len(whose) == 1 else "",
            rows=tuple(self._rows(ratings, several=len(whose) > 1)),
            acts=tuple(self._acts(one)),
        )

    def _happened(self, one) -> str:
        until = f" to {self.chart.ward.local(one.ended_at):%H:%M}" if one.ended_at else ""
        place = f", {PLACES[one.place]}" if one.place else ""
        return f"{when(one.began_at, self.chart.ward, self.now)}{until}{place}"

    def _stands(self, one) -> str:
        if one.kind == "addendum":
            return ""
        newest = self.newest[one.rater_id]
        if newest.kind == "retraction":
            return IN_ERROR
        return STANDS if newest == one else REPLACED

    def _marks(self, one):
        if one.kind == "original" and one.imported_from is None:
            late = written_late(one.ended_at or one.began_at, one.recorded_at, self.policy)
            if late:
                yield words(late)
        if one.imported_from is not None:
            yield f"Imported; written by {one.imported_from or 'somebody elsewhere'}."
        elif one.by_id != one.rater_id:
            yield f"It takes back what {one.rater_name} signed."
        if one.ended_how == "broken-off":
            yield "Broken off."
        if one.role == "student" and one.kind in ("original", "correction"):
            yield self._cosigned(one)

    def _cosigned(self, one) -> str:
        if not hasattr(one, "cosign"):
            return "Waits for a registered nurse to co-sign." if self._stands(one) == STANDS else "Never co-signed."
        at = when(one.cosign.at, self.chart.ward, self.now)
        return f"Co-signed {at} by {one.cosigner_name}, {GRADES[one.cosign.cosigner_grade]}."

    def _who(self, rating) -> str:
        return learner_name(self.chart.learner(str(rating.learner.uid)), self.band.name)

    def _rows(self, ratings, *, several: bool):
        """Steps with the same answer stand together, in the order of the first of them."""
        together: dict[tuple[str, str, str], list[str]] = {}
        for rating in ratings:
            item = self.chart.checklist.by_code.get(rating.code)
            title = item.title if item else rating.code
            together.setdefault(self._said(rating, several=several), []).append(title)
        for said, titles in together.items():
            yield Said(*said, tuple(titles))

    def _said(self, rating, *, several: bool) -> tuple[str, str, str]:
        """(who, answer, more)"""
        answer = READ.get(rating.answer, ANSWERS[rating.answer].words)
        code = rating.answer if rating.answer.isdigit() else ""
        more = [
            "practice" if rating.practice else "", "told, not seen" if rating.reported else "",
            LOWER_REASONS.get(rating.reason, ""), *(AIDS.get(aid, aid) for aid in rating.aids), rating.note,
        ]  # fmt: skip
        return (
            self._who(rating) if several else "",
            answer if rating.answer in TOPIC_CODES or not code else f"{code} {answer}",
            ", ".join(part for part in more if part),
        )

    def _acts(self, one):
        if self.newest.get(one.rater_id) != one or one.kind == "retraction":
            return
        if not self.asker("correct_account"):
            return
        own = one.rater_id == self.asker.clinician_id
        if own and has_form(self.event):
            yield reverse("correct-account", args=[one.uid]), "Correct this"
        if own or self.asker.grade == "stoma-nurse":
            yield reverse("entered-in-error", args=[one.uid]), "Entered in error"
        if one.role == "student" and not hasattr(one, "cosign") and not own and self.asker("cosign"):
            yield reverse("cosign", args=[one.uid]), "Co-sign"
