"""The stoma, what it wears, and what goes on in the body that touches learning."""

from datetime import datetime

from django.utils import timezone

from teaching.models import BodyEvent, Kit, Stay, Stoma
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.entries import KitEntry, StomaEntry
from teaching.record.figures import refresh
from teaching.record.refusals import refuse
from teaching.record.writing import done, next_number, writing
from teaching.rules import vocabulary as words

TAPS = ("tap", "cap")
URINE = ("urostomy", "wet-colostomy")
OF_A_STOMA = ("rod", "stents", "measured", "no-stool-yet", "re-sited")
AT_ONCE = ("re-sited", "reoperation")  # happen at a moment: may begin again without an end


def add_stoma(*, actor: Actor, stay: Stay, entry: StomaEntry) -> Stoma:
    """A stoma of this stay; its label tells it from another one."""
    clinician = somebody(actor)
    faults = Faults()
    faults.word("kind", entry.kind, words.STOMA_KINDS)
    faults.word("construction", entry.construction, words.CONSTRUCTIONS)
    faults.word("side", entry.side, words.SIDES)
    faults.text("label", entry.label, 40)
    faults.moment("formed_at", entry.formed_at, timezone.now(), needed=False)
    faults.stop()
    label = entry.label.strip() or words.SIDES[entry.side]
    with writing(stay) as locked:
        assert locked is not None
        if Stoma.objects.filter(stay=stay, label=label).exists():
            refuse("label", f'There is already a stoma called "{label}"; give this one another name.')
        stoma = Stoma.objects.create(
            stay=stay, label=label, kind=entry.kind, construction=entry.construction, side=entry.side,
            formed_at=entry.formed_at, by=clinician,
        )
        refresh(stay)
        done(actor, "add_stoma", stoma, stay=stay, unit=locked.unit)
    return stoma


def fit_kit(*, actor: Actor, stoma: Stoma, entry: KitEntry) -> Kit:
    """What the stoma wears from a moment on. A closed pouch has no outlet; urine leaves by a tap or cap."""
    clinician = somebody(actor)
    now = timezone.now()
    check_kit(stoma.kind, entry, now)
    with writing(stoma.stay) as locked:
        assert locked is not None
        kit = Kit.objects.create(
            stay_id=stoma.stay_id, stoma=stoma, number=next_number(Kit, stoma=stoma),
            pieces=entry.pieces, shape=entry.shape, opening=entry.opening, closure=entry.closure,
            outlet=entry.outlet, items=sorted(entry.items), interval_hours=entry.interval_hours,
            pre_cut_mm=entry.pre_cut_mm, cut_limit_mm=entry.cut_limit_mm,
            happened_at=entry.happened_at or now, by=clinician,
        )
        refresh(stoma.stay)
        done(actor, "fit_kit", kit, stay=stoma.stay, unit=locked.unit)
    return kit


def check_kit(stoma: str, entry: KitEntry, now: datetime) -> None:
    """`stoma` is its kind. Raises Refused with every fault."""
    faults = Faults()
    faults.word("pieces", entry.pieces, words.PIECES)
    faults.word("shape", entry.shape, words.SHAPES)
    faults.word("opening", entry.opening, words.OPENINGS)
    faults.word("closure", entry.closure, words.CLOSURES)
    faults.word("outlet", entry.outlet, words.OUTLETS, blank=True)
    for item in entry.items:
        faults.word("items", item, words.KIT_ITEMS)
    faults.between("interval_hours", entry.interval_hours, 1, 168, "hours")
    faults.between("pre_cut_mm", entry.pre_cut_mm, 8, 120, "mm")
    faults.between("cut_limit_mm", entry.cut_limit_mm, 8, 150, "mm")
    faults.moment("happened_at", entry.happened_at, now, needed=False)
    if entry.closure == "closed" and entry.outlet:
        faults.add("outlet", "A closed pouch has no outlet; leave it open, or choose a drainable pouch.")
    if entry.closure == "drainable" and not entry.outlet:
        faults.add("outlet", "Say how the outlet shuts: strip, clip, tap or cap.")
    if stoma in URINE and (entry.closure != "drainable" or entry.outlet not in TAPS):
        faults.add("outlet", f"A {words.STOMA_KINDS[stoma]} needs a pouch with a tap or a cap.")
    if entry.pre_cut_mm is not None and entry.opening != "pre-cut":
        faults.add("pre_cut_mm", "Only a pre-cut flange has this size; leave it out.")
    faults.stop()


def note_body_event(
    *, actor: Actor, stay: Stay, code: str, change: str, at: datetime, stoma: Stoma | None = None
) -> BodyEvent:
    """A state began or ended. What belongs to one stoma goes to the only one, or must name it."""
    clinician = somebody(actor)
    faults = Faults()
    faults.word("code", code, words.BODY_EVENTS)
    faults.word("change", change, words.CHANGES)
    faults.moment("at", at, timezone.now())
    faults.stop()
    with writing(stay) as locked:
        assert locked is not None
        stoma = _stoma_meant(stay, code, stoma)
        said = words.BODY_EVENTS[code]
        before = BodyEvent.objects.filter(stay=stay, stoma=stoma, code=code, happened_at__lte=at)
        newest = before.order_by("-happened_at", "-id").first()
        running = newest is not None and newest.change == "began"
        if change == "began" and running and code not in AT_ONCE:
            refuse("change", f'"{said}" is already noted and has not ended; note its end, or leave it.')
        if change == "ended" and not running:
            refuse("change", f'"{said}" was not noted before; note first when it began.')
        made = BodyEvent.objects.create(
            stay=stay, stoma=stoma, code=code, change=change, happened_at=at, by=clinician
        )
        refresh(stay)
        done(actor, "note_body_event", made, stay=stay, unit=locked.unit)
    return made


def _stoma_meant(stay: Stay, code: str, stoma: Stoma | None) -> Stoma | None:
    if stoma is not None and stoma.stay_id != stay.pk:
        refuse("stoma", "This stoma belongs to another stay; go back and open the right person.")
    if stoma is not None or code not in OF_A_STOMA:
        return stoma
    stomas = list(Stoma.objects.filter(stay=stay)[:2])
    if len(stomas) != 1:
        refuse("stoma", "Say which stoma this is about." if stomas else "Write down the stoma first.")
    return stomas[0]
