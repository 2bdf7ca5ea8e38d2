"""The command line: thin, no computing of its own."""
