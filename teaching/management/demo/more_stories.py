"""Heron Ward, the rest, and one person elsewhere: a helper, cautions, two stomas, work not yet signed."""

from teaching.management.demo.cast import WREN
from teaching.management.demo.courses import WELL, changes, explained, nurses_change, seen
from teaching.management.demo.going_home import LEAK_SERVICE, all_in_place
from teaching.management.demo.stories import COLOSTOMY, ILEOSTOMY, PLANNED
from teaching.management.demo.story import (
    Arranged,
    Begun,
    Body,
    Cared,
    Cautioned,
    Helper,
    Output,
    Pouch,
    Stoma,
    Story,
    Taught,
    Visited,
)

MORE_STORIES = (
    Story(
        shows="A helper learns instead and is there all day and night: with a named helper.",
        given="Greta", family="Underhill", born="1941-12-05", bed="B3",
        surgery="-6 10:00", leaves="+2 12:00",
        stomas=(COLOSTOMY,),
        helper=Helper("Hugo Underhill", "husband", agreed="-5 10:00", lives_in=True, there=(0, 24)),
        needs=("hand",),
        moments=(
            Taught(at="-4 10:30", by="sorrel", level="01", place="bed"),
            *changes(-5, -3, -1, helper=True, size=40),
            *explained(-4, -2, helper=True),
            Taught(at="-3 17:00", by="amber", level="04", helper=True),
            Taught(at="-2 17:10", by="basil", helper=True),
            Taught(at="-1 10:30", by="sorrel", helper=True),
        ),
        home=(*all_in_place(2), LEAK_SERVICE),
    ),
    Story(
        shows="High output from an ileostomy: told, no answer written, so not settled, and no fluid plan yet.",
        given="Idris", family="Thornbury", born="1957-02-21", bed="B4",
        surgery="-5 12:30", leaves="+2 12:00",
        stomas=(ILEOSTOMY,),
        moments=(
            Body(at="-4 08:00", by="nadia", code="measured"),
            Cared(at="-3 11:40", by="amber", finding=PLANNED),
            Taught(at="-3 12:10", by="amber", level="04", rows={"em-note": "04"}),
            Output(at="-2 07:00", by="nadia", ml=1650),
            Taught(at="-2 12:00", by="amber", rows={"em-note": "04"}),
            Output(at="-1 07:00", by="nadia", ml=1900),
            Cautioned(
                at="-1 07:20", by="nadia", sign="output-today",
                told="-1 08:10", whom="Dr Nettle", look_again="+0 23:30",
            ),
        ),
        home=(Arranged(code="fluid-plan", state="asked"),),
    ),
    Story(
        shows="Two stomas: each has its own evidence; one never serves the other.",
        given="Juno", family="Ravenscar", born="1964-10-03", bed="C1",
        surgery="-8 09:00", leaves="+4 12:00",
        stomas=(
            Stoma("urostomy", "end", "right", Pouch(outlet="tap")),
            Stoma("colostomy", "end", "left", Pouch(interval_hours=60)),
        ),
        moments=(
            Taught(at="-3 11:00", by="sorrel", stoma="right", procedure="urine"),
            Taught(at="-2 16:00", by="amber", stoma="right", procedure="urine"),
            Cared(at="-2 16:30", by="amber", stoma="right", finding=PLANNED),
            Taught(at="-1 09:15", by="amber", stoma="right", procedure="urine"),
            Taught(at="-1 09:30", by="amber", stoma="left", level="06"),
            Cared(at="-1 13:00", by="sorrel", stoma="left", finding=PLANNED),
        ),
    ),
    Story(
        shows="Seen by a student alone: shown, and waiting for a registered nurse's name.",
        given="Kit", family="Meadowsweet", born="1990-07-12", bed="C2",
        surgery="-4 15:00", leaves="+2 12:00",
        stomas=(ILEOSTOMY,),
        moments=(
            Taught(at="-3 14:00", by="amber", level="03"),
            Cared(at="-2 10:00", by="amber", finding=PLANNED | {"width_mm": 31, "height_mm": 31}),
            Taught(at="-2 11:30", by="tansy"),
            Taught(
                at="-1 12:15", by="tansy", procedure="change", level="03", finding=seen(29, 29), minutes=40,
                cosigned_by="amber",
            ),
            Taught(at="-1 12:55", by="tansy"),
            Cared(at="-1 15:00", by="ashby", procedure="emptying"),
            Begun(at="-1 18:00", by="basil", rows={"em-open": "06", "em-wipe": "06"}),
        ),
    ),
    Story(
        shows="Independent, then delirium: what was held is asked for once more when it clears.",
        given="Lyle", family="Greystone", born="1944-09-09", bed="C3",
        surgery="-9 11:00", leaves="+3 12:00",
        stomas=(COLOSTOMY,),
        moments=(
            Taught(at="-6 10:00", by="amber"),
            Taught(at="-5 10:20", by="sorrel"),
            Body(at="-4 22:00", by="nadia", code="delirium"),
            Taught(at="-3 11:00", by="basil", level="88", place="bed"),
            Cared(at="-2 14:00", by="basil", finding=WELL | {"wear_end": "leak", "skin": {"feet": "wet-raw"}}),
            Body(at="-1 08:00", by="amber", code="delirium", change="ended"),
            Cautioned(at="-1 09:00", by="amber", sign="sore-skin"),
        ),
    ),
    Story(
        shows="A closed pouch: swapping takes the place of emptying; a nurse comes to change it, so care is arranged.",
        given="Mina", family="Oxbow", born="1970-05-25", bed="C4",
        surgery="-5 14:00", leaves="+1 12:00",
        stomas=(Stoma("colostomy", "end", "left", Pouch(closure="closed", outlet="", interval_hours=96)),),
        moments=(
            Taught(at="-3 09:00", by="sorrel", procedure="swap", level="04"),
            *explained(-3, -2),
            Taught(at="-2 18:00", by="basil", procedure="swap"),
            Taught(at="-1 08:30", by="amber", procedure="swap"),
            nurses_change(-1, size=35),
        ),
        home=(*all_in_place(1), LEAK_SERVICE, Visited(at="+2 09:00", accepted_by="Rowan Ashdown")),
    ),
    Story(
        shows="Another ward: for the nurses of Heron Ward this person does not exist.",
        given="Orla", family="Stillwater", born="1979-03-17", bed="1",
        surgery="-3 10:00", leaves="+3 12:00",
        unit=WREN,
        stomas=(ILEOSTOMY,),
        moments=(
            Taught(at="-1 10:00", by="wilma", level="04"),
            Cared(at="-1 10:20", by="wilma", finding=PLANNED),
        ),
    ),
)  # fmt: skip
