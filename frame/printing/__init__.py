"""A sheet as pages to be printed: the tasks, then the key on pages of its own."""
