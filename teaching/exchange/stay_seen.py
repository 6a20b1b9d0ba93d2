"""The parts of a stay file about what was seen and arranged: findings, totals, cautions, arrangements, times booked."""

from teaching.exchange.stay_fields import UNKNOWN, Fields
from teaching.exchange.stay_people import which_stoma
from teaching.exchange.stay_sessions import Events
from teaching.rules.facts import Appointment, Arrangement, Caution, Chart, Finding, OutputTotal
from teaching.rules.lines import Policy
from teaching.rules.vocabulary import (
    APPOINTMENT_STATES,
    BLEEDING,
    CAUTION_LISTS,
    COLOURS,
    EDGES,
    NOTICED_BY,
    PROCEDURES,
    SKIN,
    SKIN_REGIONS,
    STANDS,
    WEAR_ENDS,
    WETNESS,
)

ARRANGEMENT_STATES = ("made", "asked", "refused", "cancelled")


def read_findings(top: Fields, chart: Chart, events: Events) -> tuple[Finding, ...]:
    """Lengths in mm: the stoma 8 to 120, the opening 8 to 150 (limits of the record)."""
    found = []
    for index, fields in enumerate(top.each("findings"), start=1):
        stoma, at = which_stoma(fields, chart.stomas), fields.when("at")
        event = events.key(fields, stoma, f"finding-{index}")
        formed = next((one.formed_at for one in chart.stomas if one.key == stoma), None) or chart.surgery_at
        if formed and UNKNOWN < at < formed:
            fields.fault("at", "is before the stoma was formed; correct one of the two.")
        found.append(
            Finding(
                stoma,
                at,
                event,
                colour=fields.code("colour", COLOURS, ""),
                wet=fields.code("wet", WETNESS, ""),
                edge=fields.code("edge", EDGES, ""),
                stands=fields.code("stands", STANDS, ""),
                width_mm=fields.number("width_mm", 8, 120, "mm"),
                height_mm=fields.number("height_mm", 8, 120, "mm"),
                opening_width_mm=fields.number("opening_width_mm", 8, 150, "mm"),
                opening_height_mm=fields.number("opening_height_mm", 8, 150, "mm"),
                skin=_skin(fields),
                noticed_by=fields.code("noticed_by", NOTICED_BY, ""),
                bleeding=fields.code("bleeding", BLEEDING, ""),
                wear_end=fields.code("wear_end", WEAR_ENDS, ""),
            )
        )
    return tuple(found)


def _skin(fields: Fields) -> tuple[tuple[str, str], ...]:
    told = fields.take("skin", dict, 'write regions and what was seen, such as {"feet": "wet-raw"}.', {})
    with Fields(fields.book, told or {}, fields.at("skin")) as skin:
        seen = [(region, skin.code(region, SKIN, "")) for region in SKIN_REGIONS]
    return tuple(sorted((region, what) for region, what in seen if what))


def read_totals(top: Fields, chart: Chart) -> tuple[OutputTotal, ...]:
    found = []
    for fields in top.each("totals"):
        stoma, until = which_stoma(fields, chart.stomas), fields.when("until")
        found.append(OutputTotal(stoma, until, fields.whole("ml", 0, 20000, "mL", ...) or 0))
    return tuple(found)


def read_cautions(top: Fields, chart: Chart, policy: Policy) -> tuple[Caution, ...]:
    """Signs are those of the policy; a caution takes its list and words from there unless it has its own."""
    found = []
    for index, fields in enumerate(top.each("cautions"), start=1):
        sign = policy.sign.get(fields.code("sign", policy.sign))
        which = fields.code("list", CAUTION_LISTS, sign.list if sign and sign.list in CAUTION_LISTS else "")
        words = fields.text("words", policy.words(sign) if sign else "")
        stoma = fields.code("stoma", [one.key for one in chart.stomas], "")
        at, told, settled = fields.when("at"), fields.happened("told"), fields.happened("settled")
        if told and told < at:
            fields.fault("told", "is before the sign was seen; correct one of the two.")
        if settled and not told:
            fields.fault("settled", "a caution is settled only after it was told; add told.")
        elif settled and told and settled < told:
            fields.fault("settled", "is before it was told; correct one of the two.")
        found.append(
            Caution(
                fields.text("key", f"caution-{index}"),
                sign.code if sign else "",
                which,
                words,
                at,
                stoma,
                told,
                fields.text("told_whom"),
                fields.text("answer"),
                fields.moment("look_again_at"),
                settled,
                fields.yes("withdrawn"),
            )
        )
    return tuple(found)


def read_arrangements(top: Fields) -> tuple[Arrangement, ...]:
    found = []
    for fields in top.each("arrangements"):
        code, state = fields.text("code", ...), fields.code("state", ARRANGEMENT_STATES, "made")
        at, value, due = fields.when("at"), fields.text("value"), fields.moment("due_at")
        found.append(Arrangement(code, state, at, value, due))
    return tuple(found)


def read_appointments(top: Fields, chart: Chart) -> tuple[Appointment, ...]:
    """Teaching booked: when, of what, for whom. Where no learner is named, the person."""
    keys, stomas = [one.key for one in chart.learners], [one.key for one in chart.stomas]
    found = []
    for index, fields in enumerate(top.each("appointments"), start=1):
        found.append(
            Appointment(
                fields.text("key", f"appointment-{index}"),
                fields.moment("at", ...) or UNKNOWN,
                fields.code("state", APPOINTMENT_STATES, "booked"),
                fields.code("procedure", PROCEDURES, "change"),
                tuple(sorted(fields.codes("learners", keys))),
                fields.code("stoma", stomas, ""),
            )
        )
    return tuple(found)
