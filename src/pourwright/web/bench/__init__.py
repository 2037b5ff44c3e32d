"""The Bench page: where a pour stands, put into screens of one step each."""
