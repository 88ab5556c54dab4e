"""What the action files declare, found by reading them: no list has to be kept."""

import inspect
import pkgutil
from importlib import import_module

from bot import actions
from bot.actions.action import Command, Outcome


def commands() -> list[type[Command]]:
    """Every command there is."""
    return [cls for cls in _classes() if issubclass(cls, Command)]


def outcomes() -> list[type[Outcome]]:
    """Every outcome there is; what several derive from is none itself."""
    found = [cls for cls in _classes() if issubclass(cls, Outcome)]
    return [cls for cls in found if not any(cls in other.__bases__ for other in found)]


def _classes() -> list[type]:
    modules = [
        import_module(f"{actions.__name__}.{one.name}") for one in pkgutil.iter_modules(actions.__path__)
    ]
    return [
        cls
        for module in modules
        for _, cls in inspect.getmembers(module, inspect.isclass)
        if cls.__module__ == module.__name__ and cls not in {Command, Outcome}
    ]
