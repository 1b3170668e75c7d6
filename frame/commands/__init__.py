"""The commands that work without a window; `frame.cli` reads the arguments and picks one."""
