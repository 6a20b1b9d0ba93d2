"""A unit's statistics: pure, no Django, no clock. Empty until the educator's desk needs it."""
