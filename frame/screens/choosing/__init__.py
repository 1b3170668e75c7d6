"""Who is here, what to do, and how it is set."""
