"""Plain passwords the list of common ones misses: repeated, in a row, or the house's own name with a tail."""

from django.contrib.auth.password_validation import CommonPasswordValidator
from django.core.exceptions import ValidationError

ROWS = (
    "01234567890123456789",
    "abcdefghijklmnopqrstuvwxyz",
    "qwertyuiopasdfghjklzxcvbnm",
    "qwertzuiopasdfghjkl",
)
LONG_ENOUGH = 24  # past this, length makes up for plainness (common practice, no source)
OURS = ("ostomy", "ostomyteach", "stoma", "stomanurse", "hospital", "teachback")


def piece_of(text: str) -> str:
    """The piece the text repeats, such as ward of wardward; the text itself where it does not repeat."""
    return text[: (text + text).index(text, 1)] if text else ""


class PlainPasswordValidator:
    """Refuses what NIST SP 800-63B calls repetitive or sequential, and names of the service (from memory)."""

    def __init__(self) -> None:
        self.common = CommonPasswordValidator().passwords | set(OURS)

    def validate(self, password: str, user: object = None) -> None:
        """Raise ValidationError with what to do instead."""
        text = "".join(password.lower().split())
        piece, letters = piece_of(text), "".join(filter(str.isalpha, text))
        in_a_row = any(text in row * 2 or text[::-1] in row * 2 for row in ROWS)
        plain = len(piece) < 5 or in_a_row or len(set(text)) < 5 or {piece, letters} & self.common
        if plain and len(text) < LONG_ENOUGH:
            raise ValidationError(self.get_help_text(), code="password_too_plain")

    def get_help_text(self) -> str:
        return (
            "Use words only you would put together: not one word with a number, no row of keys, no repeats."
        )
