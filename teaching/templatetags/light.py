"""Day or night: what the reader chose, kept in a cookie of this device."""

from django import template
from django.conf import settings

register = template.Library()

COOKIE = "__Host-light" if settings.HTTPS else "light"
CHOICES = {"device": "As the device", "day": "Day", "night": "Night"}
MEDIA = {"device": "(prefers-color-scheme: dark)", "day": "not all", "night": "all"}


def chosen(request):
    """The choice in the cookie; anything unknown, or no request (an error page), is the device's."""
    choice = request.COOKIES.get(COOKIE, "") if request else ""
    return choice if choice in CHOICES else "device"


@register.simple_tag(takes_context=True)
def night_media(context):
    """The media query under which the night colours are used."""
    return MEDIA[chosen(context.get("request"))]


@register.simple_tag(takes_context=True)
def lights(context):
    """[(code, words, pressed)] for the three buttons at the foot of every page."""
    now = chosen(context.get("request"))
    return [(code, words, code == now) for code, words in CHOICES.items()]
