"""What a unit still lacks before it can be worked with, each with where it is mended. Empty once nothing is lacking."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from teaching.access.roster import roster
from teaching.access.working import working_on
from teaching.record.nurses import nurses
from teaching.record.places import settings_of
from teaching.record.skills import skills_in_force
from teaching.record.unit_words import BETWEEN
from teaching.rules.competence import in_force, is_valid
from teaching.rules.spoken import LANGUAGES
from teaching.rules.vocabulary import OWN_LANGUAGE, SLOTS, can_be_rung


@dataclass(frozen=True, slots=True)
class Lack:
    """What is lacking, the page where it is mended, and what is done there."""

    words: str
    address: str
    act: str


def lacking(unit, now: datetime) -> list[Lack]:
    """In the order in which they are best mended."""
    settings = settings_of(unit)
    return [*_staff(unit), *_holders(unit, now), *_numbers(unit, settings), *_slots(unit, settings),
            *_place_to_go(unit, settings), *_phrases(unit, settings)]


def _staff(unit) -> Iterator[Lack]:
    if not any("ward-nurse" in one.roles and one.user and one.user.is_active for one in roster(unit)):
        said = "No ward nurse with a sign-in: nobody can record at the bedside."
        yield Lack(said, reverse("staff", args=[unit.uid]), "Register the staff")


def _holders(unit, now: datetime) -> Iterator[Lack]:
    """A skill that nobody holds can be signed off for nobody."""
    people = nurses([one.key for one in working_on(unit)]).values()
    bare = [
        skill.title for skill in skills_in_force()
        if not any(is_valid(in_force(one.sign_offs, skill.code, now), now) for one in people)
    ]
    if bare:
        address = reverse("nurses-by-skill", args=[unit.uid])
        yield Lack(f"Nobody is signed off for: {'; '.join(bare)}.", address, "Accept a certificate from elsewhere")


def _numbers(unit, settings) -> Iterator[Lack]:
    address = reverse("unit-phones", args=[unit.uid])
    not_rung = [phone["label"] for phone in settings.phones if not can_be_rung(phone.get("number"))]
    unsaid = [phone["label"] for phone in settings.phones if not phone.get("hours")]
    if not settings.phones:
        yield Lack("No number to ring.", address, "Write the numbers to ring")
    if not_rung:
        yield Lack(f"Nobody can ring what is written down: {'; '.join(not_rung)}.", address, "Write the number")
    if unsaid:
        yield Lack(f"Nobody has said when this is answered: {'; '.join(unsaid)}.", address, "Write when")


def _slots(unit, settings) -> Iterator[Lack]:
    """Those that a sheet for home waits for."""
    bare = [SLOTS[code] for code in BETWEEN if not settings.slots.get(code)]
    if bare:
        said = f"Not filled in by a nurse who leads here: {'; '.join(bare)}. A sheet for home waits for this."
        yield Lack(said, reverse("unit-slots", args=[unit.uid]), "Fill these in")


def _place_to_go(unit, settings) -> Iterator[Lack]:
    """No sheet waits for it."""
    if not settings.slots.get("place-to-go"):
        said = (
            f"Not filled in by a nurse who leads here: {SLOTS['place-to-go']}. "
            "Each sheet for home has an empty line for it, to be written in by hand."
        )
        yield Lack(said, reverse("unit-slots", args=[unit.uid]), "Fill this in")


def _phrases(unit, settings) -> Iterator[Lack]:
    for code in settings.languages:
        if code != OWN_LANGUAGE and not settings.phrases.get(code):
            name = LANGUAGES.get(code, code)
            address = reverse("unit-phrases", args=[unit.uid, code])
            yield Lack(f"No phrases written in {name}.", address, f"Write phrases in {name}")
