#!/usr/bin/env python3
"""Django's command line, on the settings of the environment or, where none are set, on the demo's.

`manage.py --ward COMMAND` runs on the real ward that `python3 -m ostomy_teach start` made.
"""

import os
import sys

from ostomy_teach import choices, environment
from ostomy_teach.demo import OURS

# These change tables and their guards, or delete, so they sign in as the owner of the database.
AS_OWNER = {"migrate", "sqlmigrate", "createcachetable", "purge_stay"}


def main() -> None:
    environment.enter_if_needed([__file__, *sys.argv[1:]])
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "ostomy_teach.settings")
    if sys.argv[1:2] == ["--ward"]:
        del sys.argv[1]
        if not choices.ward_settings():
            sys.exit("There is no ward here yet. Open it with: python3 -m ostomy_teach start")
        for name in OURS:
            os.environ.pop(name, None)
        os.environ.update(choices.ward_settings() | {"DJANGO_SETTINGS_MODULE": "ostomy_teach.settings"})
    if not {"SECRET_KEY", "DATABASE_URL"} & set(os.environ) and choices.DEMO_SETTINGS.exists():
        os.environ.update(choices.demo_settings())
        print("No settings are set, so this runs on the demo.", file=sys.stderr)
    if set(sys.argv[1:2]) & AS_OWNER:
        os.environ.setdefault("DATABASE_AS", "owner")

    from django.core.exceptions import ImproperlyConfigured
    from django.core.management import execute_from_command_line

    try:
        execute_from_command_line(sys.argv)
    except ImproperlyConfigured as wrong:
        sys.exit(f"Cannot start:\n{wrong}")


if __name__ == "__main__":
    main()
