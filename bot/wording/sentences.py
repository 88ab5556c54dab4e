"""Outcome to answer: every outcome has its sentence here. Understood, written, next; plain words, no blame."""

from collections.abc import Iterable

from bot.actions.add_plants import PlantsAdded
from bot.actions.advise import Fits, Shopping, SunTold
from bot.actions.answer_question import AntsFirst, NoDishSoap
from bot.actions.answer_safety import Cautions, MayEat
from bot.actions.begin_talk import Founded, Welcome
from bot.actions.correct import CorrectedTo, WhichOneMeant
from bot.actions.courtesy import Greeted, Helped, Welcomed
from bot.actions.decline import Declined
from bot.actions.explain import Reasons
from bot.actions.export import AllExported, CalendarMade, TableMade
from bot.actions.forget import Erased, ForgetAsked, HomeErased
from bot.actions.give_first_aid import Exposed
from bot.actions.hold import EveningsHeld, Paused
from bot.actions.identify import Identified, KeyAsked
from bot.actions.incomplete import Asks
from bot.actions.isolate import IsolatedThem
from bot.actions.keep_photo import PhotoKept, TooManyPhotos
from bot.actions.log_check import CheckLogged
from bot.actions.log_find import FindInPast, FindLogged
from bot.actions.log_round import NothingDue, RoundLogged
from bot.actions.log_sign import SignLogged
from bot.actions.log_use import NothingSprayed, UnlikelyUse, UseLogged
from bot.actions.lose_plant import Lost, PlantsGone
from bot.actions.mix_batch import CannotMix, Mixed
from bot.actions.move_plant import PlantsMoved
from bot.actions.not_understood import Unclear
from bot.actions.outcome import Outcome
from bot.actions.postpone import PutOff
from bot.actions.press_button import ButtonExpired
from bot.actions.read_temperature import BadTemperature, TemperatureNoted
from bot.actions.release_plant import NotYet, ReleasedThem
from bot.actions.remove_place import PlaceInUse, PlaceRemoved
from bot.actions.rename import NameTaken, Renamed
from bot.actions.send_evening import NudgeText, StillThere
from bot.actions.set_animals import AnimalsNoted
from bot.actions.set_hours import BadHours, HoursSet
from bot.actions.set_place import NoPlaceAsked, PlacesSaved
from bot.actions.set_pot import PotSet
from bot.actions.set_routine import HabitsTold, RoutineSaved
from bot.actions.set_strict import StrictSet
from bot.actions.set_town import BadCoordinates, NoSuchTown, TownSet, WhichTown
from bot.actions.set_traits import TraitNoted
from bot.actions.set_units import UnitsSet
from bot.actions.share import (
    HasLeft,
    Invited,
    Joined,
    LeaveAsked,
    MemberAsked,
    MemberGone,
    MemberList,
    NoSuchMember,
    OwnerNow,
    OwnerOnly,
    SomebodyJoined,
    Stranger,
)
from bot.actions.show_due import DueList
from bot.actions.show_history import History
from bot.actions.show_isolated import IsolatedList
from bot.actions.show_more import MoreText
from bot.actions.show_photos import NoPhotos, PhotosShown
from bot.actions.show_places import PlacesTold
from bot.actions.show_plants import NoPlants, PlantList
from bot.actions.show_release import ReleaseInfo
from bot.actions.show_settings import SettingsTold
from bot.actions.show_shelf import Shelf
from bot.actions.show_trend import NoTrend, TrendShown
from bot.actions.skip_question import QuestionSkipped
from bot.actions.stock_product import BadGap, Stocked
from bot.actions.undo import NothingToUndo, OldToUndo, ToldSince, Undone
from bot.actions.walk_through import NoWalk, WalkDone, WalkLevelAsked, WalkStep, WalkStopped
from bot.actions.work_through import NoWork, WorkDone, WorkPaused, WorkStage
from bot.wording.advising import fits, shopping, sun_told
from bot.wording.answer import Attachment
from bot.wording.asking import FIRST_AID, HELP, asks, due, unclear
from bot.wording.chart import trend_chart
from bot.wording.conditions import percent
from bot.wording.days import counted, day, listed, month, near_day
from bot.wording.files import calendar_file, calendar_made, everything_file, table_file
from bot.wording.habits import habits, routine_saved
from bot.wording.history import history_text, told_lines
from bot.wording.identifying import identified, key_asked
from bot.wording.isolation import isolated, isolated_them, release_info, release_words, released
from bot.wording.labels import cautions, may_eat
from bot.wording.looks import check, find, sign
from bot.wording.mixing import cannot_mix, mixed, unlikely_use, use_logged
from bot.wording.nudge import nudge_text
from bot.wording.photos import before_and_after, photo_kept, photos_shown
from bot.wording.rounds import nothing_due, put_off, round_done
from bot.wording.setting_up import (
    ASK_TOWN,
    place_saved,
    places_told,
    plants_added,
    question_skipped,
    settings,
    shelf,
    stocked,
    town,
    units_set,
    welcome,
)
from bot.wording.sharing import (
    erased,
    forget_asked,
    member_asked,
    member_gone,
    member_list,
    no_such_member,
    owner_now,
)
from bot.wording.trending import no_trend, trend_words
from bot.wording.voice import Voice
from bot.wording.walking import level_asked, walk_done, walk_step, walk_stopped
from bot.wording.why import reasons_text
from bot.wording.working import no_work, work_done, work_paused, work_stage

ANTS = (
    "Ants first: they guard what makes honeydew and carry it from plant to plant. Follow the trail, stand the pots "
    "clear of walls, a ring of water or a sticky barrier around the stand; bait only where it is labelled for "
    "indoors, out of reach of children and animals. Then the plant. Nothing is written."
)
ANIMALS = {"cat": "a cat", "fish": "fish", "dog": "a dog", "bird": "a bird"}
TRAITS = {
    "edible": "edible: only what is labelled for that",
    "not-edible": "not edible",
    "hairy": "hairy: soap and oil stay in the hair, so try one leaf first",
    "not-hairy": "not hairy",
    "waxy": "waxy: soap and oil take the bloom off for good",
    "not-waxy": "without a bloom",
}


NO_DISH_SOAP = (
    "Dish soap is a detergent and no labelled insecticide: its strength is unknown, and it burns leaves more easily; laundry "
    "and dishwasher detergents never (extension services). An insecticidal soap has a label that says how and on what. Until "
    "you have one: wipe or rinse the plant by hand, swab single insects with alcohol, and tell me “wiped the hoya”. Nothing is written."
)


def say(outcome: Outcome, voice: Voice) -> str:  # noqa: C901, PLR0912, PLR0915 - one arm an outcome
    """Word one outcome."""
    match outcome:
        case Founded(name=name):
            return (
                f"Hello {name}. I keep your plants, count the days between rounds and speak up in the evening.\n"
                f"{ASK_TOWN} I need it for the sun at your windows."
            )
        case Welcome(lacks=lacks):
            return welcome(lacks)
        case TownSet():
            return town(outcome, voice)
        case WhichTown(text=text, is_guess=True):
            return (
                f"I know no town called “{text[:60]}”, so nothing is written yet. Is it one of these? "
                "If not, try a larger one nearby, or coordinates like 51.1, 3.7."
            )
        case WhichTown(text=text, towns=towns):
            return f"There are {len(towns)} places called {text}. Which one?"
        case NoSuchTown(text=text):
            return (
                f"I know no town called “{text[:60]}”. Try a larger one nearby, or send coordinates like 51.1, 3.7; "
                "“skip” puts it off."
            )
        case BadCoordinates(latitude=lat, longitude=lon):
            return (
                f"{lat:g}, {lon:g} is not on the globe: latitude runs from -90 to 90, longitude from -180 to 180. "
                "Nothing is written."
            )
        case HoursSet():
            return (
                f"Written: evening at {voice.clock(outcome.evening)}, quiet from {voice.clock(outcome.quiet_from)} "
                f"to {voice.clock(outcome.quiet_until)}."
            )
        case BadHours(evening=evening, quiet_from=start, quiet_until=end):
            return (
                f"An evening at {voice.clock(evening)} would lie in your quiet hours, {voice.clock(start)} to {voice.clock(end)}. "
                "Nothing is written; which of the two shall move?"
            )
        case UnitsSet():
            return units_set(outcome)
        case PlacesSaved():
            return place_saved(outcome, voice)
        case NoPlaceAsked():
            return "Which place is that? Say for instance “kitchen sill faces west”. Nothing is written."
        case PlantsAdded():
            return plants_added(outcome)
        case RoundLogged():
            return round_done(outcome, voice)
        case NothingDue():
            return nothing_due(outcome, voice)
        case PutOff():
            return put_off(outcome, voice)
        case FindLogged():
            return find(outcome, voice)
        case FindInPast():
            return (
                f"Written for {near_day(outcome.on, voice.today)}: {outcome.pest} on {outcome.plant}. "
                "Its case has been closed or corrected since, so the plan stays as it is."
            )
        case PlantsGone(plants=plants):
            return f"{listed(plants)} is gone by what you told me, so nothing is written. “undo” if that was wrong."
        case SignLogged():
            return sign(outcome, voice)
        case CheckLogged():
            return check(outcome, voice)
        case Undone(what=what):
            return f"Taken back: {history_text(what, voice.today, joint='; ')}."
        case OldToUndo(what=what):
            return f"The last you told is from an earlier day: {history_text(what, voice.today, joint='; ')}. Take that back? Nothing is changed yet."
        case ToldSince(what=what):
            return f"You told more since, so nothing is taken back. The last now is {history_text(what, voice.today, joint='; ')}; “undo” takes that."
        case NothingToUndo():
            return "There is nothing of yours left to take back."
        case WhichOneMeant(plants=plants):
            return f"That message was about {listed(plants)}. Say which: “undo”, then tell it anew. Nothing is written."
        case CorrectedTo(plant=plant, count=count) if count is not None:
            return f"Corrected: {count} on {plant}. The plan follows it from now on."
        case CorrectedTo(plant=plant, pest=pest):
            if pest is not None:
                return f"Corrected: the case on {plant} is {pest}. The plan follows it from now on."
            return f"Corrected: that was {plant}."
        case IsolatedThem():
            return isolated_them(outcome)
        case PlantsMoved():
            rest = f" Isolated there: {listed(outcome.still_isolated)}." if outcome.still_isolated else ""
            return f"Written: {listed(outcome.plants)} at {outcome.place}.{rest}{_beside(outcome)}"
        case Renamed(old=old, new=new):
            return f"Written: {old} is called {new} now."
        case NameTaken(name=name):
            return f"{name} is another's name already, so nothing is written. Which name else?"
        case PotSet(plants=plants, pot_cm=width):
            return f"Written: {listed(plants)} in {'a pot' if len(plants) == 1 else 'pots'} of {voice.length(width)}."
        case PlaceRemoved(name=name):
            return f"Written: {name} is no place of yours any more."
        case PlaceInUse(name=name, plants=plants):
            return (
                f"{listed(plants)} {'stands' if len(plants) == 1 else 'stand'} at {name}, so nothing is written. "
                f"Move {'it' if len(plants) == 1 else 'them'} first, like “{plants[0]} to ...”."
            )
        case PlacesTold():
            return places_told(outcome, voice)
        case ReleasedThem():
            return released(outcome)
        case NotYet(plant=plant, quarantine_until=until) if until is not None:
            return (
                f"{plant} is in quarantine until {day(until)}, and then needs a look that finds none. "
                "It may go earlier on your word."
            )
        case NotYet(plant=plant, progress=states):
            return f"{plant} is not there yet: {release_words(states, voice)}"
        case Lost(plants=plants, was_infested=was_infested, watched=watched):
            bag = " Old mix and leaves go into a closed bag, not on the compost." if was_infested else ""
            watch = f" Still on watch: {listed(watched)}." if watched else ""
            return f"Written: {listed(plants)} gone.{bag}{watch}"
        case Stocked():
            return stocked(outcome, voice)
        case Mixed():
            return mixed(outcome, voice)
        case CannotMix():
            return cannot_mix(outcome, voice)
        case UnlikelyUse():
            return unlikely_use(outcome, voice)
        case UseLogged():
            return use_logged(outcome, voice)
        case NothingSprayed(on=on):
            return f"No spray is written for {near_day(on, voice.today)}, so I cannot tell what that was for. Nothing is written."
        case TrendShown():
            return trend_words(outcome)
        case NoTrend():
            return no_trend(outcome)
        case WorkStage():
            return work_stage(outcome, voice)
        case WorkDone():
            return work_done(outcome)
        case WorkPaused():
            return work_paused(outcome)
        case NoWork():
            return no_work(outcome)
        case WalkLevelAsked():
            return level_asked(outcome)
        case WalkStep():
            return walk_step(outcome)
        case WalkDone():
            return walk_done(outcome)
        case NoWalk():
            return "No check walk is under way. “walk” begins one."
        case WalkStopped():
            return walk_stopped(outcome)
        case PhotoKept():
            return photo_kept(outcome)
        case TooManyPhotos(most=most):
            return f"I keep {most} photos of a home at most, so this one is not kept."
        case PhotosShown():
            return photos_shown(outcome)
        case NoPhotos(plant=plant):
            return (
                f"No photo of {plant} yet. Send one with its name under it."
                if plant
                else "No photos yet. Send one with the plant's name under it."
            )
        case Fits():
            return fits(outcome)
        case SunTold():
            return sun_told(outcome, voice)
        case Shopping():
            return shopping(outcome, voice)
        case Cautions():
            return cautions(outcome)
        case MayEat():
            return may_eat(outcome)
        case NoDishSoap():
            return NO_DISH_SOAP
        case AntsFirst():
            return ANTS
        case KeyAsked():
            return key_asked(outcome)
        case Identified():
            return identified(outcome)
        case StrictSet(is_strict=is_strict, target=target):
            kind = "strict" if is_strict else "usual"
            return f"Written: the {kind} rule. Plants go back at a chance of {percent(target)} that nothing is left."
        case Invited(code=code, until=until):
            when = f"{day(until.astimezone(voice.zone).date())}, {voice.clock(until)}"
            return f"For one person, once, until {when}: let them write this to me.\n/start {code}"
        case Joined(others=others, plants=plants):
            return (
                f"Welcome. You share {counted(plants, 'plant')} with {listed(others)} from now on: whoever answers the "
                "evening answers for both, and “undo” takes back only your own words."
            )
        case SomebodyJoined(name=name):
            return f"{name} shares your plants from now on."
        case LeaveAsked(is_founder=True):
            return "You own this home and others share it. “hand over to” and a name lets you leave. Nothing is written."
        case LeaveAsked():
            return "Leave this home? What you told stays with its plants. Nothing is written yet."
        case HasLeft():
            return "You no longer share these plants, and I do not write to you any more. Take care."
        case MemberAsked():
            return member_asked(outcome)
        case MemberGone():
            return member_gone(outcome)
        case OwnerNow():
            return owner_now(outcome)
        case NoSuchMember():
            return no_such_member(outcome)
        case OwnerOnly(owner=owner):
            return f"Only {owner or 'the owner'} may do that. Nothing is written."
        case MemberList():
            return member_list(outcome)
        case ForgetAsked():
            return forget_asked(outcome)
        case Erased():
            return erased(outcome)
        case HomeErased(by=by):
            return f"{by} erased this home with all its plants and everything told. I do not write here any more."
        case CalendarMade():
            return calendar_made(outcome)
        case TableMade(rows=rows):
            return f"The journal as a table, {counted(len(rows), 'line')}. Lines taken back are marked."
        case AllExported(entries=entries):
            return (
                f"Everything of this home, {counted(entries, 'entry', 'entries')}, without anybody's account."
            )
        case AnimalsNoted(animals=animals):
            return (
                f"Written: {listed(ANIMALS[one] for one in animals)} at home."
                if animals
                else "Written: no animals."
            )
        case TraitNoted(plants=plants, trait=trait):
            return f"Written: {listed(plants)} {TRAITS[trait]}."
        case BadGap(days=days):
            return f"A label gap of {days} days cannot be right (1 to 365). What does the label say?"
        case TemperatureNoted(place=place, celsius=celsius, months=months) if months:
            return f"Written: {place} usually has {voice.warmth(celsius)} in {listed(month(one) for one in months)}."
        case TemperatureNoted(place=place, celsius=celsius, moved=moved):
            shifts = [
                f" Next round of {listed(names)}: {day(new)}, not {day(old)}." for names, old, new in moved
            ]
            return (
                f"Written: {place} is at {voice.warmth(celsius)}. I count with it until you tell me another."
                f"{''.join(shifts)}"
            )
        case BadTemperature(celsius=celsius):
            return (
                f"{voice.warmth(celsius)} is outside what plants at home live through ({voice.warmth(-10)} to "
                f"{voice.warmth(45)}). Nothing is written."
            )
        case RoutineSaved():
            return routine_saved(outcome, voice)
        case HabitsTold():
            return habits(outcome, voice)
        case EveningsHeld(until=until) if until is not None and until <= voice.today:
            return "Good to have you back. The evenings go on."
        case EveningsHeld(until=until, late=late):
            rest = f"until {day(until)}" if until else "until you write “back”"
            cost = listed(f"{name} (by {day(on)})" for name, on in late[:6])
            more = (
                f" Rounds that would be late by then: {cost}; count on about one more each." if late else ""
            )
            return f"I stay quiet {rest}. The days keep counting meanwhile.{more}"
        case IsolatedList():
            return isolated(outcome, voice)
        case DueList():
            return due(outcome, voice)
        case Reasons():
            return reasons_text(outcome, voice)
        case ReleaseInfo():
            return release_info(outcome, voice)
        case History(lines=lines):
            return told_lines(lines, voice.today) or "Nothing is written for that time."
        case PlantList(places=places):
            return "\n".join(f"{place or 'no place yet'}: {listed(names)}" for place, names in places)
        case Shelf():
            return shelf(outcome, voice)
        case SettingsTold():
            return settings(outcome, voice)
        case Asks():
            return asks(outcome)
        case NoPlants():
            return "I know no plants yet. Send them one a line, like “hoya, landing, 15 cm”."
        case Unclear():
            return unclear(outcome)
        case Exposed():
            return FIRST_AID
        case Helped():
            return HELP
        case Welcomed():
            return "You are welcome."
        case Greeted(is_farewell=is_farewell):
            return "Good night." if is_farewell else "Hello. “what's due” shows what comes next."
        case Declined():
            return "All right, it stays as it is. Nothing is written."
        case QuestionSkipped():
            return question_skipped(outcome)
        case Paused(until=until):
            return (
                f"I am quiet until {day(until)}; “back” ends that."
                if until
                else "I am quiet; “back” ends that."
            )
        case StillThere(since=since):
            return (
                f"I have written each evening since {day(since)} and heard nothing. Shall I go on? "
                "Until you write a word I keep quiet; the days keep counting."
            )
        case MoreText(text=text):
            return text
        case Stranger():
            return (
                "This bot keeps one home's plants and I do not know you. "
                "If it is yours, send /start with the founding code it printed when it started."
            )
        case ButtonExpired():
            return "That button is from an earlier message. Please say it in words."
        case NudgeText():
            return nudge_text(outcome, voice)
        case _:
            raise TypeError(type(outcome).__name__)


def _beside(told: PlantsMoved) -> str:
    if not told.beside:
        return ""
    is_one = len(told.beside) == 1
    return (
        f" {listed(told.healthy)}, with no case, {'stands' if len(told.healthy) == 1 else 'stand'} at {told.place} too: "
        f"{'is' if is_one else 'are'} {listed(told.beside)} apart there?"
    )


def picture(outcomes: Iterable[Outcome]) -> Attachment | None:
    """Draw what goes with an answer, where anything does."""
    for one in outcomes:
        match one:
            case TrendShown():
                return trend_chart(one)
            case PhotosShown():
                return before_and_after(one)
            case _:
                pass
    return None


def document(outcomes: Iterable[Outcome]) -> Attachment | None:
    """Write the file that goes with an answer, where any does."""
    for one in outcomes:
        match one:
            case CalendarMade():
                return calendar_file(one)
            case TableMade():
                return table_file(one)
            case AllExported():
                return everything_file(one)
            case _:
                pass
    return None
