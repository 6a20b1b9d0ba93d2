"""After leaving: each try at a call, what was heard, and who came back and why. It adds nothing to independence."""

from collections.abc import Mapping
from datetime import datetime

from django.utils import timezone

from teaching.models import AfterHome, Stay
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.refusals import refuse
from teaching.record.writing import done, writing
from teaching.rules.vocabulary import AFTER_HOME, AFTER_HOME_ASKED


def record_after_home(
    *,
    actor: Actor,
    stay: Stay,
    kind: str,
    at: datetime,
    told: Mapping[str, str] | None = None,
    words: str = "",
) -> AfterHome:
    """A call that reached somebody, a try that did not, or a coming back (then `words` says why).

    `told` is {question: answer}, both words of vocabulary.AFTER_HOME_ASKED; what was not asked is left out.
    """
    clinician = somebody(actor)
    faults = Faults()
    faults.word("kind", kind, AFTER_HOME)
    faults.moment("at", at, timezone.now())
    faults.text("words", words, 500, "Why they came back" if kind == "came-back" else "")
    for question, answer in (told or {}).items():
        if question not in AFTER_HOME_ASKED:
            faults.word("told", question, AFTER_HOME_ASKED)
        else:
            faults.word(question, answer, AFTER_HOME_ASKED[question])
    if told and kind == "no-answer":
        faults.add("told", "Nobody answered, so nothing can have been heard; choose reached, or leave these open.")
    faults.stop()
    with writing(stay) as locked:
        assert locked is not None
        if locked.state != "left":
            refuse("kind", "The person has not left yet; note first that they have left.")
        made = AfterHome.objects.create(
            stay=stay, kind=kind, at=at, told=dict(told or {}), words=words.strip(), by=clinician
        )
        done(actor, "record_after_home", made, stay=stay, unit=locked.unit)
    return made
