"""What has grown: what is known, how well, and how the ladder was climbed."""
