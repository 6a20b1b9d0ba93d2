from django.apps import AppConfig


class HouseConfig(AppConfig):
    name = "ostomy_teach"
    label = "house"
    verbose_name = "The house"

    def ready(self) -> None:
        from ostomy_teach import checks  # noqa: F401  registers them
