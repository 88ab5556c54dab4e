"""
A home with pests that knows nothing of the planner, tended by a person who only reads what the bot writes.

`biology.py` (the animals) and `grower.py` (the home and the person) are frozen: `frozen.txt` holds their SHA-256.
`reading.py` is the person's eyes and hands on a message and follows the texts; `campaign.py` plays, `judging.py` counts.
"""
