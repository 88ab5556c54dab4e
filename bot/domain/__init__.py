"""Pure rules and calculations, one file per subject."""
