"""The room of the discharge planner: who goes home when, and what would help most."""
