"""Answers that are one sentence with names, days and numbers in it; the others are made in the files by subject."""

import sys

from bot.actions.answer_question import AntsFirst, NoDishSoap
from bot.actions.begin_talk import Founded
from bot.actions.choose_home import HomeEntered, WhichHome
from bot.actions.come_back import LookFirst
from bot.actions.correct import CorrectedTo
from bot.actions.count_leaf import LeafDoubted, LeafNoted
from bot.actions.courtesy import Greeted, Helped, Welcomed
from bot.actions.decline import Declined
from bot.actions.describe_pest import PestsKnown
from bot.actions.explain_term import TermTold
from bot.actions.export import AllExported, TableMade
from bot.actions.forget import HomeErased
from bot.actions.give_first_aid import Exposed
from bot.actions.hold import Paused
from bot.actions.identify import KeyAsked
from bot.actions.keep_photo import PhotoKept, TooManyPhotos
from bot.actions.keep_status import StatusNow, StatusSet
from bot.actions.leave_label import LabelLeft
from bot.actions.log_find import FindInPast
from bot.actions.log_round import LeftOut, WhichEvening
from bot.actions.log_sign import SignLogged
from bot.actions.log_use import NothingSprayed, UnlikelyUse, UseLogged
from bot.actions.log_watering import WateringLogged
from bot.actions.lose_plant import Lost, PlantsGone
from bot.actions.move_plant import PlantsMoved
from bot.actions.press_button import AnsweredAlready, ButtonExpired, StillAsked
from bot.actions.read_temperature import BadTemperature
from bot.actions.refuse_plan import PlanRefused
from bot.actions.remove_place import PlaceInUse, PlaceRemoved
from bot.actions.rename import NameTaken, Renamed
from bot.actions.send_evening import StillThere
from bot.actions.set_hours import BadHours, EveningMoved, HoursSet
from bot.actions.set_kind import KindNoted
from bot.actions.set_place import NoPlaceAsked
from bot.actions.set_pot import PotSet
from bot.actions.set_repeats import RepeatsSet
from bot.actions.set_strict import StrictSet
from bot.actions.set_town import BadCoordinates, NoSuchTown, TownSet, WhichTown
from bot.actions.share import (
    HasLeft,
    Invited,
    Joined,
    LeaveAsked,
    MemberAsked,
    MemberGone,
    NoSuchMember,
    OwnerNow,
    OwnerOnly,
    SomebodyJoined,
    Stranger,
)
from bot.actions.show_photos import NoPhotos
from bot.actions.show_plants import NoPlants
from bot.actions.show_trend import NoTrend
from bot.actions.take_line import LinesTaken, TakenByOther
from bot.actions.tell_of_work import NothingToDo
from bot.actions.tell_privacy import PrivacyTold
from bot.actions.undo import NothingToUndo
from bot.actions.walk_through import NoWalk, WalkDone, WalkLevelAsked, WalkStopped
from bot.actions.work_through import NoWork, WorkPaused
from bot.wording.lines import SHORT
from bot.wording.saying import spoken

spoken(
    {
        NoDishSoap: "Better not: dish soap is a detergent of unknown strength and burns leaves; laundry and dishwasher detergents never "
        "(extension services). An insecticidal soap has a label that says how and on what. Until you have one: wipe or rinse by "
        "hand, swab single insects with alcohol. Nothing is written.",
        AntsFirst: "Ants first: they guard what makes honeydew and carry it from plant to plant. Follow the trail, stand the pots "
        "clear of walls, a ring of water or a sticky barrier around the stand; bait only where it is labelled for "
        "indoors, out of reach of children and animals. Then the plant. Nothing is written.",
        AnsweredAlready: "That was answered {on:near}: “{answer:button}”. {other:Change it to “{other:button}”? Nothing is changed yet.|To change it, say it in words; “undo” takes back what was told last.}",
        TermTold: "{name:capital}: {text}",
        PestsKnown: "I know {names:plurals}. “what are thrips” tells of one; “what is this” finds it out.",
        LeafNoted: "Written: one leaf, {before} before and {after} after. {removed:percent} come off here, by {counts} count{counts!n:|s}.",
        SignLogged: "{on:dated}: {sign:named} on {plants:plants}. No living pest yet: please look closely by {check_by:near}.",
        UseLogged: "Written for {on:day}: {ml:volume} for {plants:listed}.{factor!n:| I reckon with {factor:.2g} times the usual amount from now on.}",
        NoSuchMember: "{others:{name:I know nobody else called “{name:.40}” here, only {others:listed}.|Whoever that was for shares these plants no longer. Here are {others:listed}.} Nothing is written.|Nobody else shares these plants. “invite” makes a code for somebody.}",
        PlantsMoved: "Written: {plants:listed} at {place}.{still_isolated: Still apart: {still_isolated:listed}.|}"
        "{beside: {healthy:listed}, with no case, {healthy!n:stands|stand} at {place} too: {beside!n:is|are} {beside:listed} apart there?|}",
        StatusNow: "{apart:Apart: {apart:some}.|Nothing is apart.}\n"
        "{left:Left tonight: {left:some}.|Nothing is left tonight.}\n"
        "{next_at:I write next on {next_at:day}, {next_at:clock}.|}",
        Greeted: "{is_farewell:Good night.|Hello. “what's due” shows what comes next.}",
        NoPlants: "I know no plants yet. Send them one a line, like “hoya, landing”.",
        Helped: "Write as you would to a friend:\n"
        "“hoya 5 mealybugs”: you found some\n"
        "“all clean”: you looked, none seen\n"
        "“done”, “done except ivy”, “later”\n"
        "“got soap, ready to use, every 7 days”\n"
        "“fern, kitchen”: a new plant\n"
        "“what's due”, “why”, “what is apart?”\n"
        "“how do I wipe”, “what is this”\n"
        "“walk”: a look at all; “history”\n"
        "“undo”: the last is taken back",
        StillAsked: "{of:And {of}? Nothing of that is written yet.|And what I asked before?}",
        ButtonExpired: "That button is from an earlier message. Please say it in words.",
        KindNoted: "Written: {plants:listed}: {kind}.{unfit: Not for it: {unfit:listed}.|}",
        PotSet: "Written: {plants:listed} in {plants!n:a pot|pots} of {pot_cm:length}.",
        PlaceInUse: "{plants:listed} {plants!n:stands|stand} at {name}, so nothing is written. Move {plants!n:it|them} first.",
        StrictSet: "Written: the {is_strict:strict|usual} rule. Plants go back at a chance of {target:chance} that nothing is left.",
        BadTemperature: "{celsius:warmth} {asking:would be freezing. Is it °F, or °C? Not written yet.|is outside what plants at home live through (-10 °C to 45 °C). Nothing is written.}",
        Renamed: "Written: {old} is called {new} now.",
        NameTaken: "{name} is another's name already, so nothing is written. Which name else?",
        PlaceRemoved: "Written: {name} is no place of yours any more.",
        AllExported: "Everything told of this home, {entries} {entries!n:entry|entries}, without anybody's account and without the photos.",
        WateringLogged: "Noted for {on:near}: {plants:listed} watered.",
        CorrectedTo: "Corrected: the case on {plant} is {pest}. The plan follows it from now on.",
        NothingToUndo: "There is nothing of yours left to take back.",
        LeafDoubted: "{before} before and {after} after cannot be. Nothing is written; how many were on that leaf?",
        PlanRefused: "{text}",
        KeyAsked: "{text} “Not sure” is an answer too.",
        PlantsGone: "{plants:listed} is gone by what you told me, so nothing is written. “undo” if that was wrong.",
        Lost: "Written: {plants:listed} gone.{was_infested: Old mix and leaves go into a closed bag, not on the compost.|}{watched: Still look at {watched:listed} weekly.|}",
        FindInPast: "Written for {on:near}: {pest} on {plant}. Its case has been closed or corrected since, so the plan stays as it is.",
        UnlikelyUse: "{ml:volume} for {plants:listed} is far from the {usual_ml:volume} that I reckon. Was it all sprayed on {on:day}? Not written yet.",
        NothingSprayed: "No spray is written for {on:near}, so I cannot tell what that was for. Nothing is written.",
        LinesTaken: "Written: you do {plants:plants} tonight.{others: {others:listed} {others!n:knows|know}.|} “done” once it is done.",
        TakenByOther: "{name} does {plants:plants} tonight.",
        Paused: "I am quiet{until: until {until:day}|}; “back” ends that.",
        StillThere: "Since {since:day} I have heard nothing; that is all right. Shall I go on? Until you write a word I only ask once a week.",
        LookFirst: "Good to hear from you. {plants:First a look, then I plan by what you see: {plants:plants}. “{plants[0]} 3”, or “all clean”.|The evenings go on.}",
        RepeatsSet: "Written: {is_wanted:unanswered, an evening's message comes a second time, without a sound.|one message an evening. “remind me twice” brings the second back.}",
        PhotoKept: "Written: a photo of {plants:listed}.{count!n:| That is photo {count} of it; “photos {plants[0]}” shows before and after.}",
        NoPhotos: "{plant:No photo of {plant} yet. Send one with its name under it.|No photos yet. Send one with the plant's name under it.}",
        TooManyPhotos: "I keep {most} photos of a home at most, so this one is not kept.",
        LeftOut: "Nothing is written of {plants:listed}: said to be gone, and not answered.",
        WhichTown: "{is_guess:I know no town called “{text:.40}”, so nothing is written yet. Is it one of these? If not, a larger one nearby.|There are {towns:count} places called {text}. Which one?}",
        NoSuchTown: "I know no town called “{text:.40}”. Try a larger one nearby, or send coordinates like 51.1, 3.7; “skip” puts it off.",
        HoursSet: "Written: evening at {evening:clock}, {is_own:your quiet hours|quiet} from {quiet_from:clock} to {quiet_until:clock}.{is_silent: The evening comes to you without a sound.|}",
        EveningMoved: "{name} moved the evening to {evening:clock}, for all of you.",
        BadHours: "An evening at {evening:clock} would lie in your quiet hours, {quiet_from:clock} to {quiet_until:clock}. Nothing is written; which of the two shall move?",
        BadCoordinates: "{latitude:g}, {longitude:g} is not on the globe: latitude runs from -90 to 90, longitude "
        "from -180 to 180. Nothing is written.",
        NoPlaceAsked: "Which place is that? Say for instance “kitchen sill faces west”. Nothing is written.",
        MemberAsked: "{is_removal:Shall {name} no longer share these plants? What {name} told stays.|Shall {name} own this home, and invite, remove and erase in your place?} Not written yet.",
        MemberGone: "{name:{name} no longer shares these plants.|You no longer share these plants, and I do not write to you any more. Take care.}",
        Joined: "Welcome. You share {plants} plant{plants!n:|s} with {others:listed} from now on: whoever answers the evening answers for both, and “undo” takes back only your own words.",
        LeaveAsked: "{is_founder:You own this home and others share it. Hand it over first: “members” has the buttons. Nothing is written.|Leave this home? What you told stays with its plants. Not written yet.}",
        OwnerOnly: "Only {owner:{owner}|the owner} may do that. Nothing is written.",
        Stranger: "This bot keeps one home's plants and I do not know you. Who shares them can write “invite” for you{is_group:.|; if the bot is yours, send /start with the founding code it printed when it started.}",
        WhichHome: "You share more than one home. Which is this about?{must_send_again: Then please send it again.|}",
        HomeEntered: "This is about {owner:the home with {owner}|your own home} now.",
        HasLeft: "You no longer share these plants, and I do not write to you any more. Take care.",
        HomeErased: "{by} erased this home with all its plants and everything told. I do not write here any more.",
        PrivacyTold: "Kept on this bot's own machine: what is told of plants, with who told it and when, photos, your "
        "name and chat here, the town to a tenth of a degree. Nothing goes to anybody else.\nMessages are "
        "dropped after 30 days; copies of the database are kept for two weeks.\n“export” gives you "
        "everything; “forget me” erases your name and messages, the owner's “erase this home” all of it.",
        StatusSet: "Written: {is_wanted:a pinned message shows how things stand. “no status” ends it.|no pinned message any more. “pin a status” brings it back.}",
        TableMade: "The journal as a table, {rows:count} line{rows!n:|s}. Lines taken back are marked.",
        NoTrend: "{plant:{plant} has no open case to follow.|No case is open, so there is nothing to follow.}",
        WalkLevelAsked: "A walk by {plants} plant{plants!n:|s}, those without a find first. How closely do you look?",
        WalkStopped: "{plants_left:Stopped, {plants_left} plant{plants_left!n:|s} left. “walk” goes on there within two days.|The walk is over. What you told me stays written.}",
        NoWalk: "No walk is under way. “walk” begins one.",
        WorkPaused: "{stages_left:Enough for today, {stages_left} stage{stages_left!n:|s} left. “work day” goes on where you stopped.|The work day is over. What you ticked stays written.}",
        NoWork: "{is_begun:Nothing of the work day is left.|No plant has an open case, so there is nothing to work on. “work day for hoya and ivy” names some.}",
    }
)
spoken(
    {
        WalkDone: "Walk done.\n{found:Found something: {found:plants}.|}\n"
        "{ready:All-clear for {ready:listed}: “put {ready[0]} back”.|}\n"
        "{passed:Not looked at: {passed:plants}.|}\n{none_seen:None seen: {none_seen:plants}.|}",
        Welcomed: "{is_at_hand:Good to have; I say when its step comes. Of such things I keep no list.|You are welcome.}",
        LabelLeft: "Then no {name} on what is eaten, until you read it: “{name} label: 3 days before eating”.",
        Declined: "All right, it stays as it is. Nothing is written.",
        WhichEvening: "{plants:plants}: done last night, {on:day}, or today? Not written yet.",
        TownSet: "Written: {town}, {zone}. Your clock shows {local:clock}.{has_new_units: I take US measures and °F; “metric” or “24 hour clock” changes that.|}",
        Founded: "Hello {name}. I say what to do against pests, evening by evening, until your plants are "
        "free.\nWhat did you see on which plant? Or first: Which town are the plants in?",
        OwnerNow: "{name:{name} owns|You own} this home now.",
        Invited: "For one person, once, until {until:day}, {until:clock}. The link opens me; or let them write this to me:\n/start {code}",
        SomebodyJoined: "{name} shares your plants from now on.",
        NothingToDo: "{plants:Nothing is to be done to {plants:plants}.|No treatment is planned.}{look_on: A look {look_on:near}.|}",
    },
    SHORT,
)
spoken(
    {
        Exposed: "{in_doubt:Is somebody hurt, or an animal? Fresh air, rinse with much water, make nobody vomit, call "
        "your poison centre or a vet. Nobody is? Then:|Stop, get away from it, into fresh air.\n"
        "Eyes or skin: rinse with clean water for 15 minutes, take off wet clothes.\n"
        "Swallowed: rinse the mouth. Do not make anyone vomit.\n"
        "Call your poison centre, a doctor or, for an animal, a vet; the emergency number if breathing is hard or "
        "someone is drowsy. Have the label at hand; they decide.}",
    },
    sys.maxsize,
)
