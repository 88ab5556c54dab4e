"""Runs migrations on the connection that bot.storage.migrate hands over, in its transaction."""

from alembic import context

from bot.storage.tables import metadata


def run() -> None:
    context.configure(
        connection=context.config.attributes["connection"],
        target_metadata=metadata,
        render_as_batch=True,
        transactional_ddl=True,
    )
    with context.begin_transaction():
        context.run_migrations()


run()
