"""Times in a form that tells something anew: it shows minutes, and what was left as it stood keeps its seconds."""

from datetime import datetime


def exactly(said: datetime, before: datetime) -> datetime:
    """The time as it was, where the form says the same minute."""
    return before if said == before.replace(second=0, microsecond=0) else said


def ended_again(account, began: datetime) -> datetime | None:
    """When it ended, where only the beginning is asked again: it took as long as before."""
    return began + (account.ended_at - account.began_at) if account.ended_at else None
