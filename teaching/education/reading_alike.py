"""What a nurse's own page says of the sessions rated together with a holder: offered, never a verdict."""

from collections.abc import Collection, Sequence
from datetime import datetime

from teaching.analysis.learning_curve import CLEAN_SESSIONS, Pair, curve, read_alike, sessions_to_false_alarm
from teaching.rules.competence import spoken_day
from teaching.rules.ward import Ward


def reading_alike(
    sessions: Sequence[tuple[datetime, Sequence[Pair]]], required: Collection[str], ward: Ward
) -> list[str]:
    """Sentences; none where nothing was rated together yet. `sessions` oldest first, `required` rows by code."""
    judged = [(at, alike) for at, pairs in sessions if (alike := read_alike(pairs, required)) is not None]
    if not judged:
        return []
    found = curve([alike for _, alike in judged])
    said = [f"Rated together with somebody signed off: {_count(found.sessions)}, {found.alike} read alike."]
    if found.shown_at is None:
        said.append(f"Not shown yet that both read the levels alike: about {CLEAN_SESSIONS} alike in a row show it.")
    elif found.drift:
        said.append("Lately read differently more often than chance would have it. Rate together again.")
    else:
        said.append(f"Both read the levels alike: shown on {spoken_day(judged[found.shown_at][0], ward)}.")
    often = round(sessions_to_false_alarm(), -1)
    said.append(f"By chance alone this would call for rating together again about once in {often} sessions.")
    return said


def _count(sessions: int) -> str:
    return "1 session" if sessions == 1 else f"{sessions} sessions"
