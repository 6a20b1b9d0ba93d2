"""Looking at the stoma and the skin (I13): a helper who sees, has agreed and was taught what to look for may do it."""

from teaching.rules.facts import Item
from teaching.rules.reasons import Reason
from teaching.rules.reopening import ATTEMPTED, LOOKING
from teaching.rules.scene import Scene
from teaching.rules.topics import NOT_YET, TALK

WHAT_TO_LOOK_FOR = "t-signs"


def cannot_see(scene: Scene) -> bool:
    lost = any(event.code == "sight-loss" for event in scene.states)
    return "sight" in scene.learner.needs or (lost and scene.learner.kind == "person")


def may_look(scene: Scene, item: Item) -> bool:
    """No 06 is asked of a looking row where a helper may do it in the person's place."""
    return item.looking and scene.learner.kind == "helper" and not wanting_to_look(scene, item)


def wanting_to_look(scene: Scene, item: Item) -> list[Reason]:
    """What keeps this learner from looking; for a helper also yes from both and the teaching."""
    if cannot_see(scene):
        return [Reason("cannot-see")]
    if scene.learner.kind == "person":
        return []
    found = []
    if not scene.agreed:
        found.append(Reason("look-agree"))
    if not _taught(scene, item):
        found.append(Reason("look-teach"))
    return found


def _taught(scene: Scene, item: Item) -> bool:
    """Told what to look for, or taught by doing it, since the last finding they missed."""
    missed = max((ask.at for ask in scene.asks if ask.touches == LOOKING), default=None)
    talk = [entry for entry in scene.seen(WHAT_TO_LOOK_FOR) if entry.answer in TALK]
    told = talk[-1:] if talk and talk[-1].answer != NOT_YET else []
    tried = [entry for entry in scene.seen(item.code) if entry.answer in ATTEMPTED]
    return any(missed is None or entry.at > missed for entry in (*told, *tried))
