"""The size page: one opening at its true size, to lay on the backing and trace. It holds for a few days only."""

from dataclasses import dataclass
from datetime import datetime

from teaching.papers.dated import weekday
from teaching.papers.outline import LEAST, MOST
from teaching.papers.readiness_record import Person
from teaching.rules.checklist import kit_at, states_at
from teaching.rules.facts import Chart, Stoma
from teaching.rules.fit import mm, opening, sizes, worked_out
from teaching.rules.lines import Policy
from teaching.rules.vocabulary import STOMA_KINDS


@dataclass(frozen=True, slots=True)
class SizePage:
    """`wide` and `high` of the opening to cut, in mm; the days in words."""

    person: Person
    stoma: str
    wide: float
    high: float
    measured: str
    until: str
    made_by: str
    made_at: str

    @property
    def cut(self) -> str:
        return f"{mm(self.wide)} mm wide and {mm(self.high)} mm high"


def no_size_page(chart: Chart, stoma: Stoma, policy: Policy, now: datetime) -> str:
    """Why none can be drawn for this stoma, in a sentence; "" where one can."""
    kit, known = kit_at(chart, stoma.key, now), sizes(chart, stoma.key, now)
    if kit is None:
        return "No kit is written down, so nobody knows whether a hole is cut."
    if kit.opening != "cut":
        return "The hole of this flange is not cut at home, so there is nothing to trace."
    edges = [one for one in chart.findings if one.stoma == stoma.key and one.at <= now and one.edge]
    edge = max(edges, key=lambda one: one.at).edge if edges else ""
    if not worked_out(kit, states_at(chart, stoma.key, now), edge):
        return "With a rod, or a gap at the edge, the hole does not follow from the size."
    cut = opening(known[-1], policy) if known else None
    if cut is None:
        return "Not measured on both axes yet: measure across, and up and down, at the next change."
    if now > known[-1].at + policy.remeasure:
        return f"Measured more than {policy.remeasure.days} days ago: measure again first."
    wide, high = cut.across[0], cut.up_and_down[0]
    if kit.cut_limit_mm is not None and max(wide, high) > kit.cut_limit_mm:
        return f"The hole would pass the {mm(kit.cut_limit_mm)} mm to which this flange can be cut: it needs another."
    if not all(LEAST <= length <= MOST for length in (wide, high)):
        return f"A hole of {mm(wide)} by {mm(high)} mm cannot be drawn: check the size that was written down."
    return ""


def size_page(
    chart: Chart, stoma: Stoma, policy: Policy, now: datetime, *, person: Person, made_by: str, made_at: str
) -> SizePage:
    """Ask `no_size_page` first. The least opening is drawn: a hole can be cut wider, never smaller."""
    size = sizes(chart, stoma.key, now)[-1]
    cut = opening(size, policy)
    assert cut is not None
    kind = STOMA_KINDS[stoma.kind]
    name = f"{stoma.label} stoma ({kind})" if len(chart.stomas) > 1 else kind
    return SizePage(
        person, name, cut.across[0], cut.up_and_down[0], weekday(chart.ward.date(size.at)),
        weekday(chart.ward.date(size.at + policy.remeasure)), made_by, made_at,
    )  # fmt: skip
