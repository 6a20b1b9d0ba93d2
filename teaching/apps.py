from django.apps import AppConfig


class TeachingConfig(AppConfig):
    name = "teaching"
    verbose_name = "Ostomy Teach"
