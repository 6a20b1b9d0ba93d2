"""Plain passwords the list of common ones misses: repeated, in a row, or the house's own name with a tail."""

from django.contrib.auth.password_validation import CommonPasswordValidator
from django.core.exceptions import ValidationError

ROWS = (
    "01234567890123456789",
    "abcdefghijklmnopqrstuvwxyz",
    "qwertyuiopasdfghjklzxcvbnm",
    "qwertzuiopasdfghjkl",
)
OURS = ("ostomy", "ostomyteach", "stoma", "stomanurse", "hospital", "teachback")


def is_repeated(text: str) -> bool:
    """Whether the text is one piece over and over, such as wardward or 121212."""
    return text in (text + text)[1:-1]


class PlainPasswordValidator:
    """Refuses what NIST SP 800-63B calls repetitive or sequential, and names of the service (from memory)."""

    def __init__(self) -> None:
        self.common = CommonPasswordValidator().passwords | set(OURS)

    def validate(self, password: str, user: object = None) -> None:
        """Raise ValidationError with what to do instead."""
        text = "".join(password.lower().split())
        letters = "".join(filter(str.isalpha, text))
        in_a_row = any(text in row * 2 or text[::-1] in row * 2 for row in ROWS)
        if is_repeated(text) or in_a_row or len(set(text)) < 5 or letters in self.common:
            raise ValidationError(self.get_help_text(), code="password_too_plain")

    def get_help_text(self) -> str:
        return (
            "Use words only you would put together: not one word with a number, no row of keys, no repeats."
        )
