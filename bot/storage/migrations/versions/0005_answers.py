"""Which answer a question got, so that a button pressed later can say so."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    op.add_column("question", sa.Column("answered", sa.Integer))
