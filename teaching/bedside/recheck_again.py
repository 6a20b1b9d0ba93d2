"""A recheck told anew: who it was, and when. Another procedure or stoma is another event."""

from dataclasses import replace

from teaching.bedside.recheck_form import RecheckForm, held_here, named
from teaching.bedside.times import exactly
from teaching.record.entries import RecheckEntry
from teaching.rules.assess import assess
from teaching.rules.facts import Chart
from teaching.rules.policy import Policy


class RecheckAgain(RecheckForm):
    """Offers whom it was signed of, and whoever held something of this procedure when it was seen.

    `chart` is without the recheck itself. What was taken back since may leave nothing held.
    """

    def __init__(self, data, *, account, chart: Chart, policy: Policy, person: str):
        self.account, event = account, account.event
        then = assess(chart, policy, account.began_at)
        held = [
            one for one in held_here(chart, then, person)
            if (one.procedure, one.stoma) == (event.procedure, str(event.stoma.uid))
        ]  # fmt: skip
        learner = account.ratings.select_related("learner").first().learner
        signed = named(chart, event.procedure, str(event.stoma.uid), str(learner.uid), person)
        if signed.value not in [one.value for one in held]:
            held.insert(0, signed)
        said = {"which": signed.value, "at": account.began_at}
        super().__init__(
            data, initial=said, stay=account.stay, held=held, zone=chart.ward.zone, now=account.began_at
        )  # fmt: skip

    def entry(self) -> RecheckEntry:
        entry = super().entry()
        return replace(entry, at=exactly(entry.at, self.account.began_at))
