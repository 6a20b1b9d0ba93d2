"""The parts of a stay file about the ward, the stomas and what they wear, and who is learning."""

from datetime import datetime, time
from zoneinfo import ZoneInfo

from teaching.exchange.stay_fields import Fields
from teaching.rules.facts import BodyEvent, Consent, Kit, Learner, Shift, Stoma, Ward
from teaching.rules.vocabulary import (
    BODY_EVENTS,
    CLOSURES,
    CONSENT_WHOSE,
    CONSTRUCTIONS,
    KIT_ITEMS,
    LEARNER_KINDS,
    NEEDS,
    OPENINGS,
    OUTLETS,
    PIECES,
    SHAPES,
    SIDES,
    STOMA_KINDS,
)

PERSON = "person"
TAPPED = ("urostomy", "wet-colostomy")
TAPS = ("tap", "cap")


def read_ward(top: Fields) -> Ward:
    """The ward: an object, or its time zone alone. A fault leaves UTC in its place."""
    top.asked.add("ward")
    told = top.data.get("ward")
    with Fields(top.book, {"zone": told} if isinstance(told, str) else told, "ward") as fields:
        zone = fields.text("zone", ...)
        if zone and not _is_zone(zone):
            fields.fault("zone", f"{zone} is not a time zone; write one such as Europe/London.")
            zone = ""
        leave_hour = fields.whole("leave_hour", 0, 23, "hours", 12)
        shifts = tuple(shift for each in fields.each("shifts") if (shift := _shift(each)))
    ward = Ward(zone=zone or "UTC", leave_hour=12 if leave_hour is None else leave_hour)
    return Ward(zone=ward.zone, shifts=shifts or ward.shifts, leave_hour=ward.leave_hour)


def read_stomas(top: Fields) -> tuple[Stoma, ...]:
    """At least one. A lone stoma needs no key: it is called stoma."""
    stomas: list[Stoma] = []
    for fields in top.each("stomas"):
        kind = fields.code("kind", STOMA_KINDS)
        construction = fields.code("construction", CONSTRUCTIONS, "end")
        side = fields.code("side", SIDES, "")
        key = fields.text("key", "stoma")
        label = fields.text("label", " ".join(filter(None, (side, STOMA_KINDS.get(kind, "stoma")))))
        if key in [stoma.key for stoma in stomas]:
            fields.fault("key", f"{key} stands twice; give each stoma a key of its own.")
        stomas.append(Stoma(key, label, kind, construction, side, fields.moment("formed_at")))
    if not stomas:
        top.fault("stomas", 'is missing; list at least one, such as [{"kind": "ileostomy"}].')
    return tuple(stomas)


def which_stoma(fields: Fields, stomas: tuple[Stoma, ...]) -> str:
    """The stoma an entry is about: its key, or the only one; "" after a fault."""
    keys = [stoma.key for stoma in stomas]
    if not keys:
        fields.asked.add("stoma")
        return ""
    if len(keys) == 1 and not fields.has("stoma"):
        return keys[0]
    if len(keys) > 1 and not fields.has("stoma"):
        fields.fault("stoma", f"there are {len(keys)} stomas; say which: {' or '.join(keys)}.")
        return ""
    return fields.code("stoma", keys)


def read_kits(top: Fields, stomas: tuple[Stoma, ...]) -> tuple[Kit, ...]:
    return tuple(_kit(fields, stomas) for fields in top.each("kits"))


def _kit(fields: Fields, stomas: tuple[Stoma, ...]) -> Kit:
    key = which_stoma(fields, stomas)
    kind = next((stoma.kind for stoma in stomas if stoma.key == key), "")
    since = fields.when("since")
    pieces, shape = fields.code("pieces", PIECES), fields.code("shape", SHAPES, "flat")
    opening = fields.code("opening", OPENINGS)
    closure = fields.code("closure", CLOSURES, "drainable")
    outlet = fields.code(
        "outlet", OUTLETS, "tap" if kind in TAPPED else "" if closure == "closed" else "strip"
    )
    kit = Kit(
        key,
        since,
        pieces,
        shape,
        opening,
        closure,
        outlet,
        fields.codes("items", KIT_ITEMS),
        fields.whole("interval_hours", 1, 168, "hours"),
        fields.number("pre_cut_mm", 8, 120, "mm"),
        fields.number("cut_limit_mm", 8, 150, "mm"),
    )
    if kind in TAPPED and (closure == "closed" or outlet not in TAPS):
        fields.fault(
            "outlet", f"a pouch on a {STOMA_KINDS[kind]} has a tap or a cap; correct it, or the stoma."
        )
    elif closure == "closed" and outlet:
        fields.fault("outlet", "a closed pouch has none; leave it out, or write drainable.")
    if kit.pre_cut_mm is not None and opening != "pre-cut":
        fields.fault(
            "pre_cut_mm", f"the opening is {opening}, not pre-cut; leave it out, or correct the opening."
        )
    return kit


def read_learners(top: Fields) -> tuple[tuple[Learner, ...], tuple[Consent, ...]]:
    """The person first, whether listed or not, then the helpers; with the consents given beside a helper."""
    learners: list[Learner] = []
    consents: list[Consent] = []
    for fields in top.each("learners"):
        key = fields.text("key", ...)
        kind = fields.code("kind", LEARNER_KINDS, "person" if key == PERSON else "helper")
        if key in [learner.key for learner in learners]:
            fields.fault("key", f"{key} stands twice; give each learner a key of its own.")
        if kind == "person" and any(learner.kind == "person" for learner in learners):
            fields.fault("kind", "there is one person; write helper, or leave this one out.")
        learners.append(
            Learner(
                key,
                kind,
                fields.text("name", "" if kind == "person" else key),
                fields.text("relation"),
                fields.codes("needs", NEEDS),
                fields.yes("lives_in"),
                fields.whole("minutes_away", 0, 1440, "minutes"),
            )
        )
        agreed = fields.happened("agreed")
        if agreed and kind == "person":
            fields.fault("agreed", "is for helpers; the person says yes to each helper there.")
        elif agreed:
            consents += [Consent(key, whose, True, agreed) for whose in CONSENT_WHOSE]
    if not any(learner.kind == "person" for learner in learners):
        learners.insert(0, Learner(PERSON))
    return tuple(learners), tuple(consents)


def read_consents(top: Fields, learners: tuple[Learner, ...]) -> tuple[Consent, ...]:
    helpers = [learner.key for learner in learners if learner.kind == "helper"]
    found = []
    for fields in top.each("consents"):
        learner, whose = fields.code("learner", helpers), fields.code("whose", CONSENT_WHOSE)
        found.append(Consent(learner, whose, fields.yes("yes", ...), fields.when("at")))
    return tuple(found)


def has_agreed(learner: str, at: datetime, consents: tuple[Consent, ...]) -> bool:
    """Whether both, the person and this helper, have said yes, and no newer no stood at that moment.

    A word dated later is taken too: a yes may be written down after the session, and a no takes a yes back.
    Of two words at one moment the no counts, as in the rules.
    """
    for whose in CONSENT_WHOSE:
        words = [one for one in consents if (one.learner, one.whose) == (learner, whose)]
        before = sorted((one for one in words if one.at <= at), key=lambda one: (one.at, not one.yes))
        if not words or (before and not before[-1].yes):
            return False
    return True


def read_body_events(top: Fields, stomas: tuple[Stoma, ...]) -> tuple[BodyEvent, ...]:
    found = []
    for fields in top.each("body_events"):
        code = fields.code("code", BODY_EVENTS)
        stoma = fields.code("stoma", [stoma.key for stoma in stomas], "")
        began, ended = fields.when("began"), fields.happened("ended")
        if ended and ended < began:
            fields.fault("ended", "is before it began; correct one of the two.")
        found.append(BodyEvent(code, began, ended, stoma))
    return tuple(found)


def _shift(fields: Fields) -> Shift | None:
    name, starts, ends = fields.text("name", ...), _time(fields, "starts"), _time(fields, "ends")
    return Shift(name, starts, ends) if name and starts and ends else None


def _time(fields: Fields, key: str) -> time | None:
    text = fields.text(key, ...)
    try:
        return time.fromisoformat(text) if text else None
    except ValueError:
        fields.fault(key, f"{text} is not a time of day; write it as 07:30.")
        return None


def _is_zone(name: str) -> bool:
    try:
        return bool(ZoneInfo(name))
    except (OSError, ValueError, KeyError):
        return False
