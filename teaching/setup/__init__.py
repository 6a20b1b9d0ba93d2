"""The room where a unit is set up: staff, roles, stays, stomas, kits and learners."""
