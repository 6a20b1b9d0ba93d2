"""What the page of topics shows first: what is this person's to ask back or to tell now. The rest stays folded."""

from datetime import datetime

from teaching.bedside.note_page import NotePage
from teaching.bedside.topics_form import TopicsForm, stands_at
from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart
from teaching.rules.reasons import words
from teaching.rules.standing import Standing
from teaching.rules.to_facility import asked_to_learn

SAYS = "Ask them to say it back in their own words another time: what is said back at once is an echo."


class TopicsPage(NotePage):
    """`topics` are (item, field, where each learner stands): what comes first, `others` the rest.

    `waits`: why nothing comes first, "" where nothing waits.
    """

    def __init__(self, *args, form: TopicsForm, found: Assessment, person: str, **kwargs) -> None:
        super().__init__(*args, says=(SAYS,), **kwargs)
        self.happened = "now"
        stands = stands_at(form.chart, found, person)
        self.waits = waiting(found)
        first = first_now(form.chart, found)
        rows = {item.code: (item, form[f"topic.{item.code}"], stands.get(item.code, ())) for item in form.items}
        self.topics = [rows[code] for code in first if code in rows]
        self.others = [row for code, row in rows.items() if code not in first]

    @property
    def others_open(self) -> bool:
        """Asked late: a view may add a field to the form before it is looked over."""
        return any(field.errors or field.value() for _, field, _ in self.others)


def waiting(found: Assessment) -> str:
    """Why nobody is taught now, in words; "" where somebody is."""
    return words(found.waits) if found.waits else ""


def first_now(chart: Chart, found: Assessment) -> list[str]:
    """The topics to begin with: told before and due to be asked back, then those of the hard minimum not told yet.

    Once these are told, the other essential ones. None while teaching waits; bound for a facility what is booked.
    """
    if found.waits:
        return []
    now = chart.ward.local(found.at)
    wanting = [
        one for one in found.standings
        if one.row.item.topic and one.row.essential and not one.held and asked_to_learn(chart, one, found.at)
    ]  # fmt: skip
    ask_back = [one.code for one in wanting if one.last and _due(one, now)]
    untold = [one for one in wanting if not one.last]
    must = [one.code for one in untold if one.row.item.hard_minimum]
    return list(dict.fromkeys([*ask_back, *(must or [one.code for one in untold])]))


def _due(one: Standing, now: datetime) -> bool:
    """Whether it may be said back by now: soon after the telling it would be an echo."""
    waits = [reason.parameters["since"] for reason in one.reasons if "since" in reason.parameters]
    return all(since <= now for since in waits)
