"""Sessions of one person begun and not signed, as one nurse sees them; and what others tapped in one of them."""

from django.db.models import Exists, Max, OuterRef, Q, QuerySet, Subquery

from teaching.models import Account, Clinician, ClinicianDetails, Draft, DraftTap, Stay, TakeOver

OWNER = ClinicianDetails.objects.filter(clinician=OuterRef("owner")).order_by("-number").values("name")[:1]
TAPPER = ClinicianDetails.objects.filter(clinician=OuterRef("user__clinician")).order_by("-number").values("name")[:1]


def drafts_of(stay: Stay, seen_by: int | None) -> QuerySet[Draft]:
    """Open ones, and closed ones of which this clinician (by id) has a part still to sign; in one query.

    Each with `owner_name`, `last_tap_at`, and `left`: whether `seen_by` had it before somebody took it over.
    """
    left = TakeOver.objects.filter(draft=OuterRef("pk"), left_by=seen_by).exclude(draft__owner=seen_by)
    told = Account.objects.filter(event__uid=OuterRef("event_uid"), rater=seen_by).exclude(kind="addendum")
    own = DraftTap.objects.filter(draft=OuterRef("pk"), user__clinician=seen_by)
    found = Draft.objects.filter(stay=stay).annotate(
        owner_name=Subquery(OWNER), last_tap_at=Max("taps__at"), left=Exists(left) & Exists(own) & ~Exists(told)
    )
    return found.filter(Q(state="open") | Q(state="signed", left=True)).order_by("begun_at")


def tapped_by_others(draft: Draft, than: Clinician) -> list[tuple[str, str, object]]:
    """(nurse's name, field, newest value) of what others tapped before it changed hands: shown, never signed here."""
    taps = draft.taps.exclude(user__clinician=than).annotate(name=Subquery(TAPPER)).order_by("at", "pk")
    newest = {(tap.name, tap.field): tap.value for tap in taps}
    return [(name, field, value) for (name, field), value in newest.items()]
