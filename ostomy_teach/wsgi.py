"""What gunicorn serves. Wrong settings stop the start with their sentences, not with a traceback."""

import os
import sys

from django.core.exceptions import ImproperlyConfigured

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "ostomy_teach.settings")

try:
    from django.core.wsgi import get_wsgi_application

    application = get_wsgi_application()
except ImproperlyConfigured as wrong:
    sys.exit(f"Ostomy Teach cannot start:\n{wrong}")
