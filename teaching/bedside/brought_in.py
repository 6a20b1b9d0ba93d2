"""That a record came from another house, in a sentence."""

from teaching.record.origins import BroughtIn
from teaching.rules.huddle import when
from teaching.rules.ward import Ward


def brought_in_words(came: BroughtIn | None, ward: Ward, now) -> str:
    """"" where everything was written here."""
    if came is None:
        return ""
    number = len(came.accounts)
    entries = "one session" if number == 1 else f"{number} sessions"
    return f"Brought in from elsewhere {when(came.at, ward, now)} by {came.by}: {entries} written there."
