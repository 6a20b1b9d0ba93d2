"""What gunicorn serves. Wrong settings stop the start with their sentences, not with a traceback."""

import os
import sys

from django.core.checks import ERROR, run_checks
from django.core.exceptions import ImproperlyConfigured
from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "ostomy_teach.settings")

try:
    application = get_wsgi_application()
except ImproperlyConfigured as wrong:
    sys.exit(f"Ostomy Teach cannot start:\n{wrong}")

if faults := [str(found) for found in run_checks() if found.level >= ERROR]:
    sys.exit("Ostomy Teach cannot start:\n" + "\n".join(faults))
