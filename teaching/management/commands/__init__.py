"""One file a command: `manage.py <name>`."""
