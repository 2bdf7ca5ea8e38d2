"""Trade rules as findings: each judges what is planned and never changes it."""
