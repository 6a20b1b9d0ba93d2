"""What a story has arranged for home: each item becomes a verb, after everything that happened on the ward."""

from teaching.management.demo import story
from teaching.management.demo.scene import Scene
from teaching.record import arrangements
from teaching.record.actor import Actor


def arrange_home(scene: Scene, planner: Actor, nurse: Actor, told: story.Story) -> None:
    """The planner arranges and asks for visits; a nurse books times for teaching."""
    for each in told.home:
        if isinstance(each, story.Arranged):
            arrangements.make_arrangement(
                actor=planner, stay=scene.stay, code=each.code, state=each.state, details=each.details,
                due_at=scene.at(each.due) if each.due else None,
            )  # fmt: skip
        elif isinstance(each, story.Visited):
            arrangements.arrange_visit(
                actor=planner, stay=scene.stay, at=scene.at(each.at), for_change=each.for_change,
                state="made" if each.accepted_by else "asked", accepted_by=each.accepted_by,
                service="District nurses (made up)",
            )  # fmt: skip
        else:
            book(scene, nurse, each)


def book(scene: Scene, nurse: Actor, each: story.Booked) -> None:
    learners = [scene.person, *([scene.helper] if each.helper and scene.helper else [])]
    arrangements.book_teaching(
        actor=nurse, stay=scene.stay, at=scene.at(each.at), learners=learners, procedure=each.procedure,
        teacher=scene.actors[each.teacher].clinician, interpreter=each.interpreter, aim=each.aim,
        state=each.state, why=each.why,
    )  # fmt: skip


def all_in_place(leaves: int, language: str = "English", codes: str = "", size: str = "") -> tuple[story.Arranged, ...]:
    """What everybody who goes home needs, for a leaving in so many days; codes and size of the kit where written."""
    number = {"phone": "00000 000 200", "day_and_night": True}
    kit: dict[str, object] = {"days": 14, "prescription": True, "lead_days": 5}
    kit |= {name: words for name, words in (("codes", codes), ("size", size)) if words}
    return (
        story.Arranged(code="supplies", due=f"+{leaves + 10} 10:00", details=kit),
        story.Arranged(code="number", details=number),
        story.Arranged(code="first-contact", due=f"+{leaves + 2} 10:00", details={"by": "Stoma nurses (made up)"}),
        story.Arranged(code="sheet", details={"language": language, "theirs": True}),
        story.Arranged(code="follow-up", due=f"+{leaves + 14} 09:30", details={"place": "Stoma clinic (made up)"}),
        story.Arranged(code="pharmacist", details={"by": "Ivo Stone"}),
    )


LEAK_SERVICE = story.Arranged(
    code="leak-service",
    details={"answers_hours": 4, "day_and_night": True, "weekends": True, "phone": "00000 000 300"},
)
