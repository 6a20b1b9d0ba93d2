"""The sentences of the take-home sheet, each with the stoma, kit or state it belongs to.

A condition is written as in a checklist. Grade 6 or under (`tests/papers/test_take_home.py`). Words in braces are told
in `take_home_facts.py`; where one is not known its sentence is absent. Besides the words of a checklist, a condition
may name: `plan` a fluid plan is made, `no-plan` none is; `sized` the opening is worked out, `unsized` it could be once
measured, `as-shown` it cannot be (a rod, a gap); `tube-date`, `no-tube-date` for the stents; `no-night-bag`;
`drink-told` the unit says how much to drink with a urostomy, `drink-untold` it does not.
"""

from dataclasses import dataclass

NOW, TODAY, FINE, EMPTY, CHANGE = "now", "today", "fine", "empty", "change"
LEAK, EAT, TABLETS, NIGHT, KIT, COMES = "leak", "eat", "tablets", "night", "kit", "comes"

TITLES = {
    NOW: "Ring now, day or night", TODAY: "Ring us today", FINE: "This is fine", EMPTY: "To empty",
    CHANGE: "To change the pouch", LEAK: "It leaks?", EAT: "Eat and drink", TABLETS: "Tablets", NIGHT: "At night",
    KIT: "Your kit", COMES: "Who comes, and when",
}  # fmt: skip
OF_EACH_STOMA = (EMPTY, CHANGE)


@dataclass(frozen=True, slots=True)
class Sentence:
    """`strong`: printed bold, since a slip here costs most."""

    part: str
    applies: str
    words: str
    strong: bool = False


SENTENCES = tuple(Sentence(*row) for row in (
    (NOW, "all", "Your stoma turns dark, black, very pale or dry."),
    (NOW, "all", "Blood comes from inside the stoma. Or it does not stop when you press on it for "
                 "{press_minutes}."),
    (NOW, "all", "You have bad pain in your belly, or you keep being sick."),
    (NOW, "all", "You feel faint, or very dry, or hot and shaky."),
    (NOW, "ileostomy", "Nothing comes out for 4 to 6 hours, and you have cramps or feel sick."),
    (NOW, "ileostomy", "It is like water and fills the pouch again and again: more than {much} ml in one day."),
    (NOW, "urostomy", "No urine comes for {no_urine_hours}."),
    (NOW, "urostomy", "There is a lot of blood in your urine."),
    (NOW, "urostomy", "Your back hurts and you shake."),
    (NOW, "stents and tube-date", "A thin tube in your stoma comes out before {stents_out}."),
    (NOW, "stents and no-tube-date", "A thin tube in your stoma comes out by itself."),
    (NOW, "rod", "The rod under your stoma comes out too soon, or it hurts."),
    (TODAY, "all", "You have {leaks} in {leak_hours}."),
    (TODAY, "all", "Your skin is sore, wet or itchy, or not like the skin near it."),
    (TODAY, "all", "There is a gap at the edge of the stoma."),
    (TODAY, "all", "The stoma got much longer, or it sank in."),
    (TODAY, "colostomy", "It gets hard, or nothing comes, and you feel full."),
    (TODAY, "all", "You can not face it, or you feel very low. We can help with that too."),
    (FINE, "all", "It is pink or red, and wet."),
    (FINE, "all", "It does not feel touch. It moves a little."),
    (FINE, "all", "It gets smaller for about {weeks}."),
    (FINE, "all", "A spot of blood on the tissue soon stops."),
    (FINE, "urostomy", "There are threads like egg white in your urine."),
    (FINE, "rectum", "Some slime comes from your back end."),
    (EMPTY, "drainable", "Do it when the pouch is one third to half full."),
    (EMPTY, "drainable", "Sit or stand at the toilet. Put paper in the water first."),
    (EMPTY, "drainable", "Hold the end up and open it. Then let it run out."),
    (EMPTY, "drainable", "Wipe the end, inside and out."),
    (EMPTY, "drainable", "Shut it. Look and feel that it is shut.", True),
    (EMPTY, "drainable", "Wash your hands."),
    (EMPTY, "drainable and kit:large-bag", "The big bag: push its tube on to the end of the pouch. To part them, shut "
                                           "the pouch first."),
    (EMPTY, "urostomy", "Do it when the pouch is one third full. Do it before bed and before a trip."),
    (EMPTY, "urostomy", "Wash your hands. Point the tap down and open it."),
    (EMPTY, "urostomy", "Look at the urine."),
    (EMPTY, "urostomy", "Shut the tap. Look and feel that it is shut. Dry the end.", True),
    (EMPTY, "urostomy", "Wash your hands."),
    (EMPTY, "closed", "You do not empty this pouch. Swap it when it is half full, or when it feels heavy."),
    (EMPTY, "closed and two-piece", "Hold the ring down with one hand. Take the pouch off with the other."),
    (EMPTY, "closed and two-piece", "Push the new pouch on all round. Give a small tug.", True),
    (EMPTY, "closed and one-piece", "Take it off and put a new one on, as when you change the pouch."),
    (EMPTY, "closed", "Put the old pouch in a bag, then in the bin. Wash your hands."),
    (CHANGE, "all", "Wash your hands. Set out all you need, and a spare."),
    (CHANGE, "drainable or urostomy", "Empty the pouch first."),
    (CHANGE, "kit:remover", "Use the remover at the top edge, if it will not lift."),
    (CHANGE, "all", "Peel it off slowly from the top. Hold your skin down with the other hand."),
    (CHANGE, "rod", "Do not pull the rod."),
    (CHANGE, "stents", "Do not pull the thin tubes."),
    (CHANGE, "ileostomy or urostomy", "Keep a tissue on the stoma."),
    (CHANGE, "all", "Wash with warm water. Pat your skin dry."),
    (CHANGE, "all", "Look at the stoma and at the skin all round it. Use a mirror to see below."),
    (CHANGE, "cut and sized", "Cut the hole {wide} mm wide and {high} mm high. That was right on {measured}."),
    (CHANGE, "cut and unsized", "Cut the hole {least} to {most} mm wider than the stoma in all."),
    (CHANGE, "cut and as-shown", "Cut the hole as your nurse showed you."),
    (CHANGE, "cut", "Measure the stoma once a week. It gets smaller."),
    (CHANGE, "mouldable", "Shape the hole with your thumbs, right up to the stoma."),
    (CHANGE, "pre-cut", "The hole is cut for you. Ring us if it is tight, or if you see skin in it."),
    (CHANGE, "kit:powder", "Put powder on wet or raw skin only. Brush off the rest."),
    (CHANGE, "kit:film", "Dab the film on. Let it dry."),
    (CHANGE, "kit:seal", "Fill the dip in your skin with the ring, strip or paste."),
    (CHANGE, "drainable", "Shut the end now, before you put it on.", True),
    (CHANGE, "urostomy", "Shut the tap now, before you put it on.", True),
    (CHANGE, "all", "Put it on from below, with the stoma in the middle."),
    (CHANGE, "all", "Press next to the stoma first, then out to the edge. Keep a warm hand on it for a while."),
    (CHANGE, "two-piece", "Push the two parts till they lock. Give a small tug."),
    (CHANGE, "kit:belt", "Put the belt level with the stoma. Two fingers must fit under it."),
    (CHANGE, "drainable or urostomy", "Look and feel once more that it is shut."),
    (CHANGE, "all", "Put the waste in a bag, then in the bin. Wash your hands."),
    (LEAK, "all", "Change the pouch now, and also if it itches or burns.", True),
    (LEAK, "all", "Never put tape over a leak."),
    (LEAK, "all", "If you can not change it, hold a pad on it and ring {leak_phone}."),
    (EAT, "ileostomy", "Eat small meals. Chew well. Sip drinks all day."),
    (EAT, "ileostomy and no-plan", "If it gets like water, ring us. Do not fill up on plain water."),
    (EAT, "plan", "Drink this: {drink}."),
    (EAT, "plan", "Plain water, at most: {plain_water}."),
    (EAT, "plan", "To slow it down, take: {tablets}."),
    (EAT, "plan", "What we aim for: {target}."),
    (EAT, "plan", "Your blood test is on {bloods}. We ring you on {call}."),
    (EAT, "colostomy", "Eat what you like, bit by bit. Drink well."),
    (EAT, "urostomy and drink-told", "Drink about {urine_drink} in a day. Drink less only if your team told you so."),
    (EAT, "urostomy and drink-untold", "Drink all through the day. Ask your nurse how much."),
    (EAT, "urostomy", "A urine test must not come from the pouch you wear. Tell the nurse."),
    (TABLETS, "all", "Ask the chemist first. Tell them that you have a stoma."),
    (TABLETS, "ileostomy", "Take no pills to make you go."),
    (TABLETS, "ileostomy", "If you see a whole tablet in the pouch, ring us."),
    (NIGHT, "urostomy and no-night-bag", "Set a clock. Wake up and empty the pouch in the night."),
    (NIGHT, "kit:night-bag", "Leave a little urine in the pouch. Join the tube and open the tap. See it run."),
    (NIGHT, "kit:night-bag", "Hang the bag lower than the bed. Lay the tube slack, with no twist."),
    (NIGHT, "kit:night-bag", "In the morning shut the tap first. Then part them.", True),
    (NIGHT, "kit:night-bag", "The pouch is full and the bag is not? Look for a twist, or a tap that is shut."),
    (KIT, "all", "You have kit for {days}."),
    (KIT, "all", "More comes on {delivery}."),
    (KIT, "all", "New kit takes {lead_days} to come. Order while you have more than that left."),
    (KIT, "all", "You may choose who sends it to you."),
    (KIT, "all", "Take spare kit with you when you go out."),
))  # fmt: skip
