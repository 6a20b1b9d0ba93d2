"""Heron Ward, first six: how showing alone adds up, is lost, and is lent."""

from teaching.management.demo.courses import WELL, changes, explained, seen
from teaching.management.demo.going_home import LEAK_SERVICE, all_in_place
from teaching.management.demo.story import (
    Arranged,
    Body,
    Booked,
    Cared,
    Output,
    Pouch,
    Rechecked,
    Refitted,
    Stoma,
    Story,
    Taught,
    Visited,
)

ILEOSTOMY = Stoma("ileostomy", "loop", "right")
COLOSTOMY = Stoma("colostomy", "end", "left", Pouch(pieces="one", interval_hours=48))

PLANNED = WELL | {"wear_end": "planned"}

STORIES = (
    Story(
        shows="Quick to learn: emptying, change and topics alone on separate days, all arranged, so self-caring.",
        given="Ada", family="Fernhollow", born="1968-03-02", bed="A1",
        surgery="-8 10:00", leaves="+1 12:00",
        stomas=(ILEOSTOMY,),
        moments=(
            Body(at="-8 18:00", by="amber", code="measured"),
            Taught(at="-7 11:20", by="sorrel", level="03", rows={"em-note": "03"}, place="bed"),
            Taught(at="-6 16:05", by="amber", level="04", rows={"em-open": "06", "em-note": "04"}),
            Output(at="-5 07:00", by="nadia", ml=980),
            *changes(-6, -4, -1, size=36),
            Output(at="-3 07:00", by="nadia", ml=860),
            *explained(-5, -2),
            Taught(at="-2 15:10", by="amber", rows={"em-note": "06"}, minutes=6),
            Output(at="-1 07:00", by="nadia", ml=790),
            Taught(at="-1 16:30", by="sorrel", rows={"em-note": "06"}, minutes=5),
        ),
        home=(*all_in_place(1), LEAK_SERVICE),
    ),
    Story(
        shows="Shown once alone: one more, in another shift, makes two.",
        given="Bram", family="Quillfeather", born="1955-11-19", bed="A2",
        surgery="-4 09:00", leaves="+3 12:00",
        stomas=(COLOSTOMY,),
        needs=("reading",),
        moments=(
            Cared(at="-3 10:00", by="nadia", procedure="emptying"),
            Taught(at="-2 10:40", by="basil", level="03", rows={"em-hands": "06"}, place="chair"),
            Taught(
                at="-2 11:00", by="amber", procedure="change", level="04", place="chair", minutes=30,
                rows={"prepare": "06", "fit-protect": "02", "press": "03"}, finding=seen(38, 35),
                beside="sorrel", beside_rows={"measure": "03", "centre": "03"},
            ),
            Taught(
                at="-1 11:30", by="sorrel", procedure="topics", level="told", minutes=15,
            ),
            Taught(at="-1 16:00", by="basil"),
        ),
        home=(
            Booked(at="+1 11:00", teacher="amber", aim="measure and cut"),
            Arranged(code="supplies", state="asked"),
        ),
    ),
    Story(
        shows="Slipped: was alone twice, then needed a cue to shut the outlet; one right since.",
        given="Cora", family="Larkmead", born="1949-06-27", bed="A3",
        surgery="-6 13:00", leaves="+6 12:00",
        stomas=(ILEOSTOMY,),
        moments=(
            Taught(
                at="-4 15:00", by="amber", procedure="change", level="03", minutes=40, place="bed",
                rows={"cut": "01"}, finding=seen(36, 34),
            ),
            Taught(at="-4 12:00", by="amber"),
            Taught(at="-3 10:15", by="sorrel"),
            Cared(at="-3 10:40", by="sorrel", finding=PLANNED | {"width_mm": 34, "height_mm": 30}),
            Taught(
                at="-2 20:30", by="basil", rows={"em-close": "06"}, corrected={"em-close": "04"},
                why="I had to say which way the strip folds; I wrote alone.",
            ),
            Taught(at="-1 11:00", by="amber"),
        ),
    ),
    Story(
        shows="Another outlet: the wipe and the closing are asked for again, the rest stands.",
        given="Dov", family="Appleyard", born="1972-01-14", bed="A4",
        surgery="-7 08:30", leaves="+1 12:00",
        stomas=(ILEOSTOMY,),
        moments=(
            Taught(at="-4 10:00", by="sorrel", level="04", rows={"em-hands": "06"}),
            Taught(at="-3 15:00", by="amber"),
            Taught(at="-2 09:45", by="sorrel"),
            Rechecked(at="-1 08:10", by="basil"),
            Refitted(at="-1 10:00", by="sorrel", pouch=Pouch(outlet="clip")),
            Cared(at="-1 10:05", by="sorrel", finding={"wear_end": "itch", "width_mm": 29, "height_mm": 28}),
        ),
    ),
    Story(
        shows="A urostomy with a night bag: the tap is learned, the night bag once more; stents are still in.",
        given="Esi", family="Winterbourne", born="1961-08-08", bed="B1",
        surgery="-6 09:30", leaves="+3 12:00",
        stomas=(Stoma("urostomy", "end", "right", Pouch(outlet="tap", items=("night-bag",))),),
        moments=(
            Body(at="-6 16:00", by="amber", code="stents"),
            Taught(at="-3 11:00", by="sorrel", procedure="urine", level="04", rows={"ue-look": "06"}),
            Taught(at="-2 14:00", by="amber", procedure="urine", rows={"ue-shut": "04"}),
            Cared(at="-2 15:00", by="amber", finding=PLANNED | {"stents": 2, "width_mm": 28, "height_mm": 26}),
            Taught(at="-2 21:15", by="nadia", procedure="night", level="04", rows={"nd-choice": "right"}),
            Taught(at="-1 09:00", by="sorrel", procedure="urine"),
            Taught(at="-1 17:30", by="basil", procedure="urine"),
            Taught(at="-1 21:10", by="nadia", procedure="night", rows={"nd-part": "04"}),
        ),
        home=(
            *all_in_place(3, codes="pouch 000-11, flange 000-21 (made up)", size="30 by 28 mm")[:2],
            Arranged(code="stents-out", due="+9 10:00", details={"place": "Clinic (made up)"}),
            Visited(at="+4 10:00"),
        ),
    ),
    Story(
        shows="The first day: nothing shown yet, and that is not a failure.",
        given="Finn", family="Saltmarsh", born="1983-04-30", bed="B2",
        surgery="-1 11:00", leaves="+5 12:00",
        stomas=(ILEOSTOMY,),
        moments=(Cared(at="-1 20:00", by="nadia", procedure="emptying", finding=WELL),),
    ),
)  # fmt: skip
