"""The commands, and what opens the window; `frame.cli` hands the arguments to `running`."""
