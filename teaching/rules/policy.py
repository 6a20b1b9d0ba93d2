"""The policy: every figure and every sign the rules lean on, on one page that a clinician could sign.

P published, M value from memory, C common practice without a source, D worked out from a published value.
Every line is a default: local policy, the surgeon's orders and the product's instructions win.
No published cut-off exists for "independent enough to go home".
"""

from teaching.rules.lines import Line, Policy, PolicyRefused, Sign

__all__ = ["DEFAULT", "Line", "Policy", "PolicyRefused", "Sign"]

NO_SOURCE = "common practice, no source"
MARSDEN = "Royal Marsden Manual"
SALFORD = "NHS Northern Care Alliance leaflet"

# name, value, unit, why, source, class, side, least and most a hospital may set
LINES = (
    Line("emptying_streak", 2, "showings",
         "Once can be luck; emptying, swapping and night rows are shown twice alone.",
         NO_SOURCE, "C", "at least", 1, 2),
    Line("change_streak", 2, "showings", "A change is shown twice alone; one of the two may be practice.",
         NO_SOURCE, "C", "at least", 1, 2),
    Line("spacing", 4, "hours",
         "Two emptyings close together are one occasion, unless another shift saw the second.",
         NO_SOURCE, "C", "at least", 1, 24),
    Line("emptying_date", 48, "hours",
         "Emptying is daily work; what nobody has seen for two days is asked again.",
         NO_SOURCE, "C", "at most", 12, 168),
    Line("change_date", 7, "days", "A change comes every few days, so its evidence lasts longer.",
         NO_SOURCE, "C", "at most", 3, 28),
    Line("change_date_intervals", 2, "intervals",
         "Someone who changes rarely is not asked between two changes.",
         NO_SOURCE, "C", "at most", 1, 4),
    Line("topic_wait", 4, "hours", "Said back at once is an echo; 40-80 % of what is said is soon forgotten.",
         "the wait: " + NO_SOURCE + "; forgetting: Kessels 2003, J R Soc Med", "C", "at least", 1, 24),
    Line("first_contact", 72, "hours",
         "Explained on the day it was told is safe only with a call soon after leaving.",
         SALFORD + ": seen within 72 h", "P", "at most", 24, 72),
    Line("leaks_today", 2, "leaks", "Two leaks in a day mean the fit is wrong.", NO_SOURCE, "C", "at least",
         1, 4),
    Line("leaks_span", 24, "hours", "The day in which leaks are counted.", NO_SOURCE, "C", "at most", 12, 48),
    Line("output_today", 1500, "mL", "High output: tell the team, and ask for a fluid plan.",
         "no one definition; >=1500 mL on 2 days in Arenas Villafranca 2015; the default is " + NO_SOURCE,
         "C", "at least", 800, 3000),
    Line("output_now", 2000, "mL", "Output at which water and salt are lost fast.",
         "no one definition; >2000 mL in Baker, Williams, Nightingale 2011; the default is " + NO_SOURCE,
         "C", "at least", 1000, 4000),
    Line("aims", 3, "aims", "More than three aims in one session are not heard.", NO_SOURCE, "C", "at most",
         1, 3),
)

# code, list, words, how it is asked, for whom, why, source, class
SIGNS = (
    Sign("dark-stoma", "call_now", "Stoma dark, dusky or pale", "finding", "all",
         "The blood supply may be failing.", MARSDEN, "P"),
    Sign("dry-stoma", "call_now", "Stoma dry", "finding", "all",
         "The blood supply may be failing.", MARSDEN, "P"),
    Sign("bleeding", "call_now", "Bleeding from inside, pouring or not stopping", "finding", "all",
         "More than the spot that soon stops.", SALFORD, "P"),
    Sign("sunk-pain", "call_now", "Stoma sunk in, with belly pain", "tap", "all",
         "The bowel may have pulled back inside.", NO_SOURCE, "C"),
    Sign("silent-ileostomy", "call_now", "Ileostomy silent after it had worked, with cramps or vomiting",
         "tap",
         "ileostomy", "It may be blocked.", "American Cancer Society ileostomy guide", "P"),
    Sign("no-urine", "call_now", "No urine", "tap", "urostomy", "Urine may be held back.", NO_SOURCE, "C"),
    Sign("stent-out", "call_now", "Stent out early, with pain", "tap", "stents",
         "The join may be held open by it.", NO_SOURCE, "C"),
    Sign("fever-shakes", "call_now", "Fever with shakes", "tap", "all", "Infection may be in the blood.",
         NO_SOURCE, "C"),
    Sign("faint-confused", "call_now", "Faint or confused", "tap", "all", "Water, salt or blood may be low.",
         NO_SOURCE, "C"),
    Sign("wound-leak", "call_now", "Stool or pus from the wound", "tap", "all",
         "Something may have come apart.",
         NO_SOURCE, "C"),
    Sign("output-now", "call_now", "Output {output_now} mL or more in 24 hours", "output",
         "ileostomy or colostomy",
         "Water and salt are lost fast.", "see the line output_now", "C"),
    Sign("two-leaks", "today", "{leaks_today} leaks or more in {leaks_span} hours", "wear", "all",
         "The fit is wrong.", NO_SOURCE, "C"),
    Sign("sore-skin", "today", "Skin raw, spotted, lumpy or with an ulcer", "finding", "all",
         "The flange will not hold, and it will get worse.", NO_SOURCE, "C"),
    Sign("gap", "today", "A gap at the edge of the stoma", "finding", "all", "The edge has come away.",
         NO_SOURCE, "C"),
    Sign("longer", "today", "Stoma much longer", "finding", "all", "The bowel may be coming out.",
         NO_SOURCE, "C"),
    Sign("sunk", "today", "Stoma sunk in", "finding", "all",
         "It leaks under the flange; pain makes it urgent.",
         NO_SOURCE, "C"),
    Sign("cut-stoma", "today", "Stoma cut", "tap", "all", "The opening or the scissors hurt it.",
         NO_SOURCE, "C"),
    Sign("flange-marks", "today", "Marks of the flange or belt on the skin", "tap", "all",
         "Pressure becomes a sore.", NO_SOURCE, "C"),
    Sign("output-today", "today", "Output {output_today} mL or more in 24 hours: ask for a fluid plan",
         "output",
         "ileostomy or colostomy", "Water and salt are lost.", "see the line output_today", "C"),
    Sign("never-looks", "today", "Never looks at the stoma", "tap", "all",
         "Nobody learns what they cannot face.",
         NO_SOURCE, "C"),
    Sign("low-mood", "today", "Very low in mood", "tap", "all", "It can be helped.", NO_SOURCE, "C"),
)

DEFAULT = Policy(LINES, SIGNS)
