"""What is worked out: facts, a policy and a moment in, a value with its reasons out. No Django, no clock."""
