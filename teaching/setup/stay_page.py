"""A stay being set up, as its page says it: what stands, and the one next action."""

from dataclasses import dataclass
from functools import cached_property

from django.urls import reverse

from teaching.record.stays import language_of, may_follow
from teaching.rules import vocabulary as words
from teaching.rules.handover.helper_hours import week_words
from teaching.rules.spoken import LANGUAGES
from teaching.setup.whereabouts_forms import ACTS


@dataclass(frozen=True)
class Act:
    """A button: what it says and where it leads."""

    words: str
    address: str


@dataclass(frozen=True)
class StomaLine:
    stoma: object
    kit: object | None

    @property
    def says(self) -> str:
        stoma = self.stoma
        built, kind = words.CONSTRUCTIONS[stoma.construction], words.STOMA_KINDS[stoma.kind]
        return f"{built[:1].upper()}{built[1:]} {kind}, {words.SIDES[stoma.side]}"

    @property
    def wears(self) -> str:
        kit = self.kit
        if kit is None:
            return "What it wears is not written down yet."
        parts = [
            f"{words.PIECES[kit.pieces]} {words.CLOSURES[kit.closure]} pouch",
            f"{words.SHAPES[kit.shape]}, {words.OPENINGS[kit.opening]}",
            *([words.OUTLETS[kit.outlet]] if kit.outlet else []),
            *(words.KIT_ITEMS[item] for item in kit.items),
        ]
        due = (
            f"Change every {kit.interval_hours} h."
            if kit.interval_hours
            else "Nobody has said when a change is due."
        )
        said = "; ".join(parts)
        return f"{said[:1].upper()}{said[1:]}. {due}"

    @property
    def fit(self) -> Act:
        said = "Write down what it wears" if self.kit is None else "It wears something else now"
        return Act(said, reverse("fit-kit", kwargs={"stoma": self.stoma.uid}))


@dataclass(frozen=True)
class HelperLine:
    learner: object
    person: bool | None
    helper: bool | None
    there: str = ""

    @property
    def may_learn(self) -> bool:
        return bool(self.person and self.helper)

    @property
    def hours(self) -> Act:
        return Act("Hours they are there", reverse("helper-hours", args=[self.learner.uid]))

    @property
    def needs(self) -> Act:
        return needs_of(self.learner)

    @property
    def consents(self) -> list[tuple[str, Act]]:
        """Who said what, and the act that says otherwise."""
        return [
            self._consent("person", "The person", self.person),
            self._consent("helper", "The helper", self.helper),
        ]

    def _consent(self, whose: str, who: str, yes: bool | None) -> tuple[str, Act]:
        said = {
            True: f"{who} said yes.",
            False: f"{who} took the yes back.",
            None: f"{who} has not been asked.",
        }[yes]
        answer = "no" if yes else "yes"
        named = {"learner": self.learner.uid, "whose": whose, "answer": answer}
        return said, Act(
            "Take the yes back" if yes else "Write down their yes", reverse("record-consent", kwargs=named)
        )


def _there(learner) -> str:
    """When a helper is there, in words; "" while nobody has said."""
    newest = max(learner.hours.all(), key=lambda each: each.number, default=None)
    if newest is None:
        return ""
    lives = "Lives there too. " if newest.lives_in else ""
    return f"{lives}There {week_words(newest.week)}." + (" With exceptions." if newest.exceptions else "")


def needs_of(learner) -> Act:
    return Act("What makes learning harder", reverse("learning-needs", args=[learner.uid]))


class StayPage:
    """Six queries, however much is written down."""

    def __init__(self, stay) -> None:
        self.stay, self.now = stay, stay.now

    @cached_property
    def stomas(self) -> list[StomaLine]:
        found = self.stay.stomas.prefetch_related("kits").order_by("pk")
        newest = {stoma: max(stoma.kits.all(), key=lambda kit: kit.number, default=None) for stoma in found}
        return [StomaLine(stoma, kit) for stoma, kit in newest.items()]

    @cached_property
    def learners(self) -> list:
        return list(self.stay.learners.prefetch_related("consents", "hours").order_by("pk"))

    @property
    def persons_needs(self) -> Act:
        return needs_of(next(each for each in self.learners if each.kind == "person"))

    @cached_property
    def language(self) -> str:
        return LANGUAGES.get(language_of(self.stay), LANGUAGES["other"])

    @property
    def taught_in(self) -> Act:
        return Act("Teach in another language", self._here("taught-in"))

    @property
    def state(self) -> str:
        """Where the stay stands, in a sentence."""
        return f"{words.STAY_EVENTS[self.now.state].capitalize()}, on {self.now.unit.name}."

    @property
    def becomes(self) -> list[Act]:
        """What may follow, in the order it usually comes."""
        follow = may_follow(self.now.state)
        return [
            Act(said, reverse("stay-event", args=[self.stay.uid, kind]))
            for kind, (said, *_) in ACTS.items()
            if kind in follow
        ]

    @property
    def planned(self) -> Act:
        return Act("The planned day home", self._here("planned-home"))

    @cached_property
    def helpers(self) -> list[HelperLine]:
        lines = []
        for learner in self.learners:
            if learner.kind != "helper":
                continue
            said = {
                each.whose: each.yes for each in sorted(learner.consents.all(), key=lambda each: each.number)
            }
            lines.append(HelperLine(learner, said.get("person"), said.get("helper"), _there(learner)))
        return lines

    @property
    def add_stoma(self) -> Act:
        return Act("Write down the stoma" if not self.stomas else "A second stoma", self._here("add-stoma"))

    @property
    def add_helper(self) -> Act:
        return Act("Add a helper", self._here("add-helper"))

    @property
    def next(self) -> Act:
        """The one thing to do now: stoma, then what it wears, then on to the person."""
        if not self.stomas:
            return self.add_stoma
        bare = [line.fit for line in self.stomas if line.kit is None]
        return bare[0] if bare else Act("Done: on to this person", self._here("person"))

    def _here(self, name: str) -> str:
        return reverse(name, kwargs={"stay": self.stay.uid})
