"""The house itself: settings, addresses, error pages, and the two set-up commands.

Until the environment stands, `__main__`, `choices`, `environment` and `system_packages` use the standard
library only: `python3 -m ostomy_teach` runs on a machine with nothing but Python.
"""
