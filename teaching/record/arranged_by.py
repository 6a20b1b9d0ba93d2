"""Who wrote down each arrangement, visit and time for teaching that is in force, and when."""

from datetime import datetime

from django.db.models import OuterRef, Subquery
from django.db.models.functions import Coalesce

from teaching.models import Arrangement, ClinicianDetails, ImportOrigin, Stay

NAME = ClinicianDetails.objects.filter(clinician=OuterRef("by")).order_by("-number").values("name")[:1]
AUTHOR = ImportOrigin.objects.filter(object_uid=OuterRef("uid")).exclude(author="").values("author")[:1]


def arranged_by(stay: Stay) -> dict[tuple[str, str], tuple[str, datetime]]:
    """(name, when) by code and key; of what was brought in, who wrote it there. One query."""
    rows = Arrangement.objects.filter(stay=stay).order_by("number")
    told = rows.annotate(name=Coalesce(Subquery(AUTHOR), Subquery(NAME)))
    return {(code, key): (name, at) for code, key, name, at in told.values_list("code", "key", "name", "recorded_at")}
