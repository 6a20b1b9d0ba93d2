"""What a unit says in its own words: languages, phrases, numbers to ring, and slots only its clinician may fill."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from teaching.models import ClinicianDetails, Unit, UnitSetting
from teaching.record.actor import Actor
from teaching.record.checking import Faults
from teaching.rules.vocabulary import SLOTS

# Bounds against a slip of the pen only; what is right is for the unit's clinician to say.
BETWEEN = {"press-minutes": (1, 30, "minutes"), "hours-without-urine": (1, 24, "hours")}
# Slots in words, with how long they may be. No sheet waits for them: it says to ask the nurse.
IN_WORDS = {"urine-drink": 60, "place-to-go": 80}
LONGEST = {"english": 120, "words": 200, "label": 80, "number": 40, "hours": 80}


@dataclass(frozen=True)
class SlotSet:
    """One slot as it stands: "" until somebody filled it; who and when it was last set."""

    code: str
    value: str = ""
    by: str = ""
    at: datetime | None = None

    @property
    def words(self) -> str:
        return SLOTS[self.code]


def check_words(faults: Faults, settings: Mapping[str, Any]) -> None:
    if "languages" in settings and not settings["languages"]:
        faults.add("languages", "Name at least one language that is taught in here.")
    for language, rows in settings.get("phrases", {}).items():
        for row in rows:
            _check_row(faults, "phrases", row, ("english", "words"), f"in {language}")
    for row in settings.get("phones", ()):
        _check_row(faults, "phones", row, ("label", "number"), "to ring", may_lack=("hours",))
        if row.get("number", "").strip():
            faults.phone("phones", row["number"])
    for code, value in settings.get("slots", {}).items():
        faults.word("slots", code, SLOTS)
        if code in BETWEEN:
            low, high, unit = BETWEEN[code]
            if not (str(value).isdecimal() and low <= int(value) <= high):
                faults.add(code, f"Write a whole number of {unit} from {low} to {high}, or leave it empty.")
        elif code in IN_WORDS:
            faults.text(code, str(value), IN_WORDS[code], SLOTS[code].capitalize())


def check_may_fill(faults: Faults, actor: Actor) -> None:
    """A slot says when somebody at home rings, so a nurse fills it. The command line has set up the house."""
    if actor.clinician is None:
        return
    details = ClinicianDetails.objects.filter(clinician=actor.clinician).order_by("-number").first()
    if details is None or details.grade not in ("stoma-nurse", "registered"):
        faults.add("", "Only a registered nurse or stoma nurse who leads this unit fills this in. Ask one.")


def _check_row(
    faults: Faults, field: str, row: Mapping[str, str], needed: tuple[str, ...], what: str,
    may_lack: tuple[str, ...] = (),
) -> None:  # fmt: skip
    if set(row) - {*needed, *may_lack} or not all(str(row.get(name, "")).strip() for name in needed):
        faults.add(field, f"Each row {what} needs {' and '.join(needed)}; fill it in, or leave the row empty.")
    for name, value in row.items():
        if len(str(value)) > LONGEST.get(name, 0):
            faults.add(field, f"{name} is {len(str(value))} characters long; shorten it to {LONGEST.get(name, 0)}.")


def slots_of(unit: Unit) -> list[SlotSet]:
    """Every slot with who set its value and when: the first settings row of the run that carries it."""
    rows = list(UnitSetting.objects.filter(unit=unit).order_by("number").only("slots", "by_id", "recorded_at"))
    set_by = {code: _set_by(rows, code) for code in SLOTS}
    keys = [row.by_id for row in set_by.values() if row and row.by_id]
    told = ClinicianDetails.objects.filter(clinician__in=keys).order_by("number")
    names = dict(told.values_list("clinician", "name"))
    return [
        SlotSet(code, row.slots[code], names.get(row.by_id or 0, ""), row.recorded_at) if row else SlotSet(code)
        for code, row in set_by.items()
    ]


def _set_by(rows: list[UnitSetting], code: str) -> UnitSetting | None:
    found: UnitSetting | None = None
    for row in rows:
        value = row.slots.get(code, "")
        if not value:
            found = None
        elif found is None or found.slots[code] != value:
            found = row
    return found
