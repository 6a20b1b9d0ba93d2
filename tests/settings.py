"""The settings of the tests: the house's own, with keys of their own, quick hashes and plain static files."""

import os
import tempfile

os.environ.setdefault("SECRET_KEY", "only-for-tests-0123456789-abcdefghijklmnopqrstuvwxyz-0123456789")
os.environ.setdefault("TRAIL_KEY", "only-for-the-trail-of-tests-0123456789-abcdefghijkl")
os.environ.setdefault("DATABASE_URL", "sqlite://:memory:")
os.environ.setdefault("DATABASE_AS", "owner")
os.environ.setdefault("HTTPS", "off")
os.environ.setdefault("VAR_DIR", tempfile.mkdtemp(prefix="ostomy-teach-tests-"))
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")  # the browser tests' live server

from ostomy_teach.settings import *  # noqa: F403

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
WHITENOISE_AUTOREFRESH = WHITENOISE_USE_FINDERS = True  # served from where they stand: nothing is collected
