"""After signing: an entry is corrected by a whole new account, added to by a note, or marked as entered in error.

Nothing is ever changed: the original stays readable, and each of these says for good who wrote it, when and why
(CMS Program Integrity Manual ch. 3: marked as such, dated, with its author, the original left as it was).
"""

import json
from typing import Any

from django.utils import timezone

from teaching.models import Account, Event, Paper, SignOff
from teaching.record.accounts import content_of
from teaching.record.actor import Actor
from teaching.record.another_account import (
    Entry,
    look_over,
    must_be_newest,
    put_beside,
    sheet_of,
    without_ratings,
)
from teaching.record.checking import Faults, somebody
from teaching.record.entries import SessionEntry
from teaching.record.figures import refresh
from teaching.record.proof import proof_of, proved
from teaching.record.refusals import refuse
from teaching.record.sessions import grade_of, skill_for
from teaching.record.staff import sign_offs_of, valid_among
from teaching.record.writing import done, writing

CORRECTS = "I correct what I wrote before: this is what I saw."
ADDS = "I add this note."
TAKES_BACK = "This was entered in error."
LONGEST = 300
OF_THE_SIGNING = frozenset({"number", "kind", "reason", "meaning", "signed_at", "sign_off"})


def correct_account(*, actor: Actor, account: Account, entry: Entry, reason: str) -> Account:
    """One's own entry, told anew and whole; from then on only this one counts.

    Raises Superseded where the entry was already corrected, Refused with every other fault.
    """
    signer, proof, now = somebody(actor), proved(actor), timezone.now()
    event = account.event
    if account.rater_id != signer.pk:
        refuse("", "Only the nurse who wrote an entry corrects it. Add a note beside it, and tell them.")
    if account.kind == "addendum":
        refuse("", "A note is not corrected. Add another note that puts it right.")
    with writing(account.stay) as locked:
        must_be_newest(account)
        if account.kind == "retraction":
            refuse("", "This was marked as entered in error. Record what happened anew.")
        sheet = sheet_of(event)
        faults = look_over(event, entry, sheet, account.rater_grade, now)
        faults.text("why", reason, LONGEST, "What was wrong")
        if isinstance(entry, SessionEntry) and entry.role != account.role:
            faults.add("role", "A correction keeps how the entry was signed.")
        faults.stop()
        made = put_beside(
            actor, event, entry, sheet, account.rater_grade, now,
            kind="correction", replaces=account, reason=reason.strip(), meaning=CORRECTS, proof=proof,
            sign_off=_leaned_on(account, entry),
        )  # fmt: skip
        if _said(made) == _said(account):
            refuse("", "Nothing is different from what stands. Change what was wrong, or go back.")
        refresh(account.stay)
        done(actor, "correct_account", made, stay=account.stay, unit=locked.unit if locked else "")
    return made


def _leaned_on(account: Account, entry: Entry) -> SignOff | None:
    """The sign-off it leaned on when it was signed; looked up anew only where the time was wrong."""
    if not isinstance(entry, SessionEntry) or entry.began_at == account.began_at:
        return account.sign_off
    return valid_among(sign_offs_of(account.rater), (skill_for(entry.stoma),), entry.began_at)


def _said(account: Account) -> dict[str, Any]:
    """What it states, apart from how it was signed and tapped in."""
    stated = {name: value for name, value in content_of(account).items() if name not in OF_THE_SIGNING}
    return stated | {"ratings": [rating | {"entered_as": ""} for rating in stated["ratings"]]}


def add_addendum(*, actor: Actor, account: Account, words: str) -> Account:
    """A note beside an entry, one's own or another's, under one's own name. It changes nothing that counts."""
    signer, grade, now = somebody(actor), grade_of(actor), timezone.now()
    faults = Faults()
    faults.text("words", words, LONGEST, "The note")
    if grade == "other":
        faults.add("", "Notes are signed by nursing staff. Ask a nurse to write it.")
    faults.stop()
    with writing(account.stay) as locked:
        made = without_ratings(
            actor, account, now, kind="addendum", rater=signer, rater_grade=grade,
            reason=words.strip(), meaning=ADDS, proof=proof_of(actor),
        )  # fmt: skip
        done(actor, "add_addendum", made, stay=account.stay, unit=locked.unit if locked else "")
    return made


def retract_account(*, actor: Actor, account: Account, reason: str, aware: bool = False) -> Account:
    """Entered in error: it stays readable and counts no more. One's own; a stoma nurse's word takes back anyone's.

    `aware`: whoever signs has read which signed papers lean on it. Raises Superseded, Refused.
    """
    signer, proof, now = somebody(actor), proved(actor), timezone.now()
    if account.rater_id != signer.pk and grade_of(actor) != "stoma-nurse":
        refuse("", "Only who wrote an entry, or a stoma nurse, marks it as entered in error. Tell one of them.")
    if account.kind == "addendum":
        refuse("", "A note stays. Add another note that puts it right.")
    with writing(account.stay) as locked:
        must_be_newest(account)
        if account.kind == "retraction":
            refuse("", "This is already marked as entered in error.")
        faults = Faults()
        faults.text("why", reason, LONGEST, "What went wrong")
        if not aware and (papers := papers_leaning_on(account.event)):
            faults.add("aware", leaning(papers))
        faults.stop()
        made = without_ratings(
            actor, account, now, kind="retraction", reason=reason.strip(), meaning=TAKES_BACK, proof=proof
        )
        refresh(account.stay)
        done(actor, "retract_account", made, stay=account.stay, unit=locked.unit if locked else "")
    return made


def papers_leaning_on(event: Event) -> list[Paper]:
    """The signed readiness records that name this event among their evidence, newest first."""
    signed = Paper.objects.filter(stay=event.stay, kind="readiness", signed_at__isnull=False).order_by("-number")
    return [paper for paper in signed if str(event.uid) in json.dumps(paper.content)]


def leaning(papers: list[Paper]) -> str:
    which = "A signed readiness record leans" if len(papers) == 1 else f"{len(papers)} signed readiness records lean"
    return (
        f"{which} on this entry. What was signed stays as it is, and will say that the record changed since. "
        "Tick that you have read this, then sign; tell whoever signed it."
    )
