"""What happens on site: actions, the state they fold into, and how an attempt is replayed."""
