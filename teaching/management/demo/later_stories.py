"""Heron Ward, later beds and two who have left: powder, refusing, alarm, language, a facility, calls home."""

from teaching.management.demo.courses import changes, explained, nurses_change, seen
from teaching.management.demo.going_home import LEAK_SERVICE, all_in_place
from teaching.management.demo.stories import COLOSTOMY, ILEOSTOMY
from teaching.management.demo.story import (
    Arranged,
    Body,
    Booked,
    Cared,
    Cautioned,
    Helper,
    Left,
    Pouch,
    Rang,
    Silent,
    Stoma,
    Story,
    Taught,
)

WITH_POWDER = Stoma("ileostomy", "end", "right", Pouch(items=("remover", "powder")))
THERE = {"accepted_by": "Senna Holt", "is_nurse": True, "emptying": True, "leaks": True, "changes": True,
         "day_and_night": True, "name": "Larch House (made up)"}  # fmt: skip
CODES = "pouch 000-10, remover 000-40 (made up)"

LATER_STORIES = (
    Story(
        shows="Powder put on sound skin, wrongly; judged rightly at the two changes since.",
        given="Petra", family="Birchwell", born="1959-04-18", bed="D1",
        surgery="-8 12:00", leaves="+4 12:00",
        stomas=(WITH_POWDER,),
        moments=(
            Taught(at="-5 16:00", by="basil"),
            Taught(
                at="-5 11:00", by="basil", procedure="change", level="04", minutes=30,
                rows={"fit-protect": "03", "powder": "wrong"}, finding=seen(33, 30, powder_where="feet"),
            ),
            Taught(
                at="-3 11:15", by="amber", procedure="change", rows={"powder": "not_needed", "press": "04"},
                minutes=25, finding=seen(31, 29),
            ),
            Taught(at="-2 15:30", by="amber", procedure="topics", level="told", minutes=20),
            Taught(at="-2 20:00", by="amber"),
            Taught(
                at="-1 11:10", by="sorrel", procedure="change", rows={"powder": "not_needed"}, minutes=25,
                finding=seen(30, 28),
            ),
            Taught(at="-1 18:00", by="basil"),
        ),
        home=(*all_in_place(4)[:2], Booked(at="+2 10:00", teacher="amber", aim="one more change alone")),
    ),
    Story(
        shows="Declined twice; the daughter holds all of it, but nobody has asked her hours: cannot say.",
        given="Quentin", family="Foxcombe", born="1938-10-30", bed="D2",
        surgery="-9 09:00", leaves="+3 12:00",
        stomas=(COLOSTOMY,),
        helper=Helper("Quilla Foxcombe", "daughter", agreed="-7 10:00"),
        moments=(
            Taught(at="-7 10:30", by="sorrel", level="07", place="bed", minutes=5),
            Taught(at="-6 15:00", by="amber", level="07", place="bed", minutes=5),
            *changes(-6, -3, -1, helper=True, size=39),
            *explained(-5, -3, helper=True),
            Taught(at="-4 11:00", by="amber", level="04", helper=True),
            Taught(at="-2 10:40", by="sorrel", helper=True),
            Taught(at="-1 15:40", by="amber", helper=True),
        ),
        home=(*all_in_place(3), LEAK_SERVICE),
    ),
    Story(
        shows="A call-now sign found at the last look, not yet told to anybody.",
        given="Runa", family="Eastwater", born="1976-08-21", bed="D3",
        surgery="-2 14:00",
        stomas=(ILEOSTOMY,),
        moments=(
            Body(at="-2 20:00", by="nadia", code="measured"),
            Taught(at="-1 11:00", by="amber", level="02", rows={"em-note": "02"}, place="bed"),
            nurses_change(-1, "11:30", size=41),
            Silent(at="ago 0:40", by="nadia", since="ago 7:00"),
            Cautioned(at="ago 0:35", by="nadia", sign="silent-ileostomy"),
        ),
    ),
    Story(
        shows="Explained through a child of the family: does not count; then a lesson broken off.",
        given="Samira", family="Yarrowby", born="1981-01-09", bed="D4",
        surgery="-5 09:30", leaves="+5 12:00", language="pl",
        stomas=(ILEOSTOMY,),
        needs=("language", "interpreter"),
        moments=(
            Taught(at="-3 10:00", by="amber", level="03"),
            Taught(at="-3 15:00", by="basil", procedure="topics", level="told", interpreter="trained", minutes=25),
            nurses_change(-2, size=36),
            Taught(
                at="-2 16:30", by="basil", procedure="topics", level="own_words", interpreter="child", minutes=15
            ),
            Taught(at="-1 10:30", by="amber", level="04", interpreter="trained"),
            Taught(
                at="-1 17:00", by="basil", procedure="emptying", level="06", reported=True, interpreter="adult",
                minutes=5,
            ),
            Taught(
                at="-1 19:00", by="amber", procedure="change", level="", minutes=10, ended_how="broken-off",
                rows={"prepare": "04", "off-peel": "03"}, interpreter="trained",
            ),
        ),
        home=(
            Booked(at="-1 14:00", teacher="sorrel", state="missed", why="no interpreter came", interpreter=True),
            Booked(at="+1 10:00", teacher="sorrel", aim="take off, look, measure", interpreter=True),
        ),
    ),
    Story(
        shows="Goes to a care facility whose nurse has accepted the stoma's care: care arranged.",
        given="Tobias", family="Hazelmere", born="1935-05-14", bed="E1",
        surgery="-10 10:00", leaves="+3 14:00", goes_to="facility",
        stomas=(COLOSTOMY,),
        needs=("memory", "hand"),
        moments=(
            Taught(at="-7 10:00", by="sorrel", level="01", place="bed"),
            nurses_change(-6, size=42),
            Taught(at="-4 10:30", by="amber", level="02", place="chair"),
            nurses_change(-3, size=40),
            Taught(at="-1 10:00", by="basil", level="02", place="chair"),
            nurses_change(-1, "10:30", size=39),
        ),
        home=(Arranged(code="facility", details=THERE), *(each for each in all_in_place(3, codes=CODES, size="41 mm")
              if each.code not in ("number", "first-contact"))),
    ),
    Story(
        shows="Left two days ago with an ileostomy: the call home was tried once, nobody answered.",
        given="Una", family="Marlowfield", born="1973-11-02", bed="E2",
        surgery="-12 10:00", leaves="-2 12:00",
        stomas=(ILEOSTOMY,),
        moments=(
            *changes(-10, -7, -4),
            *explained(-9, -6),
            Taught(at="-4 15:00", by="amber"),
            Taught(at="-3 10:00", by="sorrel"),
            Left(at="-2 12:20", by="amber"),
            Rang(at="-1 14:00", by="sorrel"),
        ),
    ),
    Story(
        shows="Left yesterday: to be rung within three days.",
        given="Viggo", family="Thistledown", born="1951-07-07", bed="E3",
        surgery="-9 08:30", leaves="-1 12:00",
        stomas=(COLOSTOMY,),
        moments=(
            Taught(at="-6 10:00", by="amber", level="03"),
            Cared(at="-5 10:00", by="amber", finding=seen(37, 35)),
            Taught(at="-4 10:00", by="sorrel"),
            Taught(at="-3 15:00", by="basil"),
            nurses_change(-2, size=36),
            Left(at="-1 12:10", by="amber"),
        ),
    ),
)  # fmt: skip
