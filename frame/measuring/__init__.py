"""What this computer really does. A figure that was not measured is None, never a guess."""
