"""The bedside room: this shift, one person, recording an emptying, care given, cautions, the huddle on screen."""
