"""With what an act of the rules may begin: something that somebody can do."""

VERBS = ("Arrange", "Ask", "Book", "Find", "Measure", "Offer", "Plan", "Practise", "See", "Teach", "Tell", "Write")
