"""The bedside room: this shift, one person, an emptying, care given, cautions, the huddle list."""
