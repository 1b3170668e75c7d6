"""One file per thing a person does."""
