"""Who works in the invented hospital. Nobody here is real; the units' names say so on every page."""

from dataclasses import dataclass

ZONE = "Europe/London"
SHIFTS = (
    {"name": "early", "starts": "07:00", "ends": "14:30"},
    {"name": "late", "starts": "14:30", "ends": "21:30"},
    {"name": "night", "starts": "21:30", "ends": "07:00"},
)
LEAVE_HOUR = 12
PHONES = (
    {"label": "Stoma nurses (made up)", "number": "00000 000 100", "hours": "Mon to Fri 08:00-16:00"},
    {"label": "Ward, day and night (made up)", "number": "00000 000 200", "hours": "always"},
)
# What only a unit's own clinician may fill in: made up here, like everything else.
SLOTS = {
    "press-minutes": "10", "hours-without-urine": "4", "urine-drink": "2 litres",
    "place-to-go": "the emergency room of this hospital (made up)",
}  # fmt: skip
PHRASES = {
    "pl": [
        {"english": "Please show me.", "words": "Proszę mi pokazać."},
        {"english": "Does it hurt?", "words": "Czy to boli?"},
        {"english": "Thank you.", "words": "Dziękuję."},
    ],
}

HERON = "Heron Ward (made up)"
WREN = "Wren Ward (made up)"
UNITS = (HERON, WREN)


@dataclass(frozen=True)
class Worker:
    """One of the staff. `unit` None is the whole hospital; `teaches` are skills signed off from elsewhere."""

    username: str
    name: str
    grade: str
    role: str
    unit: str | None
    can: str
    teaches: tuple[str, ...] = ()


CAST = (
    Worker("amber", "Amber Oakley", "registered", "ward-nurse", HERON,
           "ward nurse, signed off to teach", ("change", "teach-bowel", "teach-urostomy")),
    Worker("basil", "Basil Thorne", "registered", "ward-nurse", HERON, "ward nurse, not signed off yet"),
    Worker("nadia", "Nadia Fell", "registered", "ward-nurse", HERON, "ward nurse on nights, not signed off"),
    Worker("sorrel", "Sorrel Vane", "stoma-nurse", "stoma-nurse", None, "stoma nurse, every unit",
           ("change", "teach-bowel", "teach-urostomy")),
    Worker("edda", "Edda Marsh", "registered", "educator", HERON, "educator"),
    Worker("piers", "Piers Hollow", "other", "planner", HERON, "discharge planner"),
    Worker("linden", "Linden Brook", "registered", "lead", HERON, "unit lead"),
    Worker("tansy", "Tansy Reed", "student", "student", HERON, "student nurse"),
    Worker("ashby", "Ashby Crane", "assistant", "assistant", HERON, "nursing assistant"),
    Worker("vesper", "Vesper Lock", "other", "auditor", HERON, "record auditor"),
    Worker("wilma", "Wilma Sedge", "registered", "ward-nurse", WREN, "ward nurse on the other ward"),
    Worker("corin", "Corin Tarn", "registered", "lead", WREN, "unit lead of the other ward"),
)  # fmt: skip
