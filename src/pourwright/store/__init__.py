"""The store: SQLAlchemy Core on one SQLite file, or on a shared PostgreSQL."""
