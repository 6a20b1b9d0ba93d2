"""Runs of lessons that several stories share: somebody who learns all of it, or what must be known."""

from teaching.management.demo.story import Cared, Moment, Taught

WELL = {"colour": "pink-red", "wet": "wet", "edge": "joined", "stands": "well"}
SOUND = {"head": "good", "own-left": "good", "feet": "good", "own-right": "good"}


def seen(across: int, down: int, end: str = "planned", **more: object) -> dict[str, object]:
    """A finding at a change: the size in mm, sound skin all round, and how the last pouch ended."""
    opening = {"opening_width_mm": across + 3, "opening_height_mm": down + 3}
    return WELL | {"width_mm": across, "height_mm": down, "skin": SOUND, "wear_end": end} | opening | more


def explained(first: int, second: int, helper: bool = False) -> tuple[Moment, ...]:
    """Every topic that must be known: told, and on a later day said back in own words. Days from today."""
    return (
        Taught(at=f"{first} 14:00", by="sorrel", procedure="topics", level="told", helper=helper, minutes=20),
        Taught(at=f"{second} 14:30", by="amber", procedure="topics", level="own_words", helper=helper, minutes=15),
    )


def changes(first: int, second: int, third: int, helper: bool = False, size: int = 34) -> tuple[Moment, ...]:
    """A change with help, then two alone before two nurses; the stoma shrinks a little from one to the next."""
    return (
        Taught(
            at=f"{first} 10:00", by="sorrel", procedure="change", level="03", helper=helper, minutes=35,
            rows={"prepare": "04", "put-on": "03", "measure": "02", "cut": "01"},
            finding=seen(size, size - 3, noticed_by="nurse"),
        ),
        Taught(
            at=f"{second} 10:20", by="amber", procedure="change", helper=helper, minutes=30,
            finding=seen(size - 2, size - 4, noticed_by="learner"),
        ),
        Taught(
            at=f"{third} 09:40", by="sorrel", procedure="change", helper=helper, minutes=25,
            finding=seen(size - 3, size - 4, noticed_by="learner"),
        ),
    )  # fmt: skip


def nurses_change(day: int, clock: str = "10:00", by: str = "amber", size: int = 32, stoma: str = "") -> Cared:
    return Cared(at=f"{day} {clock}", by=by, stoma=stoma, finding=seen(size, size - 2))
