"""How the framework runs this shop: where its data lie, what a page may load, who it answers.

The data folder comes from LAYSHAFT_SHOP, a database of another kind from LAYSHAFT_DATABASE (a URL).
"""

from __future__ import annotations

import os
from pathlib import Path

from layshaft.web.database import database
from layshaft.web.secret import secret_key

HERE = Path(__file__).resolve().parent
DATA = Path(os.environ.get("LAYSHAFT_SHOP") or Path.home() / ".local" / "share" / "layshaft" / "shop")

SECRET_KEY = secret_key(DATA)
DEBUG = False
ALLOWED_HOSTS = ["*"]
ROOT_URLCONF = "layshaft.web.urls"
INSTALLED_APPS = [
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "layshaft.shop.ledger",
    "layshaft.web",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
]
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {"context_processors": ["django.template.context_processors.request"]},
    }
]
WHITENOISE_USE_FINDERS = True
PHOTOS = DATA / "photos"
DATABASES = {"default": database(DATA)}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Strict"
CSRF_COOKIE_SAMESITE = "Strict"
SESSION_COOKIE_AGE = 60 * 60 * 24 * 30
PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
USE_TZ = True
TIME_ZONE = os.environ.get("TZ") or "UTC"
STATIC_URL = "/static/"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": ["'self'"],
        "img-src": ["'self'", "data:"],
        "object-src": ["'none'"],
        "base-uri": ["'none'"],
        "form-action": ["'self'"],
        "frame-ancestors": ["'none'"],
    }
}
