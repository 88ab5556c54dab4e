"""Facts of the trade with their sources, loaded into the domain's own types."""
