"""What every page may show of the person signed in: their name, and the rooms open to them."""

from django.conf import settings
from django.http import HttpRequest
from django.urls import NoReverseMatch, reverse
from django.utils.functional import SimpleLazyObject

from teaching.access.device import key_of
from teaching.access.scope import may
from teaching.models import ClinicianDetails, User

ROOMS = {
    "see_shift": ("home", "This shift"),
    "see_readiness": ("everybody-going-home", "Going home"),
    "see_own_skills": ("skills", "Skills"),
    "see_learning": ("learning-first", "Learning"),
    "see_setup": ("setup", "Set-up"),
    "see_trail": ("trail", "Trail"),
}


def signed_in(request: HttpRequest) -> dict[str, object]:
    """Template context: `user.signed_name`, read only where it is shown, and `rooms` as (address, words)."""
    user = getattr(request, "user", None)
    if user is None or not user.is_authenticated:
        return {}
    user.signed_name = SimpleLazyObject(lambda: name_of(user))
    return {
        "rooms": SimpleLazyObject(lambda: rooms_of(user)),
        "idle_seconds": settings.SESSION_IDLE_SECONDS,
        "device_key": key_of(user),
    }


def name_of(user: User) -> str:
    newest = ClinicianDetails.objects.filter(clinician=user.clinician_id).order_by("-number")
    return newest.values_list("name", flat=True).first() or user.username


def rooms_of(user: User) -> list[tuple[str, str]]:
    """The rooms this person may open, those that stand already."""
    open_to = [room for permission, room in ROOMS.items() if may(user, permission)]
    return [(address, words) for name, words in open_to if (address := _address(name))]


def _address(name: str) -> str:
    try:
        return reverse(name)
    except NoReverseMatch:
        return ""
