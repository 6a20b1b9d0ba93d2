from django.apps import AppConfig


class TeachingConfig(AppConfig):
    name = "teaching"
    verbose_name = "Ostomy Teach"

    def ready(self):
        from teaching.models import guard_hooks

        guard_hooks.connect(self)
