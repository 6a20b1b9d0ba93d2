"""All accounts of one event, every version, in the order they were signed; and those that wait for a co-signature."""

from django.db.models import F, OuterRef, QuerySet, Subquery

from teaching.models import Account, ClinicianDetails, Event, ImportOrigin, Unit
from teaching.record.figures import ON_THE_BOARD

AUTHOR = ImportOrigin.objects.filter(object_uid=OuterRef("uid")).values("author")[:1]
NAME = ClinicianDetails.objects.filter(clinician=OuterRef("rater")).order_by("-number").values("name")[:1]


def accounts_of(event: Event) -> list[Account]:
    """Each with `rater_name`, `imported_from` (None: written here), its ratings and its co-signature."""
    told = {"rater_name": Subquery(NAME), "imported_from": Subquery(AUTHOR)}
    found = Account.objects.filter(event=event).annotate(**told).select_related("cosign")
    return list(found.prefetch_related("ratings__learner").order_by("signed_at", "pk"))


def waiting_for_cosign(unit: Unit) -> QuerySet[Account]:
    """Students' entries of people on the unit that stand and are not co-signed, oldest first: `rater_name`, `bed`."""
    later = Account.objects.filter(event=OuterRef("event"), rater=OuterRef("rater")).exclude(kind="addendum")
    newest = later.order_by("-number").values("pk")[:1]
    found = Account.objects.filter(
        role="student", cosign=None, stay__now__unit=unit, stay__now__state__in=ON_THE_BOARD, pk=Subquery(newest)
    ).exclude(kind="retraction")
    told = {"rater_name": Subquery(NAME), "bed": F("stay__now__bed")}
    return found.select_related("event").annotate(**told).order_by("began_at", "pk")
