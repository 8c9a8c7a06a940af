"""The plan of drivers.reset: diagnosis, steps and their order."""
