"""The command line and the invented demo hospital."""
