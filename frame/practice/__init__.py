"""What to work on: exercises drawn from taught facts. Pure and seeded."""
