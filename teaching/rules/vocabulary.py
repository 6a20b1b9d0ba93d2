"""The words of the record: every code that may be stored, with what it means.

Levels of help are the six-level scale of CMS Section GG (public), with the answers of LOINC list LL4681-4:
a higher number is more independent. Using the scale for each stoma step is our adaptation of it.
The four not-attempted codes are never ordered, never averaged, never zero.
"""

from dataclasses import dataclass

LOINC_NOTICE = (
    "This material contains content from LOINC (http://loinc.org). LOINC is copyright Regenstrief Institute, "
    "Inc. and the Logical Observation Identifiers Names and Codes (LOINC) Committee and is available at no "
    "cost under the license at http://loinc.org/license."
)


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer a row may be given: its code, its words, its LOINC answer (None where local)."""

    code: str
    words: str
    loinc: str | None = None


LEVELS = (
    Answer("06", "Alone. You watched and said nothing", "LA9983-3"),
    Answer("05", "You only set out before or cleared up after", "LA10073-7"),
    Answer("04", "You had to cue, or steady with a touching hand", "LA28225-3"),
    Answer("03", "You did less than half of the work", "LA10055-4"),
    Answer("02", "You did half of the work or more", "LA11759-0"),
    Answer("01", "You did it all, or two of you were needed", "LA27665-1"),
)
NOT_ATTEMPTED = (
    Answer("07", "Declined", "LA10058-8"),
    Answer("09", "Does not apply", "LA28226-1"),
    Answer("10", "No place for it, or nothing to do", "LA28227-9"),
    Answer("88", "Too unwell, or not safe", "LA26735-3"),
)
DECISIONS = (
    Answer("right", "Judged rightly"),
    Answer("not_needed", "Judged rightly: not needed"),
    Answer("wrong", "Wrongly done, or wrongly left out"),
)
TOPIC_ANSWERS = (
    Answer("told", "Told"),
    Answer("own_words", "Explained in own words"),
    Answer("not_yet", "Asked, not yet in own words"),
)

LEVEL_CODES = tuple(answer.code for answer in LEVELS)
NEVER_OFFERED = "09"  # a row that does not apply is absent, so nobody is asked to say so
NOT_RATED_CODES = tuple(answer.code for answer in NOT_ATTEMPTED if answer.code != NEVER_OFFERED)
DECISION_CODES = tuple(answer.code for answer in DECISIONS)
TOPIC_CODES = tuple(answer.code for answer in TOPIC_ANSWERS)
STORED_ANSWERS = LEVEL_CODES + NOT_RATED_CODES + DECISION_CODES + TOPIC_CODES
ANSWERS = {answer.code: answer for answer in LEVELS + NOT_ATTEMPTED + DECISIONS + TOPIC_ANSWERS}

# At one claimed moment the lower answer counts as the later.
LOWER_LATER = (*NOT_RATED_CODES, NEVER_OFFERED, *TOPIC_CODES, "right", "not_needed", *LEVEL_CODES, "wrong")

UNAIDED = "06"
SET_UP_ONLY = "05"

PROCEDURES = {
    "meeting": "Meeting the stoma",
    "change": "Pouch change",
    "swap": "Swapping a closed pouch",
    "emptying": "Emptying",
    "urine": "Emptying (urostomy)",
    "night": "Night drainage",
    "topics": "Topics",
}
PHASES = {
    "prepare": "Prepare",
    "take-off": "Take off",
    "clean-look": "Clean and look",
    "fit-protect": "Fit and protect",
    "put-on": "Put on and finish",
}

STOMA_KINDS = {
    "colostomy": "colostomy",
    "ileostomy": "ileostomy",
    "urostomy": "urostomy",
    "wet-colostomy": "wet colostomy",
}
CONSTRUCTIONS = {"end": "end", "loop": "loop", "double": "double-barrelled"}
SIDES = {"right": "right", "left": "left", "middle": "midline"}

PIECES = {"one": "one-piece", "two": "two-piece"}
SHAPES = {"flat": "flat", "convex": "convex"}
OPENINGS = {"cut": "cut to fit", "mouldable": "mouldable", "pre-cut": "pre-cut"}
CLOSURES = {"drainable": "drainable", "closed": "closed"}
OUTLETS = {"strip": "strip outlet", "clip": "clip", "tap": "tap", "cap": "cap"}
KIT_ITEMS = {
    "remover": "adhesive remover",
    "powder": "powder",
    "film": "skin film",
    "seal": "ring, strip or paste",
    "belt": "belt",
    "night-bag": "night drainage bag",
    "large-bag": "large high-output bag",
}

LEARNER_KINDS = {"person": "the person", "helper": "helper"}
CONSENT_WHOSE = {"person": "the person", "helper": "the helper"}
NEEDS = {
    "language": "another language",
    "interpreter": "needs an interpreter",
    "sight": "cannot see it well",
    "hand": "weak or stiff hands",
    "memory": "memory",
    "hearing": "hearing",
    "reading": "reading",
}
OWN_LANGUAGE = "en"  # what every screen, row and paper here is written in
INTERPRETERS = {
    "trained": "trained interpreter", "adult": "family or friend", "child": "a child", "none": "nobody",
}

GRADES = {
    "stoma-nurse": "stoma nurse",
    "registered": "registered nurse",
    "student": "student nurse",
    "assistant": "nursing assistant",
    "other": "other staff",
}

ROLES = {
    "ward-nurse": "ward nurse",
    "assistant": "nursing assistant",
    "student": "student",
    "educator": "educator",
    "planner": "discharge planner",
    "lead": "unit lead",
    "auditor": "record auditor",
    "stoma-nurse": "stoma nurse",
}
PRACTICE_SETTINGS = {"person": "with a person", "simulation": "in simulation", "bench": "at a skills bench"}
ASK_STATES = {"asked": "asked to be observed", "withdrawn": "taken back", "paired": "paired with a due change",
              "seen": "has been observed"}
HOSPITAL_ROLES = ("stoma-nurse",)


@dataclass(frozen=True, slots=True)
class PracticeLevel:
    """One of Bondy's five levels of a nurse's practice (J Nurs Educ 22(9), 1983), in our words."""

    name: str
    words: str


BONDY = {
    "5": PracticeLevel("Independent", "Safe and right each time, without a cue"),
    "4": PracticeLevel("Supervised", "Safe and right, with an occasional cue"),
    "3": PracticeLevel("Assisted", "Safe, with frequent cues and sometimes a hand"),
    "2": PracticeLevel("Marginal", "Safe only with you there, cues all the time"),
    "1": PracticeLevel("Dependent", "Not safe, even with cues all the time"),
    "X": PracticeLevel("Not observed", "Did not come up, or you did not see it"),
}
INDEPENDENTLY = "5"
SKILL_STATES = ("not begun", "practising", "ready for sign-off", "signed off", "due soon", "lapsed", "withdrawn")

STAY_EVENTS = {
    "expected": "expected",
    "opened": "opened",
    "moved": "moved",
    "paused": "paused",
    "resumed": "resumed",
    "stopped": "stopped",
    "left": "left",
    "cancelled": "cancelled",
    "reopened": "reopened",
}

ARRANGEMENT_STATES = {"made": "made", "asked": "asked", "refused": "refused", "cancelled": "cancelled"}
APPOINTMENT_STATES = {
    "booked": "booked", "confirmed": "confirmed", "held": "held", "missed": "missed", "cancelled": "cancelled",
}
# What only the unit's clinician may fill on the sheet for home: never a default of ours.
SLOTS = {
    "press-minutes": "minutes of pressing on a bleeding spot before ringing",
    "hours-without-urine": "hours without urine before ringing",
    "urine-drink": "how much to drink in a day with a urostomy",
    "place-to-go": "where to go when nobody answers the number",
}
GOES_TO = {"home": "home", "facility": "a care facility"}
AFTER_HOME = {"reached": "reached", "no-answer": "no answer", "came-back": "came back"}

AFTER_HOME_ASKED = {
    "leak": {"none": "no leak", "one": "one leak", "more": "more than one leak"},
    "skin": {"good": "good", "sore": "sore, wet or spotted"},
    "output": {"usual": "as expected", "watery": "like water, or much more", "little": "very little, or none"},
    "mood": {"well": "managing", "low": "low", "very-low": "very low"},
    "changed_by": {"person": "the person", "helper": "a helper", "nurse": "a nurse", "nobody": "nobody yet"},
}

EVENT_KINDS = {"teaching": "teaching session", "care": "care given", "recheck": "recheck"}
ACCOUNT_KINDS = {
    "original": "original", "correction": "correction", "addendum": "addendum",
    "retraction": "entered in error",
}
ACCOUNT_ROLES = {"taught": "taught and saw", "paired": "rated beside", "student": "student's entry"}
PLACES = {"bed": "bed", "chair": "chair", "bathroom": "bathroom", "clinic": "clinic"}
ENDED_HOW = {"finished": "finished", "broken-off": "broken off"}
ENTERED_AS = {"step": "step by step", "phase": "whole phase confirmed"}
LOWER_REASONS = {"unwell": "unwell", "drowsy": "drowsy", "new-kit": "new kit", "rushed": "rushed"}
AIDS = {"mirror": "mirror", "pre-cut": "pre-cut flange", "cue-card": "cue card", "magnifier": "magnifier"}

# States of the person or one stoma. Each begins and may end; `no-stool-yet` is asked, never inferred.
BODY_EVENTS = {
    "delirium": "delirium",
    "intensive-care": "intensive care",
    "sedation": "strong sedation",
    "reoperation": "re-operation",
    "re-sited": "stoma re-sited",
    "sight-loss": "new loss of sight",
    "hand-loss": "new loss of hand use",
    "rod": "rod in place",
    "stents": "stents in place",
    "measured": "output being measured",
    "no-stool-yet": "real stool has not come yet",
    "rectum": "rectum left in",
    "wound": "seat wound, drain or stitches",
}
CHANGES = {"began": "began", "ended": "ended"}

CAUTION_LISTS = {"call_now": "Call now", "today": "Stoma nurse today"}
CAUTION_STEPS = {"told": "told", "settled": "settled", "withdrawn": "withdrawn"}

COLOURS = {
    "pink-red": "pink or red", "dusky": "dusky or purple", "dark": "brown or black", "pale": "very pale",
}
WETNESS = {"wet": "wet", "dry": "dry"}
EDGES = {"joined": "joined", "gap": "a gap", "stitches": "stitches showing"}
STANDS = {
    "well": "stands out well", "level": "level with the skin", "sunk": "sunk in", "longer": "much longer",
}
SKIN_REGIONS = {"head": "towards the head", "own-left": "the person's own left", "feet": "towards the feet",
                "own-right": "the person's own right"}
SKIN = {
    "good": "same as the skin near it",
    "different": "different from the skin near it (redder, darker, lighter, warm or sore)",
    "wet-raw": "wet or raw",
    "spots": "spots",
    "lumps": "lumps or an ulcer",
}
BLEEDING = {
    "none": "none", "spot": "a spot that stopped", "inside": "from inside",
    "not-stopping": "pouring or not stopping",
}
WEAR_ENDS = {"planned": "planned", "leak": "leak", "itch": "itch or burning", "need": "needed to look"}
NOTICED_BY = {"learner": "the learner", "nurse": "the nurse"}

INDEPENDENCE_STATES = {
    "not started": "not started",
    "learning": "learning",
    "shown once": "shown once",
    "shown, not yet confirmed": "shown, not yet confirmed",
    "independent": "independent",
    "show again": "show again",
    "slipped": "slipped",
    "not needed": "not needed",
}

LEAST_DIGITS = 3  # of a number to ring, the shortest there are. Class C: common practice, no source


def can_be_rung(number: object) -> bool:
    """Whether this is a number at all. Whether somebody answers is for people to check."""
    return sum(sign.isdecimal() for sign in str(number or "")) >= LEAST_DIGITS
