"""The handover in four parts, said from the record alone: screen, paper and copied text can never differ.

S situation, B background, A what was shown, R what is asked of the next shift. What the record does not hold
is said as not known; nothing is filled in. These are words, not judgements: every conclusion comes from `assess`.
"""
