"""The demo: an invented hospital, staff and people, told as stories and played by the record's own verbs.

Every nurse, patient and place is made up; who shows what stands in the README under "The demo". Forty more left
long ago (`past`), for the unit's own figures.

`cast` says who works there, `story` what a story is made of, `stories`, `more_stories` and `later_stories` tell
them, with the runs of lessons in `courses` and what is arranged for home in `going_home`; `play` plays them through
`moments` and `lessons`. To add a person, add a `Story` to a list. A time is "-2 15:10": two days ago at ten past
three. All of it is written at the moment of loading, so each entry is a late one, and says so where that is shown.
"""
