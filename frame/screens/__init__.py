"""What a person does, a room for each kind of it, and what they are made of."""
