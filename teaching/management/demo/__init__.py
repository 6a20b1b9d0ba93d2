"""The demo: an invented hospital, staff and people, told as stories and played by the record's own verbs.

`cast` says who works there, `story` what a story is made of, `stories` and `more_stories` tell them, `play`
plays them. To add a person, add a `Story` to a list. A time is "-2 15:10": two days ago at ten past three.
"""
