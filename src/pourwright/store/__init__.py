"""The store: SQLAlchemy Core on one SQLite file."""
