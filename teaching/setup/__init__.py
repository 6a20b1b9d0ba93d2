"""The set-up room: staff, how the unit works, opening a stay with its stoma, kit and learners."""
