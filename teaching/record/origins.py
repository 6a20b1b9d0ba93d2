"""What of a stay was brought in from another house: when, by whom, and which accounts."""

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from teaching.models import ImportOrigin, Stay


@dataclass(frozen=True)
class BroughtIn:
    """`at` and `by`: when it came, and the name of who brought it. `accounts` are the uids of those that came."""

    at: datetime
    by: str
    accounts: frozenset[UUID]


def brought_in(stay: Stay) -> BroughtIn | None:
    """One query; None where everything was written here."""
    rows = ImportOrigin.objects.filter(stay=stay).order_by("pk", "by__details__number")
    told = list(rows.values_list("recorded_at", "by__details__name", "object_kind", "object_uid"))
    if not told:
        return None
    first = min(at for at, *_ in told)
    return BroughtIn(
        at=first,
        by=[name for at, name, *_ in told if at == first][-1],
        accounts=frozenset(uid for *_, kind, uid in told if kind == "account"),
    )
