"""Facts about what is to happen: arrangements, visits after leaving, teaching booked; and what was asked of output."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

VISIT, TEACHING = "visit", "teaching"  # the codes of what there may be several of

@dataclass(frozen=True, slots=True)
class Arrangement:
    """What must be in place; the newest of a code wins. `state` is made, asked, refused or cancelled.

    `details` is what that code asks for, by name: text, a number, or True and False.
    """

    code: str
    state: str
    at: datetime
    value: str = ""
    due_at: datetime | None = None
    details: tuple[tuple[str, Any], ...] = ()

    def detail(self, name: str) -> Any:
        """What was said under this name; None where nobody has."""
        return dict(self.details).get(name)


@dataclass(frozen=True, slots=True)
class Visit:
    """A nurse comes after leaving. `state` as of an arrangement: made means accepted, by `accepted_by`.

    `for_change` False: to look only. `stoma` "": for every stoma.
    """

    key: str
    at: datetime
    state: str
    for_change: bool
    accepted_by: str = ""
    service: str = ""
    stoma: str = ""


@dataclass(frozen=True, slots=True)
class Appointment:
    """A time booked for teaching. `may_teach` None: nobody knows yet, which counts as no."""

    key: str
    at: datetime
    state: str
    procedure: str = "change"
    learners: tuple[str, ...] = ()
    stoma: str = ""
    teacher: str = ""
    may_teach: bool | None = None
    interpreter: bool = False
    practice: bool = False
    aim: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class Nothing:
    """"Nothing out since", as asked; never inferred. None: asked, and it has worked."""

    stoma: str
    since: datetime | None
    at: datetime
