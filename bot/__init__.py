"""Duskround: carries a home grower through a pest outbreak, evening by evening."""
