"""What the sentences of the take-home sheet are told: of one stoma, of the stay, and of what the unit has filled in."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta

from teaching.papers.dated import weekday
from teaching.rules.arrangements import FLUID_PLAN, LEAK_SERVICE, NUMBER_TO_RING, STENTS_OUT, SUPPLIES
from teaching.rules.checklist import features, kit_at, states_at
from teaching.rules.facts import Arrangement, Chart, Stoma
from teaching.rules.fit import mm, opening, sizes, worked_out
from teaching.rules.in_place import MADE, newest
from teaching.rules.lines import Policy
from teaching.rules.vocabulary import can_be_rung

Told = Mapping[str, str]
Phones = Sequence[tuple[str, str, str]]  # label, number, hours
HOUR, WEEK = timedelta(hours=1), timedelta(days=7)
NO_PLACE = "If no one answers, go to ................................ Ask your nurse where before you go home."
BY_HAND = "Where to go when nobody answers is not filled in for this unit: write it into the empty line by hand."
PLAN = ("tablets", "drink", "plain_water", "target")
PLAN_DAYS = ("bloods", "call")
# A slot by its code, and the word of the sentences that it fills. Without one of the first no sheet is printed;
# without the others it says to ask the nurse.
SLOT_WORDS = {"press-minutes": "press_minutes", "hours-without-urine": "no_urine_hours"}
SLOT_COUNTS = {"press_minutes": "minute", "no_urine_hours": "hour"}
ASKED_ELSE = {"urine-drink": "urine_drink"}


def made(chart: Chart, code: str, now: datetime) -> Arrangement | None:
    """The newest word on an arrangement, where that is that it was made."""
    found = newest(chart, code, now)
    return found if found and found.state == MADE else None


def counted(number: object, what: str) -> str:
    """1 as "1 day", 7 as "7 days"."""
    return f"{number} {what}{'' if str(number) == '1' else 's'}"


def number_to_ring(chart: Chart, now: datetime) -> str:
    """The number that is arranged; "" where none is, or where nobody can ring what was written down."""
    return _rung(made(chart, NUMBER_TO_RING, now))


def _rung(found: Arrangement | None) -> str:
    number = found.detail("phone") if found else ""
    return str(number) if can_be_rung(number) else ""


def no_number(chart: Chart, now: datetime) -> str:
    """What is to be mended before a sheet says whom to ring; "" where it can."""
    found = made(chart, NUMBER_TO_RING, now)
    if _rung(found):
        return ""
    said = found.detail("phone") if found else ""
    if not said:
        return "The number to ring, day and night, is not arranged yet."
    return f'Nobody can ring "{said}": write the number to ring, day and night, with its digits.'


def not_rung(phones: Phones) -> str:
    """Which of the unit's numbers are left off, as nobody can ring them, and what mends it; "" where none is."""
    left_off = [label for label, number, _ in phones if not can_be_rung(number)]
    if not left_off:
        return ""
    return f"Left off, as nobody can ring what is written down: {'; '.join(left_off)}. The unit lead writes the number."


def where_to_go(slots: Told) -> str:
    """What to do where nobody answers the number; a line to write on where the unit has named no place."""
    place = slots.get("place-to-go")
    return f"If no one answers, go to {place}." if place else NO_PLACE


def to_write_by_hand(slots: Told) -> str:
    """What is said beside the printing of a sheet; "" where the unit has named the place."""
    return "" if slots.get("place-to-go") else BY_HAND


def of_stay(chart: Chart, policy: Policy, now: datetime, slots: Told) -> dict[str, str]:
    """Words in braces that hold for every stoma; what is not known is absent."""
    told = {
        "leaks": counted(policy.leaks_today, "leak"), "leak_hours": counted(policy.leaks_span // HOUR, "hour"),
        "much": str(policy.output_today),
        "weeks": counted(policy.size_settles // WEEK, "week"),
        "least": str(policy.opening_least), "most": str(policy.opening_most),
    }  # fmt: skip
    told |= {word: slots[code] for code, word in (SLOT_WORDS | ASKED_ELSE).items() if slots.get(code)}
    told |= {word: counted(told[word], what) for word, what in SLOT_COUNTS.items() if word in told}
    leak = made(chart, LEAK_SERVICE, now)
    told["leak_phone"] = _rung(leak) or number_to_ring(chart, now)
    if plan := made(chart, FLUID_PLAN, now):
        told |= {name: str(plan.detail(name)).rstrip(".") for name in PLAN if plan.detail(name)}
        told |= {name: _day_of(str(plan.detail(name))) for name in PLAN_DAYS if plan.detail(name)}
    if supplies := made(chart, SUPPLIES, now):
        told |= {name: counted(said, "day") for name in ("days", "lead_days") if (said := supplies.detail(name))}
        if supplies.due_at:
            told["delivery"] = weekday(chart.ward.date(supplies.due_at))
    stents = made(chart, STENTS_OUT, now)
    if stents and stents.due_at:
        told["stents_out"] = weekday(chart.ward.date(stents.due_at))
    return {name: said for name, said in told.items() if said}


def _day_of(said: str) -> str:
    try:
        return weekday(date.fromisoformat(said))
    except ValueError:
        return said


def of_stoma(chart: Chart, stoma: Stoma, policy: Policy, now: datetime, stay: Told) -> tuple[frozenset[str], Told]:
    """What a condition may ask of this stoma, and the words in braces for it."""
    kit, states = kit_at(chart, stoma.key, now), states_at(chart, stoma.key, now)
    present = set(features(stoma, kit, states))
    known, told = sizes(chart, stoma.key, now), dict(stay)
    may_work_out = worked_out(kit, states, _edge(chart, stoma.key, now))
    cut = opening(known[-1], policy) if known and may_work_out else None
    if cut:
        told |= {"wide": mm(cut.across[0]), "high": mm(cut.up_and_down[0])}
        told["measured"] = weekday(chart.ward.date(known[-1].at))
    present.add("sized" if cut else "unsized" if may_work_out else "as-shown")
    present.add("drink-told" if "urine_drink" in stay else "drink-untold")
    if stoma.kind != "urostomy":
        present.add("plan" if "drink" in stay else "no-plan")
    if "kit:night-bag" not in present:
        present.add("no-night-bag")
    present.add("tube-date" if "stents_out" in stay else "no-tube-date")
    return frozenset(present), told


def _edge(chart: Chart, stoma: str, now: datetime) -> str:
    seen = [one for one in chart.findings if one.stoma == stoma and one.at <= now and one.edge]
    return max(seen, key=lambda one: one.at).edge if seen else ""
