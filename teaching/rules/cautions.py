"""Cautions: which signs of the policy a finding, an output total or the wear of pouches shows, and their order.

A caution is stored at the tap with the words shown then; these functions are never used to derive it again.
Nothing here is a diagnosis: a sign says whom to tell and how soon.
"""

from collections.abc import Iterable
from datetime import datetime

from teaching.rules.arrangements import FLUID_PLAN
from teaching.rules.checklist import conditions, features, holds, kit_at, states_at
from teaching.rules.facts import Care, Caution, Chart, Finding, OutputTotal, Stoma
from teaching.rules.lines import OFF, Policy
from teaching.rules.reasons import Reason
from teaching.rules.vocabulary import SKIN_REGIONS

CALL_NOW = "call_now"
LEAK = "leak"
SORE = ("wet-raw", "spots", "lumps")
OUTPUT_SIGNS = ("output-today", "output-now")


def signs_seen(finding: Finding, policy: Policy) -> list[str]:
    """Codes of the signs that a finding shows, in the policy's order."""
    seen = {
        "dark-stoma": finding.colour in ("dusky", "dark", "pale"),
        "dry-stoma": finding.wet == "dry",
        "bleeding": finding.bleeding in ("inside", "not-stopping"),
        "sore-skin": any(state in SORE for _, state in finding.skin),
        "gap": finding.edge == "gap",
        "longer": finding.stands == "longer",
        "sunk": finding.stands == "sunk",
    }
    return _listed(policy, (code for code, shown in seen.items() if shown))


def looks_normal(sign: str, finding: Finding) -> bool:
    """Whether this finding shows the very thing that the sign was about as it should be. Not looked at is not normal.

    Sunk with pain, fever and the like show in no finding: only a clinician's word settles those.
    """
    skin = [seen for _, seen in finding.skin]
    return {
        "dark-stoma": finding.colour == "pink-red",
        "dry-stoma": finding.wet == "wet",
        "bleeding": finding.bleeding in ("none", "spot"),
        "sore-skin": len(skin) == len(SKIN_REGIONS) and all(seen == "good" for seen in skin),
        "gap": finding.edge == "joined",
        "longer": finding.stands in ("well", "level"),
        "sunk": finding.stands == "well",
    }.get(sign, False)


def normal_since(chart: Chart, caution: Caution, policy: Policy, now: datetime) -> datetime | None:
    """When the newest finding after it was told showed it normal; None where none did, or a later one does not.

    For a high output: a later 24-hour total under the lower bound. It is offered as what may settle the caution; a
    nurse settles it.
    """
    if caution.told is None:
        return None
    told = caution.told
    if caution.sign in OUTPUT_SIGNS:
        shown = [(each.until, each.ml < policy.output_today) for each in chart.totals if each.stoma == caution.stoma]
    else:
        seen = [each for each in chart.findings if each.stoma == caution.stoma]
        shown = [(each.at, True) for each in seen if looks_normal(caution.sign, each)]
        shown += [(each.at, False) for each in seen if caution.sign in signs_seen(each, policy)]
    later = [(at, normal) for at, normal in shown if told < at <= now]
    newest, normal = max(later, key=lambda one: (one[0], not one[1]), default=(None, False))
    return newest if normal else None


def fluid_plan_wanted(chart: Chart, policy: Policy, now: datetime) -> OutputTotal | None:
    """The highest total that asks for a fluid plan while none is made; totals of an ileostomy or colostomy alone."""
    made = [one for one in chart.arrangements if one.code == FLUID_PLAN and one.at <= now]
    if made and max(made, key=lambda one: one.at).state == "made":
        return None
    high = [one for one in chart.totals if one.until <= now and signs_of_total(one, chart, policy)]
    return max(high, key=lambda one: (one.ml, one.until), default=None)


def newest_total(chart: Chart, stoma: Stoma, now: datetime) -> OutputTotal | None:
    """The newest 24-hour total; None means not known, never nothing."""
    known = [one for one in chart.totals if one.stoma == stoma.key and one.until <= now]
    return max(known, key=lambda one: one.until, default=None)


def signs_of_total(total: OutputTotal, chart: Chart, policy: Policy) -> list[str]:
    """A 24-hour total at a bound counts; past the higher bound only the more urgent sign is raised."""
    stoma = chart.stoma(total.stoma)
    present = features(stoma, kit_at(chart, stoma.key, total.until), states_at(chart, stoma.key, total.until))
    code = "output-now" if total.ml >= policy.output_now else "output-today"
    fits = holds(conditions(policy.sign[code].applies), present)
    return _listed(policy, [code] if fits and total.ml >= policy.output_today else [])


def signs_of_wear(chart: Chart, stoma: str, policy: Policy, now: datetime) -> list[str]:
    """Two leaks within a day, counted back from now; both ends of the day count."""
    leaks = [at for at, ended in wear_ends(chart, stoma, now) if ended == LEAK and at >= now - policy.leaks_span]
    return _listed(policy, ["two-leaks"] if len(leaks) >= policy.leaks_today else [])


def wear_ends(chart: Chart, stoma: str, now: datetime) -> list[tuple[datetime, str]]:
    """How each pouch came to its end, oldest first; one entry an event, however many wrote it: a leak if any did."""
    written: list[Care | Finding] = [*chart.care, *chart.findings]
    ends = [one for one in written if one.stoma == stoma and one.wear_end and one.at <= now]
    told: dict[str, Care | Finding] = {}
    for one in sorted(ends, key=lambda one: (one.wear_end != LEAK, one.at, one.wear_end)):
        told.setdefault(one.event, one)
    return sorted((one.at, one.wear_end) for one in told.values())


def _listed(policy: Policy, codes: Iterable[str]) -> list[str]:
    """A sign the hospital has switched off is not raised."""
    shown = set(codes)
    return [sign.code for sign in policy.signs if sign.code in shown and sign.list != OFF]


def running(chart: Chart, now: datetime) -> tuple[Caution, ...]:
    """Cautions neither settled nor withdrawn: open before told, call now before today, oldest first.

    One that was settled without having been told still runs (R10).
    """
    found = [one for one in chart.cautions if one.at <= now and not one.withdrawn and not _settled(one, now)]
    return tuple(sorted(found, key=lambda one: (one.told is not None, one.list != CALL_NOW, one.at)))


def call_first(chart: Chart, now: datetime) -> tuple[Caution, ...]:
    """The call-now cautions of which nobody has been told: until then no teaching. What is told waits for an answer."""
    return tuple(
        one for one in running(chart, now) if one.list == CALL_NOW and (one.told is None or one.told > now)
    )


def _settled(caution: Caution, now: datetime) -> bool:
    return caution.settled is not None and caution.settled <= now and not settling_faults(caution, caution.settled)


def settling_faults(caution: Caution, settled: datetime) -> tuple[Reason, ...]:
    """R10: what is wrong with settling this caution at a moment; empty when it may be settled."""
    if caution.told is None:
        return (Reason("tell-first"),)
    return (Reason("settled-early"),) if settled < caution.told else ()
