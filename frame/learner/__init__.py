"""What this person can do: the local store of sittings and attempts."""
