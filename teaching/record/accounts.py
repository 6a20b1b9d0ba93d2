"""An account as rows and as what is signed: exactly this content, bound by its hash to who signed and when."""

import json
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, field
from datetime import UTC, datetime
from decimal import Decimal
from hashlib import sha256
from typing import Any
from uuid import uuid4
from zoneinfo import ZoneInfo

from teaching.models import Account, Event, Finding, Rating
from teaching.record.actor import Actor
from teaching.record.entries import CareEntry, FindingEntry, RatingEntry, RecheckEntry, SessionEntry
from teaching.record.proof import proof_of

MEANINGS = {
    "teaching": "I taught this and saw what is written here.",
    "care": "I gave this care.",
    "seen": "I was there and saw what is written here.",
    "recheck": "I saw that all of this is still managed alone.",
}
ASSISTANT = "assistant"
OF_THE_ACCOUNT = (
    "rater_grade", "place", "language", "interpreter", "role", "number", "kind", "reason",
    "zone", "began_offset", "ended_offset", "ended_how", "meaning",
)
OF_A_RATING = ("code", "answer", "practice", "reported", "reason", "aids", "entered_as", "note")
OF_A_FINDING = tuple(FindingEntry.__dataclass_fields__)


@dataclass
class Written:
    """The rows of one account, made and not yet stored; `witness_name` is the rater's."""

    event: Event
    account: Account
    witness_name: str = ""
    ratings: list[Rating] = field(default_factory=list)
    finding: Finding | None = None

    def seal(self) -> None:
        self.account.content_sha256 = sha256_of(content(self.account, self.ratings, self.finding))


def write(
    entry: SessionEntry | CareEntry | RecheckEntry, kind: str, actor: Actor, grade: str, now: datetime, **known: Any
) -> Written:
    """Event and account of an entry. `known`: checklist_id and sign_off, where they apply."""
    meant = "seen" if kind == "teaching" and grade == ASSISTANT else kind  # an assistant is there and does not teach
    began = entry.at if isinstance(entry, CareEntry | RecheckEntry) else entry.began_at
    ended = entry.ended_at if isinstance(entry, SessionEntry) else None
    stamp = {"stay": entry.stay, "by": actor.clinician, "recorded_at": now}
    event = Event(
        uid=entry.event_uid or uuid4(), stoma=entry.stoma, kind=kind, procedure=entry.procedure,
        checklist_id=known.get("checklist_id"), opened_at=began, **stamp,
    )
    account = Account(
        event=event, rater=actor.clinician, rater_grade=grade, sign_off=known.get("sign_off"),
        began_at=began, ended_at=ended, zone=entry.stay.zone,
        began_offset=offset_minutes(began, entry.stay.zone),
        ended_offset=offset_minutes(ended, entry.stay.zone) if ended else None,
        client_skew_s=entry.client_skew_s, meaning=MEANINGS[meant], signed_at=now,
        proof=proof_of(actor), **stamp,
    )
    if isinstance(entry, SessionEntry):
        for name in ("place", "language", "interpreter", "ended_how", "role"):
            setattr(account, name, getattr(entry, name))
    written = Written(event, account)
    if not isinstance(entry, RecheckEntry):
        written.finding = finding_of(entry.finding, account, entry.stoma, stamp)
    return written


def ratings_of(
    entries: Iterable[RatingEntry], account: Account, row_keys: dict[str, int], actor: Actor, now: datetime
) -> list[Rating]:
    return [
        Rating(
            stay=account.stay, by=actor.clinician, recorded_at=now, account=account, learner=each.learner,
            row_id=row_keys[each.code], **{name: getattr(each, name) for name in OF_A_RATING if name != "aids"},
            aids=sorted(each.aids),
        )
        for each in entries
    ]


def finding_of(entry: FindingEntry | None, account: Account, stoma: Any, stamp: dict[str, Any]) -> Finding | None:
    """None where nothing was said."""
    if entry is None or entry == FindingEntry():
        return None
    return Finding(account=account, stoma=stoma, **stamp, **(asdict(entry) | {"skin": dict(entry.skin)}))


def offset_minutes(moment: datetime, zone: str) -> int:
    """How far the unit's clock was from UTC then, in minutes."""
    offset = moment.astimezone(ZoneInfo(zone)).utcoffset()
    assert offset is not None
    return int(offset.total_seconds() // 60)


def content_of(account: Account) -> dict[str, Any]:
    """What was signed, worked out again from the stored rows: its hash must be `content_sha256`."""
    ratings = account.ratings.select_related("learner")
    return content(account, list(ratings), Finding.objects.filter(account=account).first())


def content(account: Account, ratings: Sequence[Rating], finding: Finding | None) -> dict[str, Any]:
    """All that an account states, in one canonical form: uids for rows, UTC for moments, tenths of a mm."""
    event = account.event
    return {
        "event": str(event.uid),
        "event_kind": event.kind,
        "procedure": event.procedure,
        "stay": str(account.stay.uid),
        "stoma": str(event.stoma.uid),
        "rater": str(account.rater.uid),
        **({} if account.by_id == account.rater_id else {"signed_by": str(account.by.uid)}),
        "sign_off": str(account.sign_off.uid) if account.sign_off else None,
        "began_at": moment_text(account.began_at),
        "ended_at": moment_text(account.ended_at) if account.ended_at else None,
        "signed_at": moment_text(account.signed_at),
        **{name: getattr(account, name) for name in OF_THE_ACCOUNT},
        "ratings": sorted((_rating(each) for each in ratings), key=lambda each: (each["code"], each["learner"])),
        "finding": {name: _plain(getattr(finding, name)) for name in OF_A_FINDING} if finding else None,
    }


def _rating(rating: Rating) -> dict[str, Any]:
    return {"learner": str(rating.learner.uid), **{name: getattr(rating, name) for name in OF_A_RATING}}


def _plain(value: Any) -> Any:
    return f"{value:.1f}" if isinstance(value, Decimal | float) else value


def moment_text(moment: datetime) -> str:
    return moment.astimezone(UTC).isoformat()


def sha256_of(stated: dict[str, Any]) -> str:
    return sha256(json.dumps(stated, sort_keys=True, ensure_ascii=False).encode()).hexdigest()
