"""Points, pixels and sounds."""
