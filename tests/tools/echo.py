"""The peer: a bare echo bot on the same library, stock polling loop. `python -m tests.tools.echo URL TOKEN`."""

import sys

from telegram import Update
from telegram.ext import Application, ContextTypes, MessageHandler, filters


async def echo(update: Update, _context: ContextTypes.DEFAULT_TYPE) -> None:
    """Say it back."""
    assert update.message is not None
    await update.message.reply_text(f"echo: {update.message.text}")


def main(url: str, token: str) -> None:
    """Run until SIGTERM."""
    application = (
        Application.builder().token(token).base_url(f"{url}/bot").base_file_url(f"{url}/file/bot").build()
    )
    application.add_handler(MessageHandler(filters.TEXT, echo))
    application.run_polling(allowed_updates=["message"])


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2])
