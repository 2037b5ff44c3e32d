"""Batch plans: records, beliefs and limits in; the sheet with its reasons out."""
