"""From what a person types to commands: the short-reply grammar."""
