"""What the trainer finds in an attempt: one short file a rule, named for the mistake."""
