"""Topics told anew: each answer as it was signed. What this form does not ask for is kept as it was."""

from dataclasses import replace

from teaching.bedside.recorder_initial import entry_of, main_of
from teaching.bedside.times import ended_again, exactly
from teaching.bedside.topics_form import TopicsForm
from teaching.record.entries import RatingEntry, SessionEntry
from teaching.rules.facts import Chart


class TopicsAgain(TopicsForm):
    """Asks for the topics that applied then. `carried` are ratings that no field here holds."""

    def __init__(self, data, *, account, chart: Chart, person: str):
        self.account, ratings = account, list(account.ratings.select_related("learner"))
        main = main_of(ratings)
        own = {one.code: one for one in ratings if str(one.learner.uid) == main}
        said = {f"topic.{code}": one.answer for code, one in own.items()}
        said |= {"which": f"{account.event.stoma.uid}:{main}", "at": account.began_at}
        said["interpreter"] = account.interpreter
        super().__init__(
            data, initial=said, stay=account.stay, chart=chart, now=account.began_at, person=person
        )  # fmt: skip
        self.stored = {code: entry_of(one) for code, one in own.items()}
        asked = {item.code for item in self.items}
        self.carried = tuple(entry_of(one) for one in ratings if one not in own.values() or one.code not in asked)

    def entry(self, role: str) -> SessionEntry:
        entry, account = super().entry(role), self.account
        began = exactly(entry.began_at, account.began_at)
        return replace(
            entry, began_at=began, ended_at=ended_again(account, began), place=account.place,
            language=account.language, ended_how=account.ended_how,
            ratings=(*(self._kept(one) for one in entry.ratings), *self.carried),
        )  # fmt: skip

    def _kept(self, one: RatingEntry) -> RatingEntry:
        """A note and how it was said stay with their row."""
        before = self.stored.get(one.code)
        return replace(before, learner=one.learner, answer=one.answer) if before else one
