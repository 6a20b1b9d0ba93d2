"""What was seen at the bedside, from the effective accounts: ratings, care given, rechecks and findings."""

from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from teaching.record.chart_rows import Rows
from teaching.rules.facts import Care, Finding, Rating, Recheck, Witness

LENGTHS = ("width_mm", "height_mm", "opening_width_mm", "opening_height_mm")
WORDS = ("colour", "wet", "edge", "stands", "noticed_by", "bleeding", "wear_end", "leak_track")


def effective(accounts: Iterable[Any]) -> list[Any]:
    """Of each rater's accounts of an event, the highest number that is not an addendum; none where retracted."""
    newest: dict[tuple[Any, int], Any] = {}
    for row in accounts:
        if row.kind != "addendum":
            before = newest.get((row.event__uid, row.rater_id))
            if before is None or row.number >= before.number:
                newest[row.event__uid, row.rater_id] = row
    return [row for row in newest.values() if row.kind != "retraction"]


class Seen:
    """The bedside facts of one stay; `stomas` and `learners` turn database keys into the chart's keys."""

    def __init__(self, rows: Rows, key: int, stomas: dict[int, str], learners: dict[int, str]) -> None:
        self.stomas, self.learners = stomas, learners
        self.ratings: list[Rating] = []
        self.care: list[Care] = []
        self.rechecks: list[Recheck] = []
        self.findings: list[Finding] = []
        rated = defaultdict(list)
        for row in rows.ratings[key]:
            rated[row.account_id].append(row)
        joined = defaultdict(list)
        for row in rows.accounts[key]:
            joined[row.pk].append(row)
        for account in effective(group[0] for group in joined.values()):
            witness = self._witness(rows, joined[account.pk])
            self._add(account, witness, rated[account.pk])

    def _witness(self, rows: Rows, group: list[Any]) -> Witness:
        account = group[0]
        names = rows.parts(group, "rater__details__")
        cosigned = rows.known(group[:1], "cosign__")
        return Witness(
            name=names[-1].rater__details__name if names else "",
            grade=account.rater_grade,
            signed_off=account.sign_off_id is not None,
            cosigned_by=account.cosign__cosigner_grade if cosigned else "",
        )

    def _add(self, account: Any, witness: Witness, rated: list[Any]) -> None:
        stoma, event, at = self.stomas[account.event__stoma_id], str(account.event__uid), account.began_at
        procedure = account.event__procedure
        if account.event__kind == "care":
            self.care.append(Care(stoma, procedure, at, event, account.finding__wear_end or ""))
        elif account.event__kind == "recheck":
            for learner in sorted({self.learners[row.learner_id] for row in rated}):
                self.rechecks.append(Recheck(stoma, procedure, learner, at, event, witness))
        else:
            self.ratings += [self._rating(account, witness, stoma, row) for row in rated]
        if account.finding__pk is not None:
            self.findings.append(_finding(account, stoma))

    def _rating(self, account: Any, witness: Witness, stoma: str, row: Any) -> Rating:
        return Rating(
            stoma=stoma, code=row.code, learner=self.learners[row.learner_id], answer=row.answer,
            at=account.began_at, event=str(account.event__uid), witness=witness,
            practice=row.practice, reported=row.reported, reason=row.reason, aids=frozenset(row.aids),
            interpreter=account.interpreter, note=row.note,
        )


def _finding(account: Any, stoma: str) -> Finding:
    lengths = {name: mm(getattr(account, f"finding__{name}")) for name in LENGTHS}
    words: dict[str, Any] = {name: getattr(account, f"finding__{name}") for name in WORDS}
    return Finding(
        stoma=stoma, at=account.began_at, event=str(account.event__uid),
        skin=tuple(sorted(account.finding__skin.items())), **words, **lengths,
    )


def mm(value: Any) -> Any:
    """A length as a number of mm; None where it was not measured."""
    return None if value is None else float(value)
