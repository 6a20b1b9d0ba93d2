"""Hard moments while teaching, and what helps: short advice beside the checklist, never a diagnosis.

Each line is common practice of the trade without a source, unless its source says otherwise. Local policy wins.
"""

from dataclasses import dataclass

NO_SOURCE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class HardMoment:
    """`procedures`: where it is shown. `class_` as in the policy: P, M, C or D."""

    code: str
    title: str
    do: tuple[str, ...]
    procedures: frozenset[str]
    source: str = NO_SOURCE
    class_: str = "C"


MEETING, CHANGING = frozenset({"meeting", "change", "swap"}), frozenset({"change", "swap"})

HARD_MOMENTS = (
    HardMoment(
        "wont-look",
        "They will not look",
        (
            "Sit down beside them. Cover the stoma and let it be for now.",
            "Say that many people feel this way, and that there is no hurry.",
            "Hand them something that asks for no looking: open a spare pouch, hold the wipes.",
            "Offer the mirror, or ask whether somebody of theirs should look first.",
            "If they never look, tell the stoma nurse today.",
        ),
        MEETING,
    ),
    HardMoment(
        "cries",
        "They cry",
        (
            "Stop with your hands. Cover the stoma, sit, stay.",
            "Let it be quiet. You need not mend anything.",
            'Ask: "What is the hardest part just now?" Listen to the answer.',
            "Ask whether to go on, to let you finish, or to stop here. Each is all right.",
            "Very low, or saying that life is not worth it: tell the team today and do not leave it unsaid.",
        ),
        MEETING,
    ),
    HardMoment(
        "helper-faints",
        "The helper turns pale or faints",
        (
            "The helper first: down on the floor or a chair with the head low, and call a colleague.",
            "Somebody keeps a tissue over the stoma. The change can wait.",
            "Not quickly themselves again, or hurt in the fall: call for help as for any visitor.",
            "Another time let them sit from the start, and begin with a spare pouch.",
        ),
        MEETING,
    ),
    HardMoment(
        "spurts",
        "The stoma works in the middle of it",
        (
            "This is normal. Say so, and say it was bound to happen once.",
            "Tissue over it, gently, and wait. It usually stops in a minute or two.",
            "Wipe, dry the skin again, then go on. A flange on damp skin will not hold.",
            "Next time choose a quiet hour, before food or well after it, and keep more tissue in reach.",
        ),
        CHANGING,
        source="MedlinePlus; American Cancer Society: keep tissue to hand, choose the time; waiting: " + NO_SOURCE,
    ),
    HardMoment(
        "wont-stick",
        "The pouch will not stick",
        (
            "Take it off and start again with a new one. Taping it down hides a leak.",
            "Look at the skin: damp, or a film of cream, oil, remover or powder? Wash with water and dry well.",
            "Look at the fold: sit or lie back so that it is flat, then warm it under the hand for longer.",
            "Look at the opening: too large leaves skin bare, too small lifts on the stoma.",
            "It lifts again: tell the stoma nurse today.",
        ),
        CHANGING,
        source="never tape over a leak: MedlinePlus; the rest: " + NO_SOURCE,
    ),
)


def hard_moments(procedures: frozenset[str]) -> tuple[HardMoment, ...]:
    """Those that may come up while any of these is taught."""
    return tuple(moment for moment in HARD_MOMENTS if moment.procedures & procedures)
