"""What was asked about output: nothing out since when, or that it has worked. Asked at the bedside, never inferred.

The 24-hour total is `sessions.record_output_total`.
"""

from datetime import datetime

from django.utils import timezone

from teaching.models import NothingSince, Stoma
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.figures import refresh
from teaching.record.sessions import details_of
from teaching.record.writing import done, next_number, writing


def note_nothing_since(*, actor: Actor, stoma: Stoma, since_at: datetime | None) -> NothingSince:
    """Nothing has come out since a moment; None: it has worked. The newest answer wins. Raises Refused."""
    signer, now = somebody(actor), timezone.now()
    faults = Faults()
    if faults.moment("since_at", since_at, now, needed=False):
        formed = stoma.formed_at
        if formed is not None and since_at is not None and since_at < formed:
            faults.add("since_at", "This is before the stoma was formed. Give when it last worked.")
    if details_of(actor).grade == "other":
        faults.add("", "Output is recorded by nursing staff. Ask a nurse to record it.")
    faults.stop()
    with writing(stoma.stay) as locked:
        assert locked is not None
        made = NothingSince.objects.create(
            stay_id=stoma.stay_id, stoma=stoma, number=next_number(NothingSince, stoma=stoma),
            since_at=since_at, by=signer,
        )  # fmt: skip
        refresh(stoma.stay)
        done(actor, "note_nothing_since", made, stay=stoma.stay, unit=locked.unit)
    return made
