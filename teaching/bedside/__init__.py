"""The room at the bedside: this shift, one person, and recording what was taught and seen."""
