"""The bot introduces itself: menus of commands by kind of chat, and what an empty chat says."""

from telegram import (
    Bot,
    BotCommand,
    BotCommandScope,
    BotCommandScopeAllGroupChats,
    BotCommandScopeAllPrivateChats,
)

from bot.wording.introduction import DESCRIPTION, FOR_ALL, FOR_GROUP, FOR_ONE, SHORT_DESCRIPTION

MENUS: tuple[tuple[BotCommandScope, tuple[tuple[str, str], ...]], ...] = (
    (BotCommandScopeAllPrivateChats(), (*FOR_ALL, *FOR_ONE)),
    (BotCommandScopeAllGroupChats(), (*FOR_ALL, *FOR_GROUP)),
)


async def introduce(bot: Bot) -> None:
    """Set menus and descriptions; what stands already is not set again, for the platform limits that."""
    for scope, menu in MENUS:
        commands = tuple(BotCommand(name, about) for name, about in menu)
        if await bot.get_my_commands(scope) != commands:
            await bot.set_my_commands(commands, scope)
    if (await bot.get_my_description()).description != DESCRIPTION:
        await bot.set_my_description(DESCRIPTION)
    if (await bot.get_my_short_description()).short_description != SHORT_DESCRIPTION:
        await bot.set_my_short_description(SHORT_DESCRIPTION)
