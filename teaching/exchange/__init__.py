"""What goes out to and comes in from other systems; the stay file."""
