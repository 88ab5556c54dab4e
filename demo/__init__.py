"""The stand-in for the chat platform, the page, and the story."""
