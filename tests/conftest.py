"""What holds for every test: none depends on how quick the machine is, or how busy."""

from hypothesis import HealthCheck, settings

settings.register_profile("no clock", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("no clock")
