"""A home told of in people's own words: town, plants, places, windows, finds and the shelf, in any order."""

import pytest

from bot.actions.action import Expecting
from bot.actions.add_plants import AddPlants
from bot.actions.ask import Ask, Topic
from bot.actions.incomplete import Incomplete
from bot.actions.situation import KnownPlace, KnownPlant
from bot.domain.identity import PlaceId, PlantId
from bot.domain.value import replace
from bot.phrases.hearing import heard, understand
from bot.phrases.homes import Home, read_home
from tests.phrases.situation import EVENING

NEW = replace(
    EVENING,
    plants=(),
    places=(),
    shelf=(),
    tonight=(),
    expecting=Expecting.TOWN,
    lacks_town=True,
)


def told(text: str) -> Home:
    return read_home(text, NEW)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "Hi so I'm in Bristol and I've got a jade and a hoya in the bedroom, window faces south, and a peace lily in the bathroom which is north, and the hoya has got mealybugs, about 15 of them, and I've got a bottle of insecticidal soap ready to use",
            "Bristol; bedroom (s): jade, hoya; bathroom (n): peace lily; 15 mealybugs on hoya; got insecticidal soap, ready to use",
        ),
        (
            "okay so we live in leeds and there's a fern and a spider plant in the bathroom and a monstera in the front room and the monstera has thrips all over it maybe fifty of them",
            "leeds; bathroom: fern, spider plant; front room: monstera; 50 thrips on monstera",
        ),
        (
            "Kassel. Im Wohnzimmer (window to the east) stand a calathea and a palm, in the Wintergarten a lemon tree",
            "Kassel; Wohnzimmer (e): calathea, palm; Wintergarten: lemon tree",
        ),
        (
            "mealybugs on my orchid!! about 20. it lives in the hall, with the two ferns",
            "hall: orchid, fern 1, fern 2; 20 mealybugs on orchid",
        ),
    ],
)
def test_a_home_told_in_one_breath(text: str, said: str) -> None:
    home = told(text)
    assert home.in_words() == said
    assert home.unread == ()
    assert home.is_known


@pytest.mark.parametrize(
    ("text", "name", "way"),
    [
        ("living room west", "living room", "w"),
        ("the stairwell window looks north", "stairwell", "n"),
        ("bathroom: no window", "bathroom", "no window"),
        ("our balcony is outdoors with morning sun", "balcony", "morning"),
        ("south-east facing studio", "studio", "SE"),
    ],
)
def test_which_way_a_place_looks(text: str, name: str, way: str) -> None:
    assert told(text).in_words() == f"{name} ({way.lower()})"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("hi my hoya is full of mealybugs, about 12", "12 mealybugs on hoya"),
        ("there are 30 aphids on the basil in the kitchen", "30 aphids on basil"),
        ("ivy's got spider mites, just a few", "few spider mites on ivy"),
    ],
)
def test_a_number_told_beats_a_manner_of_speaking(text: str, line: str) -> None:
    assert told(text).lines == (line,)


@pytest.mark.parametrize(
    "text",
    [
        "coffee ivy hoya bay chilli. that's six",
        "only the calathea po",
        "I wish I had a hoya",
        "no mealybugs on the hoya",
    ],
)
def test_a_word_that_was_not_read_is_told(text: str) -> None:
    home = told(text)
    assert home.unread or not home.is_known


def test_a_paste_of_sixty_with_headings_numbers_and_pots() -> None:
    home = told(
        "Rack 1 (grow light):\nAV 1-20\n20 african violets\nKitchen:\nphal 1..18\nhoya kerrii 4 in\n- jade, 12 cm"
    )
    places = [one.place for one in home.plants]
    assert (places.count("Rack 1"), places.count("Kitchen")) == (40, 20)
    assert [one.pot_cm for one in home.plants[-2:]] == [10.16, 12.0]  # 4 in are 10.16 cm


@pytest.mark.parametrize("text", ["jade", "hoya and ivy", "lemon, bay"])
def test_a_plant_is_no_town_of_that_name(text: str) -> None:
    assert told(text).town == ""


@pytest.mark.parametrize(
    ("text", "town"),
    [("ok Utrecht", "Utrecht"), ("hi bristol here", "bristol"), ("It's Kassel, Germany.", "Kassel, Germany")],
)
def test_a_town_is_found_among_other_words(text: str, town: str) -> None:
    assert told(text).town == town


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("ivy in the kitchen, and on the balcony one oleander", "kitchen: ivy; balcony: oleander"),
        ("two ferns on the sill in the kitchen and a zz in the hall", "kitchen: fern 1, fern 2; hall: zz"),
        ("ivy in the study, hall fern", "study: ivy; hall: fern"),
        ("Landing N: jade. Shelf (lamp, no window): hoya", "Landing (n): jade; Shelf (no window): hoya"),
        ("a hoya, a jade, no, not a jade, a zz, all in the loft", "loft: hoya, zz"),
    ],
)
def test_what_stands_where_follows_how_it_is_said(text: str, said: str) -> None:
    assert told(text).in_words() == said


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("the jade has mealybugs, 9. hmm no, 6", "jade; 6 mealybugs on jade"),
        ("12 aphids on the basil. no wait, 21", "basil; 21 aphids on basil"),
        ("my ivy has 5 spider mites. sorry, i meant 15", "ivy; 15 spider mites on ivy"),
    ],
)
def test_a_number_put_right_in_the_same_message_counts(text: str, said: str) -> None:
    assert told(text).in_words() == said


@pytest.mark.parametrize(
    "text", ["sorry long day. ok so", "Terrace:\nbasil\nHall:\nivy", "that was a nice reading"]
)
def test_no_town_is_taken_from_talk_or_from_a_heading(text: str) -> None:
    assert told(text).town == ""


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("got a orchd in the kitchn", "kitchen: orchid"),
        ("mostera has mealy bugs lik 10", "monstera; 10 mealy bugs on monstera"),
        ("a calathae n a fern", "calathea, fern"),
    ],
)
def test_slips_are_mended_for_an_offer_only(text: str, said: str) -> None:
    home = told(text)
    assert home.in_words() == said
    assert not home.is_known


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("ficus, 3 of them. palm just one", "ficus 1, ficus 2, ficus 3, palm"),
        ("orchids (two), jade, 1 fern", "orchid 1, orchid 2, jade, fern"),
        ("begonia: 2, ivy: 1", "begonia 1, begonia 2, ivy"),
        (
            "loft: 4 zinnias, 3 yuccas and the yuccas have aphids",
            "loft: zinnia 1, zinnia 2, zinnia 3, zinnia 4, yucca 1, yucca 2, yucca 3; aphids on yucca 1, yucca 2 and yucca 3",
        ),
        ("AV4-AV6, rack C", "rack C: AV 4, AV 5, AV 6"),
        ("3x jade 1x aloe", "jade 1, jade 2, jade 3, aloe"),
        ("jade, 12 cm, aloe", "jade, aloe"),
        ("the squad: ivy, jade, a palm", "ivy, jade, palm"),
    ],
)
def test_how_many_stands_behind_a_name_too(text: str, said: str) -> None:
    home = read_home(text, replace(NEW, expecting=Expecting.PLANTS, lacks_town=False))
    assert (home.in_words(), home.unread) == (said, ())


@pytest.mark.parametrize(
    "text",
    [
        "the dog must eat before me",
        "leave me alone",
        "my granny's garden: a pear tree, two hens and a swing",
        "nana grew leeks in her garden and sold them by the gate",
        "give me a call, it is urgent",
    ],
)
def test_what_tells_of_no_home_of_ours_is_none(text: str) -> None:
    home = told(text)
    assert not (home.plants)
    assert not (home.places)
    assert not (home.town)


def test_what_a_grandmother_handed_down_is_ours() -> None:
    assert told("my gran gave me a fern from her garden").plants


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "hall (north window, rather dim):\nivy\nfern\ndeck (outside, sun in afternoon):\njade",
            "hall (n): ivy, fern; deck (afternoon): jade",
        ),
        ("fern, and on the shelf, north window, a jade and a palm", "fern; shelf (n): jade, palm"),
        ("a palm in the bay window, south", "bay window (s): palm"),
        ("the ivy stands on the north balcony", "north balcony: ivy"),
        ("FERN. LIBRARY\nIVY. OFFICE", "LIBRARY: FERN; OFFICE: IVY"),
        ("Dear all\nden: ivy and a fern.\nMany greetings\nMr Quist", "den: ivy, fern"),
        ("yay ☀️ cork ireland. den: fern", "cork ireland; den: fern"),
        ("loft: glory leaf, ivy", "loft: glory leaf, ivy"),
    ],
)
def test_rooms_towns_and_names_in_the_shapes_newcomers_give_them(text: str, said: str) -> None:
    home = told(text)
    assert home.in_words() == said
    assert set(home.unread) <= {"rather", "dim"}


@pytest.mark.parametrize("text", ["the glorb is not a plant", "wax plant and hoya are the same"])
def test_what_is_no_plant_and_what_is_one_adds_none(text: str) -> None:
    assert told(text).is_empty()


def test_a_long_range_is_said_by_its_ends_and_its_number() -> None:
    home = told("AV1-AV30, rack D")
    assert home.in_words() == "rack D: AV 1 to AV 30 (30)"
    assert home.is_long_range()
    assert not told("AV 1-12, rack D").is_long_range()


def test_a_heading_alone_among_lines_is_read() -> None:
    assert read_home("den\nivy, fern\nloft\njade", replace(NEW, lacks_town=False)).plants


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        (
            "my monstera and two hoyas are full of mealybugs",
            ("many mealybugs on monstera, hoya 1 and hoya 2",),
        ),
        ("there are spider mites on the fern and the ivy", ("spider mites on fern and ivy",)),
        ("the fern and the ivy both have thrips", ("thrips on fern and ivy",)),
        ("i have a fern, and my ivy has thrips", ("thrips on ivy",)),
    ],
)
def test_a_find_names_all_the_plants_it_was_on(text: str, lines: tuple[str, ...]) -> None:
    assert told(text).lines == lines


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("dogtrot: moon feather, 2 zorbias", "dogtrot: moon feather, zorbia 1, zorbia 2"),
        ("queen's tears and burro's tail in the kitchen", "kitchen: queen's tears, burro's tail"),
        ("i live in aarhus in denmark, ivy in the hall", "aarhus, denmark; hall: ivy"),
        ("im in Lyon, no wait sorry, Nantes", "Nantes"),
        ("Den:\n- fern\n- zorbia\n\nMuniment room:\n- hoya", "Den: fern, zorbia; Muniment room: hoya"),
    ],
)
def test_what_nobody_listed_is_named_by_where_it_stands(text: str, said: str) -> None:
    assert told(text).in_words() == said


def test_what_is_said_of_talk_is_no_plant_and_no_place() -> None:
    assert not told("a city where even the air is on a diet").plants
    assert not told("the windae faces west").places[0].name


@pytest.mark.parametrize(
    "text",
    [
        "I have nothing to treat with.",
        "nothing to spray with",
        "no products",
        "nothing is at hand to treat with.",
    ],
)
def test_who_has_nothing_to_treat_with_puts_nothing_off(text: str) -> None:
    assert understand(text, EVENING) == (Ask(topic=Topic.BUY),)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("east attic: aloe, yucca", "east attic: aloe, yucca"),
        ("the rear lounge has a jade, window there looks north", "rear lounge (n): jade"),
        ("mint and sage upper pantry", "upper pantry: mint, sage"),
        ("palm in the south west bedroom which looks east", "south west bedroom (e): palm"),
        ("The study looks south. North hall: ivy", "North hall: ivy; study (s)"),
        ("ivy on the east sill, fern on the west sill", "east sill (e): ivy; west sill (w): fern"),
        ("ivy in the attic, den fern", "attic: ivy; den: fern"),
        ("bird of paradise in the den", "den: bird of paradise"),
    ],
)
def test_a_room_s_name_holds_which_of_the_rooms_it_is(text: str, said: str) -> None:
    assert told(text).in_words() == said


@pytest.mark.parametrize("room", ["coal shed", "plate cupboard", "ladder room", "hale cellar"])
def test_a_room_s_name_is_no_slip_of_another(room: str) -> None:
    assert told(f"a hoya and a fern in the {room}").in_words() == f"{room}: hoya, fern"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("aloe in the loft, also two ivies in there", "loft: aloe, ivy 1, ivy 2"),
        (
            "a jade in the snug. also a palm in there, and a lime in the upper hall",
            "snug: jade, palm; upper hall: lime",
        ),
        ("a palm in the bay window. the bay faces east", "bay window (e): palm"),
        ("mint on the kitchen shelf. kitchen looks north", "kitchen shelf (n): mint"),
        ("the den faces west and north: a yucca", "den (w): yucca"),
        ("an aloe in the attic, no sun", "attic: aloe"),
        ("jade in the den, dunno which way the den faces", "den (unknown): jade"),
        ("pot 1, room 3\npot 2, room 4", "room 3: pot 1; room 4: pot 2"),
    ],
)
def test_what_is_said_of_a_place_spoken_of_is_of_that_place(text: str, said: str) -> None:
    assert told(text).in_words() == said


@pytest.mark.parametrize(
    "text",
    [
        "not sure the den is clean",
        "no idea when i sprayed the den",
        "dunno if the den needs a look",
        "unsure about the den test",
    ],
)
def test_a_doubt_about_something_else_is_none_about_a_window(text: str) -> None:
    here = replace(NEW, untold=("den",), places=(KnownPlace(PlaceId(1), "den"),))
    assert not read_home(text, here).places


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("an ivy in the den and another on the landing", "den: ivy 1; landing: ivy 2"),
        ("three jades: two in the den and one in the loft", "den: jade 1, jade 2; loft: jade 3"),
        ("one palm in the study and one in the hall", "study: palm 1; hall: palm 2"),
        ("lilies lily 1 to lily 3 in the pupils' room", "pupils' room: lily 1, lily 2, lily 3"),
        ("a new yucca from Joan in the attic", "attic: yucca"),
        ("oregano and sage on the Simsbord", "Simsbord: oregano, sage"),
        ("a plant named Wilma in the loft", "loft: Wilma"),
        ("the coal hole has not got a window", "coal hole (no window)"),
        ("a lime... no, a lemon in the den", "den: lemon"),
        ("the study looks to the west hall is north", "study (w); hall (n)"),
    ],
)
def test_several_of_a_kind_stand_in_different_rooms(text: str, said: str) -> None:
    assert told(text).in_words() == said


@pytest.mark.parametrize(
    ("text", "way"),
    [
        ("the kitchen gets morning sun", "e"),
        ("the study one gets the sun in the evening", "w"),
        ("den gets the sun till noon", "e"),
        ("our patio has sun before lunch", "morning"),
        ("the terrace gets late sun", "afternoon"),
        ("our balcony gets the evening sun", "afternoon"),
        ("the den is outdoors, morning sun", "morning"),
    ],
)
def test_the_sun_in_a_room_says_which_way_its_window_looks(text: str, way: str) -> None:
    assert f"({way})" in told(text).in_words()


@pytest.mark.parametrize(
    ("town", "ways", "kept"),
    [
        ("Sydney", "north and west", "n"),
        ("Bergen", "north and west", "w"),
        ("Bergen", "south and east", "s"),
        ("Christchurch", "south and east", "e"),
    ],
)
def test_of_two_windows_the_sunnier_is_kept_on_either_half_of_the_earth(
    town: str, ways: str, kept: str
) -> None:
    assert told(f"{town}. the den faces {ways}: a yucca").in_words() == f"{town}; den ({kept}): yucca"


@pytest.mark.parametrize(
    "text",
    [
        "plant | place | pot\nfern | hall | 12 cm\njade | den | 9 cm",
        "plant, room\nfern, hall\njade, den",
        "fern;hall\njade;den",
        "fern - hall\njade - den",
    ],
)
def test_a_paste_of_columns_is_read(text: str) -> None:
    assert told(text).in_words() == "hall: fern; den: jade"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a palm and my fern Knut stand in the den", "den: palm, fern Knut"),
        ("my jade Bo and my aloe Tilly are in the hall", "hall: jade Bo, aloe Tilly"),
        (
            "they have names: Sunniva (a jade), Torvald (an ivy). Torvald and Sunniva live on the landing",
            "landing: jade Sunniva, ivy Torvald",
        ),
        ("the ivy called Runa lives in the loft", "loft: ivy Runa"),
    ],
)
def test_a_plant_may_be_called_like_a_person(text: str, said: str) -> None:
    assert told(text).in_words() == said


@pytest.mark.parametrize(
    ("text", "beyond"),
    [
        ("I meant two hoyas, not three", ("hoya 3",)),
        ("wait, it's 2 hoyas not 3", ("hoya 3",)),
        ("sorry i meant two hoyas", ("hoya 3",)),
        ("two hoyas in the kitchen", ()),
    ],
)
def test_a_number_of_plants_is_put_right(text: str, beyond: tuple[str, ...]) -> None:
    hoyas = tuple(KnownPlant(id=PlantId(n), names=(f"hoya {n}",), place=PlaceId(1)) for n in (1, 2, 3))
    home = read_home(
        text, replace(NEW, plants=hoyas, places=(KnownPlace(PlaceId(1), "kitchen"),), lacks_town=False)
    )
    assert home.beyond == beyond
    assert not home.plants


@pytest.mark.parametrize("text", ["before the war i had none", "an ode to the sun", "the vet was here"])
def test_a_short_word_is_no_slip(text: str) -> None:
    assert not told(text).plants


@pytest.mark.parametrize(
    ("text", "town"),
    [
        ("hi Ada, we live in Tampere and the ivy stands in the hall", "Tampere"),
        ("no no, I am in Bergamo, not in Africa, and the fern is in the den", "Bergamo"),
        ("bergen got two ferns, den, east window", "bergen"),
        ("hoya has greenfly, oh and I'm in Aberdeen these days, not Glasgow", "Aberdeen"),
        ("pff Leipzig", "Leipzig"),
        ("We moved from Billings to Leipzig last year, the fern is in the den", "Leipzig"),
        ("Let me turn to the fern, which is in the den, east window", ""),
        ("Olomouc is where I live, the fern stands in the hall", "Olomouc"),
        ("Malmö joh and the ivy has seven whiteflies", "Malmö"),
        ("fern and ivy, den, north window", ""),
        ("the fern spots and the ivy hopes, den", ""),
    ],
)
def test_a_town_is_read_beside_all_else_that_is_told(text: str, town: str) -> None:
    assert told(text).town == town


def test_a_town_that_a_name_may_be_is_offered_only() -> None:
    home = told("my aunt Charlotte left me the hoya, den, north window")
    assert not (home.town and home.is_known)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("den: ivy that gives me cause for worry, fern. loft: agave", "den: ivy, fern; loft: agave"),
        ("okey dokey. fern in the den, ivy in the hall", "den: fern; hall: ivy"),
        ("a bit slower now. fern in the den", "den: fern"),
    ],
)
def test_a_turn_of_speech_beside_placed_plants_is_no_plant_and_no_room(text: str, said: str) -> None:
    assert told(text).in_words() == said


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("hoya attic, trundle den, basil loft", "attic: hoya; den: trundle; loft: basil"),
        ("trundle attic, basil bedroom.", "attic: trundle; bedroom: basil"),
        ("den basil, loft trundle, attic hoya", "den: basil; loft: trundle; attic: hoya"),
        ("basil in bathroom, trundle in attic", "bathroom: basil; attic: trundle"),
        ("moth orchid bathroom, trundle attic", "bathroom: moth orchid; attic: trundle"),
    ],
)
def test_a_strange_name_shifts_no_other_plant_s_room(text: str, said: str) -> None:
    home = told(text)
    assert (home.in_words(), home.unread) == (said, ())


@pytest.mark.parametrize(
    "text",
    [
        "what about a calathea",
        "how about ferns",
        "and what about a lemon tree",
        "should I get a basil",
        "do you know orchids",
        "which fern",
    ],
)
def test_a_question_about_a_kind_tells_of_no_plant(text: str) -> None:
    for known in (NEW, replace(NEW, lacks_town=False), replace(EVENING, lacks_town=True)):
        assert not any(isinstance(one, AddPlants) for one in heard(text, known).sure)


def test_what_is_doubted_of_an_offered_home_may_be_left_out() -> None:
    offer = next(one for one in understand("hoya attic, trundle den", NEW) if isinstance(one, Incomplete))
    doubted = replace(NEW, choices=offer.choices, choice_texts=("Yes", "Something else"))
    (asked,) = understand("is trundle right?", doubted)
    assert isinstance(asked, Incomplete)
    assert (asked.text, [one.of for one in asked.choices][1:2]) == (offer.text, ["trundle"])
