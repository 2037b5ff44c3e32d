"""The bench while it pours: append-only events folded into what happened to each cup."""
