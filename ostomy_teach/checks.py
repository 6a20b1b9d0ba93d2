"""Settings that make sense alone but not together: numbered checks, run by manage.py and the server."""

from typing import Any

from django.conf import settings
from django.core.checks import CheckMessage, Error, Tags, Warning, register


@register(Tags.security)
def settings_fit_together(app_configs: Any, **kwargs: Any) -> list[CheckMessage]:
    """house.E001 one key for two uses; house.E002 the idle limit never comes."""
    found: list[CheckMessage] = []
    if settings.SECRET_KEY.encode() == settings.TRAIL_KEY:
        mend = "Make a second key, so that losing one does not lose both."
        found.append(Error("TRAIL_KEY is the same as SECRET_KEY.", hint=mend, id="house.E001"))
    if settings.SESSION_IDLE_SECONDS >= settings.SESSION_ABSOLUTE_SECONDS:
        mend = "Set SESSION_IDLE_MINUTES below SESSION_HOURS."
        found.append(Error("The idle limit is not shorter than a session.", hint=mend, id="house.E002"))
    return found


@register(Tags.security, deploy=True)
def the_web_does_not_own_its_tables(app_configs: Any, **kwargs: Any) -> list[CheckMessage]:
    """house.W001: on PostgreSQL the web should sign in as a user who can only SELECT and INSERT."""
    if "postgresql" not in settings.DATABASES["default"]["ENGINE"] or settings.DATABASE_WEB_USER:
        return []
    mend = "Give migrate an owner of its own in DATABASE_OWNER_URL (README.md, Running it for real)."
    return [Warning("The web signs in as the owner of its tables.", hint=mend, id="house.W001")]
