"""Door to the chat platform: updates in, messages out, and how the platform fails."""
