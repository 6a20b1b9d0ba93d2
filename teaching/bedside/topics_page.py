"""What the page of topics shows: what still wants telling first, the rest folded, each with where it stands."""

from teaching.bedside.note_page import NotePage
from teaching.bedside.topics_form import TopicsForm, stands_at

SAYS = "Ask them to say it back in their own words another time: what is said back at once is an echo."


class TopicsPage(NotePage):
    """`topics` are (item, field, where each learner stands): what still wants telling first, the rest folded."""

    def __init__(self, *args, form: TopicsForm, found, person: str, **kwargs) -> None:
        super().__init__(*args, says=(SAYS,), **kwargs)
        stands = stands_at(form.chart, found, person)
        wanting = {
            one.row.item.code for one in found.standings
            if one.row.item.procedure == "topics" and one.row.essential and not one.held
        }  # fmt: skip
        rows = [(item, form[f"topic.{item.code}"], stands.get(item.code, ())) for item in form.items]
        self.topics = [row for row in rows if row[0].code in wanting]
        self.others = [row for row in rows if row[0].code not in wanting]

    @property
    def others_open(self) -> bool:
        """Asked late: a view may add a field to the form before it is looked over."""
        return any(field.errors or field.value() for _, field, _ in self.others)
