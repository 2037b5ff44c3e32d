"""Any calculation as a question: a form made from its input, a page made from its answer."""
