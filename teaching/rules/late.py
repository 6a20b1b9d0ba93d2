"""Late entry: what was written long after it happened says so, for good."""

from datetime import datetime, timedelta

from teaching.rules.policy import Policy
from teaching.rules.reasons import Reason
from teaching.rules.spoken import HOUR, MINUTE

DAY = timedelta(days=1)


def written_late(happened: datetime, written: datetime, policy: Policy) -> Reason | None:
    """The late entry's sentence, None where it was written in time. Both are moments in UTC, so no clock jumps."""
    after = written - happened
    return Reason("late-entry", after=span_words(after)) if after > policy.late_entry else None


def span_words(span: timedelta) -> str:
    """Such as "9 h 12 min"; from two days on "2 days 3 h"."""
    days, rest = divmod(span, DAY)
    if days > 1:
        return " ".join([f"{days} days", *([f"{rest // HOUR} h"] if rest >= HOUR else [])])
    hours, minutes = span // HOUR, span % HOUR // MINUTE
    return " ".join([*([f"{hours} h"] if hours else []), *([f"{minutes} min"] if minutes or not hours else [])])
