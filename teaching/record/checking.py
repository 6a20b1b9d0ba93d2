"""Looking an entry over: every fault is collected with its field, then all are refused together."""

from collections.abc import Iterable
from datetime import datetime, timedelta
from decimal import Decimal, InvalidOperation
from difflib import get_close_matches
from typing import Any

from teaching.models import Clinician
from teaching.record.actor import Actor
from teaching.record.refusals import Fault, Refused, refuse
from teaching.rules.vocabulary import LEAST_DIGITS, can_be_rung

CLOCKS_DIFFER = timedelta(minutes=2)  # a device's clock may run this much ahead before a time counts as future

NO_NUMBER = f"Nobody can ring this: write the number with its digits, at least {LEAST_DIGITS}."


class Faults:
    """Collects faults in the order they are found; `stop` refuses them all at once."""

    def __init__(self) -> None:
        self.found: list[Fault] = []

    def __bool__(self) -> bool:
        return bool(self.found)

    def add(self, field: str, sentence: str) -> None:
        fault = Fault(field, sentence)
        if fault not in self.found:
            self.found.append(fault)

    def stop(self) -> None:
        if self.found:
            raise Refused(*self.found)

    def word(self, field: str, value: str, known: Iterable[str], *, blank: bool = False) -> None:
        """The value must be one of the known codes, or "" where it may be left open."""
        choices = [str(each) for each in known]
        if value in choices or (blank and value == ""):
            return
        near = get_close_matches(str(value), choices, n=1, cutoff=0.75)
        mend = f"did you mean {near[0]}?" if near else f"choose one of: {', '.join(choices)}."
        self.add(field, f"{value!r} is not known here; {mend}" if value else f"Say which: {', '.join(choices)}.")

    def text(self, field: str, value: str, longest: int, what: str = "") -> None:
        """Not longer than its column; with `what`, it must be given."""
        if what and not value.strip():
            self.add(field, f"{what} is missing; write it.")
        elif len(value) > longest:
            self.add(field, f"This is {len(value)} characters long; shorten it to {longest}.")

    def phone(self, field: str, value: str) -> None:
        """Something that can be rung. How it is written, and whether it is answered, is for people to check."""
        if not can_be_rung(value):
            self.add(field, NO_NUMBER)

    def moment(self, field: str, value: datetime | None, now: datetime, *, needed: bool = True) -> bool:
        """A time with its zone, not in the future. True when it can be compared."""
        if value is None:
            if needed:
                self.add(field, "Say when it happened.")
            return False
        if value.tzinfo is None:
            self.add(field, "This time has no zone, so it could mean two moments; give it with its zone.")
            return False
        if value > now + CLOCKS_DIFFER:
            self.add(field, "This time is still to come. Enter when it happened, or wait until it has.")
        return True

    def between(self, field: str, value: Any, low: float, high: float, unit: str) -> None:
        if value is None:
            return
        try:
            fits = low <= Decimal(str(value)) <= high
        except InvalidOperation:
            fits = False
        if not fits:
            self.add(field, f"{value} {unit} is not possible here; measure again, {low:g} to {high:g} {unit}.")


def somebody(actor: Actor) -> Clinician:
    """Who signs. Only the command line acts without a clinician, and it signs no clinical row."""
    if actor.clinician is None:
        refuse("", "Nobody is signed in; sign in and try again.")
    return actor.clinician
