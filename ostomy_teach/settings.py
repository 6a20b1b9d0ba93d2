"""Every setting of the house, in one file. README.md lists the environment variables; a test compares."""

from pathlib import Path
from typing import Any

from csp.constants import NONCE, NONE, SELF

from ostomy_teach.readers import Reader

BASE_DIR = Path(__file__).resolve().parent.parent
read = Reader()

# Secrets and addresses -----------------------------------------------------------------------------
MAKE_ONE = 'Make one with: python3 -c "import secrets; print(secrets.token_urlsafe(64))"'
DEBUG = False
SECRET_KEY = read.secret("SECRET_KEY", 50, MAKE_ONE)
TRAIL_KEY = read.secret("TRAIL_KEY", 43, MAKE_ONE).encode()
TRAIL_KEY_ID = read.word("TRAIL_KEY_ID", "key-1", 20)
HTTPS = read.yes_no("HTTPS", True)
ALLOWED_HOSTS = read.hosts("ALLOWED_HOSTS", HTTPS)
PROXIES = read.number("PROXIES", 1 if HTTPS else 0, 0, 5, "proxies in front")
VAR_DIR = read.folder("VAR_DIR", BASE_DIR / "var")

# Database: the web signs in with INSERT and SELECT only on PostgreSQL; migrate signs in as the owner
SQLITE_FOR_A_WARD = {
    "timeout": 20,
    "transaction_mode": "IMMEDIATE",
    "init_command": "PRAGMA journal_mode=WAL;PRAGMA synchronous=FULL;"
    "PRAGMA foreign_keys=ON;PRAGMA recursive_triggers=ON;",
}


def for_a_ward(entry: dict[str, Any]) -> dict[str, Any]:
    """The entry with what twenty nurses saving at once need. Transactions wrap only what writes."""
    entry = entry | {"ATOMIC_REQUESTS": False}
    if entry.get("ENGINE") == "django.db.backends.sqlite3":
        return entry | {"OPTIONS": SQLITE_FOR_A_WARD}
    return entry | {"CONN_MAX_AGE": 600, "CONN_HEALTH_CHECKS": True}


_web = for_a_ward(read.database("DATABASE_URL"))
_owner = for_a_ward(read.database("DATABASE_OWNER_URL", default=_web))
DATABASES = {"default": _owner if read.one_of("DATABASE_AS", "web", ("web", "owner")) == "owner" else _web}
# The PostgreSQL user of the web, where it is not the owner: whoever migrates grants it INSERT and SELECT.
DATABASE_WEB_USER = _web.get("USER", "") if _web.get("USER") != _owner.get("USER") else ""
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

# The app -------------------------------------------------------------------------------------------
INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "axes",
    "crispy_forms",
    "csp",
    "ostomy_teach",
    "teaching",
]
MIDDLEWARE = [
    "ostomy_teach.reference.give_reference",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "teaching.access.sessions.keep_no_copy",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "teaching.access.sessions.end_in_time",
    "teaching.access.sessions.first_password_first",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "axes.middleware.AxesMiddleware",
]
ROOT_URLCONF = "ostomy_teach.urls"
WSGI_APPLICATION = "ostomy_teach.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "teaching.access.signed_in.signed_in",
            ]
        },
    }
]
CRISPY_ALLOWED_TEMPLATE_PACKS = ["ward"]
CRISPY_TEMPLATE_PACK = "ward"
LANGUAGE_CODE = "en-gb"
USE_I18N = True
USE_TZ = True
TIME_ZONE = "UTC"
STATIC_URL = "static/"
STATIC_ROOT = BASE_DIR / "staticfiles"
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}

# Signing in ----------------------------------------------------------------------------------------
AUTH_USER_MODEL = "teaching.User"
LOGIN_URL = "sign-in"
AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "django.contrib.auth.backends.ModelBackend",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 12}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "ostomy_teach.passwords.PlainPasswordValidator"},
]
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]  # one person at one address: never a whole ward
AXES_CLIENT_IP_CALLABLE = "ostomy_teach.reference.client_address"
AXES_FAILURE_LIMIT = 6
AXES_COOLOFF_TIME = 0.25  # hours
AXES_RESET_ON_SUCCESS = True
AXES_RESET_COOL_OFF_ON_FAILURE_DURING_LOCKOUT = False
AXES_DISABLE_ACCESS_LOG = True  # the trail keeps this
AXES_VERBOSE = False
AXES_LOCKOUT_TEMPLATE = "teaching/access/locked.html"
AXES_SENSITIVE_PARAMETERS = ["username", "ip_address"]
MESSAGE_STORAGE = "django.contrib.messages.storage.session.SessionStorage"  # no third cookie

# Sessions and cookies ------------------------------------------------------------------------------
SESSION_IDLE_SECONDS = 60 * read.number("SESSION_IDLE_MINUTES", 30, 5, 240, "minutes")
SESSION_ABSOLUTE_SECONDS = 3600 * read.number("SESSION_HOURS", 12, 1, 24, "hours")
SESSION_COOKIE_AGE = SESSION_ABSOLUTE_SECONDS
SESSION_EXPIRE_AT_BROWSER_CLOSE = True
SESSION_COOKIE_NAME = "__Host-session" if HTTPS else "session"
CSRF_COOKIE_NAME = "__Host-csrf" if HTTPS else "csrf"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = HTTPS
SESSION_COOKIE_HTTPONLY = CSRF_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = CSRF_COOKIE_SAMESITE = "Lax"
CSRF_FAILURE_VIEW = "ostomy_teach.error_pages.form_expired"

# Headers -------------------------------------------------------------------------------------------
SECURE_SSL_REDIRECT = HTTPS
SECURE_HSTS_SECONDS = 365 * 24 * 3600 if HTTPS else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = HTTPS
if HTTPS and PROXIES:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF, NONCE],
        "style-src": [SELF, NONCE],
        "img-src": [SELF, "data:"],
        "font-src": [SELF],
        "connect-src": [SELF],
        "manifest-src": [SELF],
        "form-action": [SELF],
        "object-src": [NONE],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
    }
}

# The log: one line a record, nothing that could name a person --------------------------------------
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"()": "ostomy_teach.log_lines.OneLine"}},
    "handlers": {"stderr": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {
        "handlers": ["stderr"],
        "level": read.one_of("LOG_LEVEL", "INFO", ("DEBUG", "INFO", "WARNING", "ERROR")),
    },
    "loggers": {
        "django": {"handlers": [], "propagate": True},
        "django.server": {"handlers": [], "propagate": True},
        "axes": {"level": "ERROR"},
        "fontTools": {"level": "WARNING"},
        "weasyprint.progress": {"level": "WARNING"},
    },
}

read.stop_on_faults()
