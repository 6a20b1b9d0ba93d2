"""All accounts of one event, every version, in the order they were signed; and those that wait for a co-signature."""

from django.db.models import F, OuterRef, QuerySet, Subquery

from teaching.models import Account, ClinicianDetails, Event, ImportOrigin, Stay, Unit
from teaching.rules.board import ON_THE_BOARD

AUTHOR = ImportOrigin.objects.filter(object_uid=OuterRef("uid")).values("author")[:1]


def _name(whose: str) -> Subquery:
    return Subquery(ClinicianDetails.objects.filter(clinician=OuterRef(whose)).order_by("-number").values("name")[:1])


NAME = _name("rater")


def accounts_of(event: Event) -> list[Account]:
    """Each with its ratings, finding and co-signature; `rater_name`, `signer_name`, `cosigner_name`, and
    `imported_from` (None: written here).
    """
    told = {"rater_name": NAME, "signer_name": _name("by"), "cosigner_name": _name("cosign__by")}
    found = Account.objects.filter(event=event).annotate(**told, imported_from=Subquery(AUTHOR))
    found = found.select_related("cosign", "finding")
    return list(found.prefetch_related("ratings__learner").order_by("signed_at", "pk"))


def taken_back(stay: Stay) -> list[Account]:
    """The retractions of a stay, oldest first, with `signer_name`: what they took back stays readable."""
    found = Account.objects.filter(stay=stay, kind="retraction").select_related("event")
    return list(found.annotate(signer_name=_name("by")).order_by("began_at", "pk"))


def waiting_for_cosign(unit: Unit) -> QuerySet[Account]:
    """Students' entries of people on the unit that stand and are not co-signed, oldest first: `rater_name`, `bed`."""
    later = Account.objects.filter(event=OuterRef("event"), rater=OuterRef("rater")).exclude(kind="addendum")
    newest = later.order_by("-number").values("pk")[:1]
    found = Account.objects.filter(
        role="student", cosign=None, stay__now__unit=unit, stay__now__state__in=ON_THE_BOARD, pk=Subquery(newest)
    ).exclude(kind="retraction")
    told = {"rater_name": NAME, "bed": F("stay__now__bed")}
    return found.select_related("event").annotate(**told).order_by("began_at", "pk")
