"""Fit: the opening beside the measured size, when to measure again, how long a pouch is worn, what to take home.

Lengths in mm. Clearance is on the whole width, so half of it stands on each side. Nothing here blocks: a nurse is
asked whether it is so. Sources stand with the lines of the policy.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from teaching.rules.facts import Chart, Finding, Kit, Stoma
from teaching.rules.policy import Policy
from teaching.rules.reasons import Reason
from teaching.rules.vocabulary import SKIN_REGIONS

AXES = {"width_mm": "across", "height_mm": "up and down"}
EDGES_OF_AN_AXIS = ("one side", "the other")
# Powder that is no mistake on good skin: a medicine, or what fills a gap beside the stoma.
POWDER_FOR = {"prescribed": "prescribed powder", "gap": "to fill a gap"}

Asked = tuple[str, Reason]


@dataclass(frozen=True, slots=True)
class Size:
    """One measuring, with the opening that was cut then; None where it was not measured."""

    at: datetime
    width_mm: float | None
    height_mm: float | None
    opening_width_mm: float | None = None
    opening_height_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Opening:
    """How wide to cut on each axis: (least, most); the template takes the least, since a hole is never cut smaller."""

    across: tuple[float, float]
    up_and_down: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Remeasure:
    """When to measure again (UTC), None where it is no longer, or not yet, asked; and a sentence that says so."""

    due: datetime | None
    reason: Reason


@dataclass(frozen=True, slots=True)
class Supplies:
    """Pouches to take home, for how many days, spares among them; `capped`: fewer because the size still changes."""

    pouches: int
    days: int
    spares: int
    capped: bool


def room(size: float, policy: Policy) -> tuple[float, float]:
    """The least and the most an opening may measure on this axis. 32 mm: 34 to 35 mm by the default policy."""
    return size + policy.opening_least, size + policy.opening_most


def opening(size: Size, policy: Policy) -> Opening | None:
    """None unless measured on both axes."""
    if size.width_mm is None or size.height_mm is None:
        return None
    return Opening(room(size.width_mm, policy), room(size.height_mm, policy))


def worked_out(kit: Kit | None, states: frozenset[str], edge: str = "") -> bool:
    """Whether the opening follows from the size: not where it is moulded, nor round a rod or beside a gap."""
    return not ((kit and kit.opening == "mouldable") or "rod" in states or edge == "gap")


def opening_asks(finding: Finding, kit: Kit | None, states: frozenset[str], policy: Policy) -> list[Asked]:
    """(field of the finding, question) for each axis: too tight, too wide, or past the flange's cutting limit."""
    found: list[Asked] = []
    for name, axis in AXES.items():
        size, cut = getattr(finding, name), getattr(finding, f"opening_{name}")
        if worked_out(kit, states, finding.edge) and size is not None:
            found += _clearance(name, axis, size, cut, kit, policy)
        if cut is not None and kit and kit.cut_limit_mm is not None and cut > kit.cut_limit_mm:
            limit = Reason("past-cutting-limit", limit=mm(kit.cut_limit_mm), opening=mm(cut), axis=axis)
            found.append((f"opening_{name}", limit))
    return found


def _clearance(
    name: str, axis: str, size: float, cut: float | None, kit: Kit | None, policy: Policy
) -> Iterable[Asked]:
    """A pre-cut flange's opening is what it comes with; the question then stands beside the size."""
    least, most = room(size, policy)
    comes = kit.pre_cut_mm if kit and kit.opening == "pre-cut" else None
    if comes is not None:
        if comes < least:
            yield name, Reason("pre-cut-tight", opening=mm(comes), size=mm(size), axis=axis)
        elif comes > most:
            yield name, Reason("pre-cut-wide", opening=mm(comes), size=mm(size), axis=axis)
    elif cut is not None and cut < least:
        tight = Reason("opening-tight", opening=mm(cut), size=mm(size), axis=axis, least=policy.opening_least)
        yield f"opening_{name}", tight
    elif cut is not None and cut > most:
        wide = Reason("opening-wide", opening=mm(cut), size=mm(size), axis=axis, most=policy.opening_most)
        yield f"opening_{name}", wide


def powder_asks(where: Iterable[str], skin: Mapping[str, str], used: bool) -> list[Asked]:
    """Powder on skin recorded good. `where`: regions, or a code of POWDER_FOR, which asks nothing.

    `used`: the decision row says that powder was put on, wherever it was.
    """
    said = set(where)
    if said & set(POWDER_FOR):
        return []
    good = [words for region, words in SKIN_REGIONS.items() if region in said and skin.get(region) == "good"]
    if good:
        return [("powder_where", Reason("powder-on-good", where=", ".join(good)))]
    if used and not said and skin and all(seen == "good" for seen in skin.values()):
        return [("powder_where", Reason("powder-skin-good"))]
    return []


def sizes(chart: Chart, stoma: str, now: datetime) -> tuple[Size, ...]:
    """Every measuring of this stoma up to now, oldest first."""
    measured = [
        Size(one.at, one.width_mm, one.height_mm, one.opening_width_mm, one.opening_height_mm)
        for one in chart.findings
        if one.stoma == stoma and one.at <= now and not (one.width_mm is None and one.height_mm is None)
    ]
    return tuple(sorted(measured, key=lambda one: (one.at, one.width_mm or 0, one.height_mm or 0)))


def changing(stoma: Stoma, now: datetime, policy: Policy) -> bool:
    """Whether the size is still expected to change; without a day of surgery nobody can say it has settled."""
    return stoma.formed_at is None or now <= stoma.formed_at + policy.size_settles


def remeasure(chart: Chart, stoma: Stoma, now: datetime, policy: Policy) -> Remeasure:
    """Weekly while the size changes; the last weekly one falls within the weeks that the policy gives."""
    known = sizes(chart, stoma.key, now)
    if not known:
        return Remeasure(None, Reason("measure-first"))
    due = known[-1].at + policy.remeasure
    if not changing(stoma, due, policy):
        assert stoma.formed_at is not None
        return Remeasure(None, Reason("size-settled", at=chart.ward.local(stoma.formed_at + policy.size_settles)))
    here = chart.ward.local(due)
    return Remeasure(due, Reason("measure-now", at=here) if due < now else Reason("measure-by", at=here))


def opening_said(
    size: Size | None, kit: Kit | None, states: frozenset[str], edge: str, policy: Policy
) -> Reason | None:
    """How wide to cut, in a sentence; None where nothing is known to work it out from."""
    if kit and kit.opening == "mouldable":
        return Reason("moulded")
    if kit and kit.opening == "pre-cut":
        return Reason("comes-cut", opening=mm(kit.pre_cut_mm)) if kit.pre_cut_mm is not None else None
    if not worked_out(kit, states, edge):
        return Reason("round-tube")
    cut = opening(size, policy) if size else None
    if cut is None:
        return None
    across = f"{_span(cut.across)} across, {_span(cut.up_and_down)} up and down"
    least, most = policy.opening_least, policy.opening_most
    a_side = [mm(room / len(EDGES_OF_AN_AXIS)) for room in (least, most)]
    return Reason("cut-to", across=across, least=least, most=most, half_least=a_side[0], half_most=a_side[1])


def interval_said(kit: Kit | None, policy: Policy) -> Reason | None:
    """A planned interval outside what is usual for a new stoma; a sentence, never a fault."""
    if kit is None or kit.interval_hours is None:
        return None
    if policy.interval_least <= timedelta(hours=kit.interval_hours) <= policy.interval_most:
        return None
    least, most = policy.interval_least.days, policy.interval_most.days
    return Reason("interval-unusual", hours=kit.interval_hours, least=least, most=most)


def worn_long(chart: Chart, on_since: datetime | None, now: datetime, policy: Policy) -> Reason | None:
    """Exactly the longest wear still counts; longer is said."""
    if on_since is None or now - on_since <= policy.longest_wear:
        return None
    return Reason("worn-long", at=chart.ward.local(on_since), days=policy.longest_wear.days)


def early_look(chart: Chart, now: datetime, policy: Policy) -> Reason | None:
    """In the first hours after any stoma was formed the colour is looked at each time."""
    formed = [stoma.formed_at or chart.surgery_at for stoma in chart.stomas]
    early = any(at is not None and at <= now <= at + policy.early_look for at in formed)
    return Reason("early-look", hours=policy.early_look // timedelta(hours=1)) if early else None


def supplies(days: int | None, kit: Kit | None, still_changing: bool, policy: Policy) -> Supplies:
    """Days until the first delivery (None: nobody has said) / wear, rounded up, plus spares.

    Wear is the agreed interval, never over the longest wear; where none is agreed the shortest usual one, so that
    there is rather too much. Raises ValueError for a negative number of days.
    """
    if days is not None and days < 0:
        raise ValueError("Days until delivery cannot be negative; count them from the day of leaving.")
    wanted = policy.supplies_days if days is None else timedelta(days=days)
    span = min(wanted, policy.supplies_cap) if still_changing else wanted
    pouches = -(-span // worn_for(kit, policy))
    return Supplies(pouches + policy.supplies_spares, span.days, policy.supplies_spares, span < wanted)


def kit_against_plan(policy: Policy) -> int:
    """Days of kit that somebody who leaves against the plan takes along; less is said, and the rest is sent."""
    return policy.early_kit.days


def worn_for(kit: Kit | None, policy: Policy) -> timedelta:
    """How long one is counted on: the agreed interval, the shortest usual one where none is, never over the longest."""
    agreed = timedelta(hours=kit.interval_hours) if kit and kit.interval_hours else policy.interval_least
    return min(agreed, policy.longest_wear)


def _span(ends: tuple[float, float]) -> str:
    least, most = ends
    return f"{mm(least)} to {mm(most)} mm"


def mm(length: float) -> str:
    """32 as "32", 32.5 as "32.5"."""
    return f"{length:g}"
