"""What a device may hold while the network is gone: a token that says nothing by itself, for one user and 12 hours.

No name, number, birth date, note or photo is kept on a device (OWASP ASVS 5.0 14.3.3 would have nothing at all kept;
taps without identity are our deviation from it, so that a lesson is not lost where the walls are thick).
"""

from django.core import signing
from django.utils.crypto import salted_hmac

from teaching.models import User

SALT = "taps on a device"
LASTS_SECONDS = 12 * 3600


def key_of(user: User) -> str:
    """Tells a page whether what the device holds is this user's; it cannot be turned back into who that is."""
    return salted_hmac(SALT, str(user.pk)).hexdigest()[:16]


def token_for(user: User, *words: str) -> str:
    """Where the taps belong, for this user alone."""
    return signing.dumps([key_of(user), *words], salt=SALT, compress=True)


def words_in(token: str, user: User) -> list[str] | None:
    """None for another user's token, one past its 12 hours, or one we never gave."""
    try:
        key, *words = signing.loads(token, salt=SALT, max_age=LASTS_SECONDS)
    except (signing.BadSignature, ValueError):
        return None
    return words if key == key_of(user) else None
