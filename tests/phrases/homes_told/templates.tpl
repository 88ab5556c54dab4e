# who: shapes of messages, each filled several times with kinds, rooms, towns and invented names
# written: 2026-11-29
# places of plants that do not stand at place 1, then the line

= P3@2 P4@2
my [L1={room}] ([S1={way}]) keeps a [P1={kind}] plus a [P2={kind}], my [L2={room}] ([S2={way}]) keeps [N3={n}] [P3={kinds}] and one [P4={kind}]

= P2@2
[P1={kind}] goes in the [L1={room}], [P2={kind}] goes in the [L2={room}]

= P3@2
[L1={room}] - [P1={kind}], [P2={kind}]\n[L2={room}] - [P3={kind}]

= P3@2 P4@2
[L1={room}]; [S1={way}]; [P1={kind}], [P2={kind}]\n[L2={room}]; [S2={way}]; [P3={kind}], [P4={kind}]

= P3@2 P4@2
[L1={room}], [S1={way}] window. [P1={kind}], [P2={kind}]. [L2={room}], [S2={way}] window. [P3={kind}], [P4={kind}]

= P3@2 P4@2
[L1={Room}] ([S1={way}]):\n[P1={kind}]\n[P2={kind}]\n[L2={Room}] ([S2={way}]):\n[P3={kind}]\n[P4={kind}]

= P2@2 P3@3
[P1={kind}] | [L1={room}]\n[P2={kind}] | [L2={room}]\n[P3={kind}] | [L3={room}]

= P2@2 P3@3
[P1={kind}], [L1={room}], 14 cm\n[P2={kind}], [L2={room}], 9 cm\n[P3={kind}], [L3={room}], 22 cm

= P2@2
[P1={kind}] ([L1={room}], [S1={way}])\n[P2={kind}] ([L2={room}], [S2={way}])

= P2@2 P3@2
[P1={kind}] : [L1={room}]\n[P2={kind}], [P3={kind}] : [L2={room}]

= P3@2
[P1={kind}] & [P2={kind}] on the [L1={room}]; [P3={kind}] on the [L2={room}]

=
[P1={kind}] and [P2={kind}] share the [L1={room}], it looks [S1={way}]

=
The [L1={room}] [S1=looks {way}] and there I keep [P1={kind}], [P2={kind}] and [P3={kind}].

=
you find [N1={n}] [P1={kinds}] and the [P2={kind}] standing in my [L1={room}], whose window is to the [S1={way}]

=
[S1={way}]-facing [L1={room}]: [P1={kind}], [P2={kind}]

=
a [S1={way}] facing [L1={room}] holding [P1={kind}] and [P2={kind}]

=
[L1={room}] has windows [S1=to the {way}], in it stand [P1={kind}] and [P2={kind}]

= P2@2
the [L1={room}] faces [S1={way}] with a [P1={kind}], and the [L2={room}] faces [S2={way}] with a [P2={kind}]

=
[L1={room}] [S1={way}], [L2={room}] [S2={way}], [L3={room}] [S3={way}]

=
window of the [L1={room}]: [S1={way}]. of the [L2={room}]: [S2={way}]

=
the [L1={room}] window goes [S1={way}] and the one of the [L2={room}] goes [S2={way}]

=
the [L1={room}] has one little window that points [S1={way}]

=
[L1={room}]'s window [S1=looks {way}]

=
[L1={room}] is [S1={way}]. [L2={room}] is [S2={way}], big windows

=
[L1={room}] [S1=faces {way}], large window; the [L2={room}] is [S2={way}]

=
[L1={room}]: [S1=outside, sun in the morning]

=
the [L1={room}] lies [S1=outdoors], [S1={way}], with [S1=sun from 2 pm] on

=
[L1={room}] is [S1=outside], it gets [S1=sun until 11]

=
[L1={room}] is [S1=outdoors]

=
our [L1={room}] gets [S1=evening sun]

=
[L1={room}], [S1=no window], [S1=lamp from 7 to 19]

=
[L1={room}], [S1=grow light from 9 to 21]

=
[L1={room}]: [S1=lamp until 20:00]

=
[S1={way}]

=
[S1={way}] i think

=
it [S1=looks {way}]

=
[S1=no idea], sorry

=
[S1=dont know] which it is

=
[S1=no window] there

=
[S1=outdoors, afternoon sun]

=
hi, [T={Town}] here

=
ok it is [T={Town}]

=
We are in [T={Town}], {Land}.

=
i live in [T={town}]

=
Town: [T={Town}]

=
town [T={Town}]

=
[T={Town}]

=
[T={town}] please

=
near [T={Town}] actually

=
im from [T={Town}], no sorry, my plants are in [T={Town}]

=
Hello! I come from [T={Town}] and I have a [P1={kind}] in the [L1={room}]

=
so i live in [T={town}] and theres a [P1={kind}] and a [P2={kind}] in the [L1={room}] and a [P3={kind}] too and the [P3={kind}] has [F3={pest}] on it maybe 40 of them

=
living in [T={Town}]. [P1={kind}] in the [L1={room}] has [F1={pest}], about 15. bottle of [B={product}] ready to use

= P2@2
[T={Town}]. in the [L1={room}] (window [S1={way}]) stands a [P1={kind}], in the [L2={room}] a [P2={kind}]

=
[T={Town}]\n[L1={room}]: [P1={kind}], [P2={kind}]\n[F1={pest}] on the [P1={kind}], 12\ngot [B={product}]

=
my [P1={kind}] is covered in [F1={pest}], roughly 30

=
[F1={pest}] on my [P1={kind}]!! around 25. the [P1={kind}] stands in the [L1={room}] with the [P2={kind}]

=
the [P1={kind}] has [F1={pest}], 7. sorry no, 9

=
18 [F1={pest}] on the [P1={kind}]. wait, 13

=
[P1={kind}] with 4 [F1={pest}]. i mean 14

=
there were 22 [F1={pest}] on the [P1={kind}] in the [L1={room}]

=
[P1={kind}] has [F1={pest}], only a few

=
few [F1={pest}] on the [P1={kind}] and a few on the [P2={kind}]

=
my [P1={kind}] and [N2={n}] [P2={kinds}] have [F2={pest}] everywhere

=
the [P1={kind}] and the [P2={kind}] are full of [F2={pest}]

=
i own a [P1={kind}], and on my [P2={kind}] there are [F2={pest}]

=
[F1={pest}]

=
[F0={pest}] everywhere, help

=
[P1={kind}]

=
[P1={kind}], [P2={kind}], [P3={kind}], [P4={kind}]

=
[P1={kind}]\n[P2={kind}]\n[P3={kind}]

=
- [P1={kind}]\n- [P2={kind}]\n- [P3={kind}]

=
1. [P1={kind}]\n2. [P2={kind}]\n3. [P3={kind}]

=
ive got [P1={kind}] a [P2={kind}] and a [P3={kind}]

=
a [P1={kind}] n a [P2={kind}]

=
[P1={kind}] [P2={kind}] [P3={kind}] [P4={kind}]. thats 4

=
the gang: [P1={kind}], [P2={kind}], a [P3={kind}]

=
[P1={kind}] [N1=x{n}]

=
[N1={n}x] [P1={kinds}] [N2=1x] [P2={kind}]

=
[N1={n} x] [P1={kind}]

=
[P1={kind}] ([N1={n}]), [P2={kind}] ([N2={n}])

=
[P1={kind}]: [N1={n}], [P2={kind}]: [N2={n}], [P3={kind}]: [N3=1]

=
[P1={kind}], [N1={n}] of them. [P2={kind}] just [N2=one]

=
[P1={kind}], [N1={n} pcs]

=
[N1=a pair of] [P1={kinds}] and [N2=a dozen] [P2={kinds}]

=
[P1=AV] [N1=1-{n}], [L1={room}]

=
[P1=AV] [N1=3] to AV 9, [L1={room}]

=
[P1={kind}] [N1=1..{n}], [P2={kind}] [N2=2], [L1={room}]

=
[L1={room}] 2 (grow light):\n[P1={kind}] [N1=1-{n}]\n[N2={n}] [P2={kinds}]\n[P3={kind}], 11 cm

=
[L1=Shelf B]: [P1={kind}], [P2={kind}]

= P2@2
[L1=rack 3] [P1={kind}]. [L2=rack 4] [P2={kind}]

=
[P1={kind}] 5 in, [P2={kind}] 12 cm, [P3={kind}]

=
[P1={kind}], 15 cm pot, [P2={kind}]

=
we have [N1={n}] [P1={kinds}], [N2={n}] [P2={kinds}] and a [P3={kind}], all in the [L1={room}]

=
hi! we keep a [P1={kind}], three [P2={kinds}] and a [P3={kind}], they are all on the [L1={room}]

=
[P1={kind}], [P2={kind}] and [P3={kind}]. All of them stand in the [L1={room}].

=
I own a [P1={kind}], a [P2={kind}] and [N3={n}] [P3={kinds}]. They live in the [L1={room}].

=
[P1={kind}] plus [P2={kind}]. Both of these are at the [L1={room}], [S1={way}].

=
[P1={kind}], [P2={kind}], [P3={kind}]. Every single one is kept on the [L1={room}]

=
the [P1={kind}]. It sits in the [L1={room}] next to the [P2={kind}]

=
[F1={pest}] on the [P1={kind}]. It is in the [L1={room}]. In the same [L1={room}]: [P2={kind}] and [P3={kind}].

= P2@2
[L1={room}]. [P1={kind}]. [L2={room}]. [P2={kind}]

= P2@2
[P1={kind}]. [L1={room}]\n[P2={kind}]. [L2={room}]

= P2@2
the [P1={kind}] is in the [L1={room}], the [P2={kind}] is on the [L2={room}]

= P2@2 P3@2
on the [L1={room}] stands the [P1={kind}], in the [L2={room}] the [P2={kind}] and the [P3={kind}]

= P2@2
[P1={kind}] in the [L1={room}], and on the [L2={room}], [S2={way}], a [P2={kind}]

= P2@2
[N1={n}] [P1={kinds}] on the [L1={room}] and a [P2={kind}] in the [L2={room}]

= P2@2
[P1={kind}] in the [L1={room}], [L2={room}] [P2={kind}]

=
[L1={room}] [P1={kind}]

=
[P1={kind}] [L1={room}]

=
i forgot a [P1={kind}], it's in the [L1={room}]

=
also a [P1={kind}] on the [L1={room}]

=
we bought a [P1={kind}] yesterday, it is in the [L1={room}] now

=
got a new [P1={kind}] at the market

=
my aunt gave me a [P1={kind}] out of her garden

=
[P1={kind}] stays on the [L1={way} {room}]

=
the [P1={kind}] moved to the [L1={room}]

=
i took the [P1={kind}] into the [L1={room}], it looks [S1={way}]

=
put the [P1={kind}] apart, in the [L1={room}]

=
in the [L1={room}]

=
on the [L1={room}], both

=
all of them in the [L1={room}]

=
[L1={room}]

=
[L1={room}]\n[P1={kind}], [P2={kind}]

= P3@2
[L1={Room}]\n[P1={kind}], [P2={kind}]\n[L2={Room}]\n[P3={kind}]

= P3@2
[L1={Room}]\n- [P1={kind}]\n- [P2={kind}]\n\n[L2={Room}]\n- [P3={kind}]

=
not the {kind}, the [P1={kind}] is in the [L1={room}]

=
a [P1={kind}], a {kind}, no, not a {kind}, a [P2={kind}], all in the [L1={room}]

=
no wait, it is a [P1={kind}], not a {kind}

=
not in the {room}: it stands in the [L1={room}]

=
the {kind} is no plant of mine, forget it

=
no {kind} here, only the [P1={kind}]

=
[P1={kind}] [L1={room}], [P2={kind}] there too, [S1={way}] side

=
[B={product}], ready to use

=
i have [B={product}] and some [B={product}]

=
[B=nothing yet]

=
I have [B=nothing] to spray with

=
500 ml of [B={product}] concentrate

=
there is a bottle of [B={product}] at home

=
Dear all, [L1={room}]: [P1={kind}] and a [P2={kind}]. Many greetings, {Name}

=
hello, it's {Name}. i have a [P1={kind}] in the [L1={room}]

=
my name is {Name} and I live in [T={Town}]

=
what a long day, i am off to bed

=
so many plants all over the flat, i dont know where to start

=
about ten plants in one room, a terrible outbreak

=
the dog must eat before me

=
this is a city where the air is bad

=
i wish i had a green thumb

=
thank you so much, {Name}

=
can you tell me what to do first?

=
good evening, are you there?

=
nothing new here

=
it was a nice read

=
mother grew beans by the fence and sold them at the gate

=
good night and sleep well

=
the bus was late again so i only got home now

=
is that bad for the cat?

=
my hands itch since i sprayed

=
yes

=
no thanks

=
later please

=
done with everything tonight

=
sprayed the [P1={kind}] and wiped the [P2={kind}]

=
the [P1={kind}] is clean, nothing on it

=
no [F1={pest}] on the [P1={kind}] today

= P1@0
[P1={kind}], and in the [L1={room}], [S1={way}] window, [P2={kind}] and [P3={kind}]

= P1@0
a [P1={kind}]. And on the [L1={room}] two more: [P2={kind}], [P3={kind}]

=
the [P1={kind}] stands in the [L1={room}], not in the {room}

=
[P1={kind}] on the [L1={room}] and not on the {room}

=
no, the [P1={kind}] stands in the [L1={room}]

=
wrong: the [P1={kind}] is in the [L1={room}]

= P2@2
[L1={room}]: [P1={kind}]. [L2={room}]: [P2={kind}]. [L1={room}] and [L2={room}] look [S2={way}]

= P2@2
[P1={kind}] is in the [L1={room}] and [P2={kind}] in the [L2={room}], both [S2={way}]

= P2@2
[L1={room}], [S1={way}]: [P1={kind}]\n[L2={room}] [S2=same]: [P2={kind}]

= P3@2
In der [L1={Room}] (Fenster [S1=nach Osten]) stehen eine [P1={Kind}] und eine [P2={Kind}], im [L2=Flur] ein [P3={Kind}]

= P3@2
Im [L1=Büro] (window [S1=to the {way}]) stand a [P1={kind}] and a [P2={kind}], im [L2=Schlafzimmer] a [P3={kind}]

=
the [L1={room}] has a [S1={way}] window and a lamp too: [P1={kind}]

=
[P1={kind}] in the [L1={room}], [S1={way}] side with a lamp over it

=
[N1=number 5] [P1={kind}] from the market, [L1={room}]

=
[N1=nr 2] [P1={kind}], now in the [L1={room}]

=
the big old [P1={kind}] of my mother, [L1={room}]

=
a tiny [P1={kind}] and one huge [P2={kind}] in the [L1={room}]

=
there's a big [P1={kind}] by the [L1={room}]

= P2@2 P3@2
the [L1={room}] has a [P1={kind}] and in the [L2={room}], looking [S2={way}], are a [P2={kind}] and a [P3={kind}]

=
I have a [P1={kind}]

=
i've only a [P1={kind}]

=
a [P1={kind}] and [N2={n}] [P2={kinds}] are covered in [F2={pest}]

=
the [P1={kind}] and the [P2={kind}] both got [F2={pest}]

=
[F1={pest}] are on the [P1={kind}] and on the [P2={kind}]

=
town [T={Town}-{Town}]

=
gran gave me this [P1={kind}]

=
the [L1={room}] looks [S1={way}], the others are [S2={way}]

=
I live in [T={Town}]. [L1={room}]: [P1={kind}], [P2={kind}] and [P3={kind}] ([S1=lamp only])

=
[L1={room}]: [P1={kind}], [P2={kind}]

=
[L1={Room}]: [P1={kind}], [N2={n}] [P2={kinds}], [P3={kind}]

= P2@2
[P1={kind}] in the [L1={room}]. [L2={room}]: [P2={kind}]

= P2@2 P3@2
[P1={kind}] stands in the [L1={room}]. [P2={kind}] and [P3={kind}] in the [L2={room}]

=
there is a [P1={kind}] on the [L1={room}]

= P2@2
there's a [P1={kind}] in the [L1={room}] and a [P2={kind}] on the [L2={room}]

=
the [P1={kind}] was bought on friday

=
the [P1={kind}] and the [P2={kind}] are doing fine

=
my [P1={kind}] is a sad sight

= P2@2 P3@3
[P1={kind}], [L1={room}]\n[P2={kind}], [L2={room}]\n[P3={kind}], [L3={room}]

= P2@1 P3@2 P4@2
[P1={kind}], [L1={room}]\n[P2={kind}], [L1={room}]\n[P3={kind}], [L2={room}]\n[P4={kind}], [L2={room}]

= P2@1 P3@2
[P1={kind}] - [L1={room}]\n[P2={kind}] - [L1={room}]\n[P3={kind}] - [L2={room}]

= P3@2 P4@2
[L1={room}] / [P1={kind}] / [P2={kind}] / [S1={way}]. [L2={room}] / [P3={kind}] / [P4={kind}] / [S2={way}]

= P3@2 P4@2
[L1={room}]: [P1={kind}], [P2={kind}] ([S1={way}])\n[L2={room}]: [P3={kind}], [P4={kind}] ([S2={way}])

=
the [L1={room}] is [S1=outdoors], [S1=looks {way}], [S1=sun from around 2pm]

=
[L1={room}] is [S1=outside], [S1=sun from about 4 pm]

=
[L1={way} {room}]: [P1={kind}], [P2={kind}]

= P2@2
[L1={way} {room}] has [P1={kind}], window [S1={way}]. [L2={which} {room}] has [P2={kind}], window [S2={way}]

= P3@2
[P1={kind}] and [P2={kind}] [L1={which} {room}], [P3={kind}] [L2={room}]

= P3@2
[L1={which} {room}] [S1={way}] [P1={kind}] [P2={kind}] [L2={way} {room}] [S2={way}] [P3={kind}]

=
the [P1={kind}] is in the [L1={way} {room}], it looks [S1={way}]

= P1@2 P2@2
the [L1={room}] faces [S1={way}] [L2={which} {room}] has a [P1={kind}] and a [P2={kind}]

=
[L1={which} {room}], [P1={kind}] and [P2={kind}], faces [S1={way}]

=
[L1={room}], [P1={kind}] and [P2={kind}], [S1={way}]

= P3@2
[L1={room}], [P1={kind}] and [P2={kind}], looks [S1={way}]. [L2={room}] has [P3={kind}], [S2={way}] as well

= P2@2
[P1={kind}] on the [L1={way} sill], [P2={kind}] on the [L2={way} sill]

=
[L1={way} window]: [P1={kind}], [P2={kind}]

=
it is the [L1={which} {room}], not the {room}

=
[L1={which} {room}]

=
the [L1={room}] is a room, not a plant

=
in the [L1={way} window] i have a [P1={kind}] and a [P2={kind}]

= P2@2
[L1={room}] looks [S1={way}] [L2={room}] looks [S2={way}] [P1={kind}] in the first [P2={kind}] in the second

= P1@2 P2@3
[L1={room}] is [S1={way}] [L2={which} {room}] has [P1={kind}] and looks [S2={way}] [L3={way} {room}] has [P2={kind}]

=
[L1={room}]: [P1={kind}], [P2={kind}]. [S1={way} window]

=
[L1={room}] - [P1={kind}]. [S1={way} window].

=
the [L1={room}] faces [S1={way}]

=
the [L1={which} {room}] faces [S1={way}]

=
the [L1={room}]: [S1={way}]

=
my [P1={kind}] is full of [F1={pest}], about 12

=
the [P1={kind}] is covered in [F1={pest}], {n} of them i think

=
the [L1={room}] looks to the [S1={way}]

=
I live in [T={Town}]. [L1={room}]: [P1={kind}], [P2={kind}], [P3={kind}] ([S1=lamp only])

=
[P1={kind}] has [F1={pest}], I counted {n}. Also the [P2={kind}], {n}.

= P3@2
[N1={n}] [P1={kinds}] on the [L1={room}]\n[N2={n}] [P2={kinds}], [S1={way} window]\n[P3={kind}], [L2={room}]

=
i have here in the [L2={room}] five plants: [P1={kind}], [P2={kind}] and [P3={kind}] on the [L1={name}] in the {room}

=
[P1={kind}] and [P2={kind}], [S1={way} window]

=
[L1={room}]: [P1={kind}], [P2={kind}] ([S1=lamp only])

=
[L1={room}]: [P1={kind}], [P2={kind}], [P3={kind}] ([S1={way}])

=
[L1={room}]: [P1={kind}], [P2={kind}], [P3={kind}], [P4={kind}] ([S1={way} window])

=
i live in [T={town}]. [L1={room}] - [P1={kind}], [P2={kind}], [P3={kind}] ([S1=no window])

=
only the {room} then, there on the [L1={name}] stand [P1={kind}], [P2={kind}], [P3={kind}]

=
some [B={product}]

=
got some [B={product}]

=
the [L1={which} {name}] faces [S1={way}]

=
[P1={kind}] [L1={room}] [S1={way}]


=
[L1={room}] faces [S1={way}], large window. [L2={room}] is [S2={way}]

=
[L1={room}] looks [S1={way}], one tall window, [P1={kind}] in it

=
[P1={kind}] and [P2={kind}] in the [L1={room}].\n\n[X={bye}, {Name}]

=
[L1={room}]: [P1={kind}], [P2={kind}], [S1={way}]\n\n[X={bye}, {Name} x]

=
i have [B={product}]. [X={bye} {Name}]

=
got [B={product}] too. [X={bye}, {Name}]

=
[P1={kind}] has [F1={pest}], about 12. [X=hugs {name} xx]

=
the [P1={kind}] lives in the [L1={room}].\n[X={Bye},\n{Name} {Name}]

=
[T={Town}].\n[X={Bye},\n{Name}]

=
Dear all,\n[L1={room}]: [P1={kind}] and [P2={kind}].\n[X={Bye}\n{Name}]

=
ok [P1={kind}], [P2={kind}], [P3={kind}]. [X=bye, {name}]

=
[P1={kind}] on the [L1={room}].\n[X=- {Name}]

=
[F1={pest}] on my [P1={kind}], help!\n[X=ciao, {Name}]

=
the [L1={room}] looks [S1={way}].\n[X={Bye}\n{Name} {Name}]

=
[T={Town}], [P1={kind}] in the [L1={room}]. [X=Greetings from {Name}]

=
[P1={kind}] (in the [L1={room}]), [P2={kind}].\n[X=With thanks and good wishes, {Name}]

=
the [L1={room}] has the [P1={kind}]\n[X=xoxo\n{name}]

=
hi, [X={name}] here, i have a [P1={kind}] in the [L1={room}]

=
Hello, I am [X={Name}] and I have a [P1={kind}], a [P2={kind}]

=
i'm [X={name}], [T={town}], got a [P1={kind}] n a [P2={kind}]

=
my name is [X={Name}], I live in [T={Town}]

=
We're [X={Name}] and [X={Name}], we live in [T={Town}]. [P1={kind}] and [P2={kind}] in the [L1={room}], [S1={way}] window.

=
[X={Name}] and [X={Name}] from [T={Town}]. in the [L1={room}] a [P1={kind}]

=
me and my husband [X={Name}] have [N1={n}] [P1={kinds}] in the [L1={room}]

=
my wife [X={Name}] says the [P1={kind}] has [F1={pest}], 14

=
this is [X={Name}], the [P1={kind}] is on the [L1={room}]

=
[X={Name}] is my flatmate, the plants are mine: [P1={kind}], [P2={kind}]

=
[X={Name}] is my name, no plant

=
good morning, [X={Name}] speaking. The [P1={kind}] stands in the [L1={room}], window [S1={way}].

=
the three of us, [X={Name}], [X={Name}] and me, are in [T={Town}]

= P2@2
[X={Name}] keeps a [P1={kind}] in the [L1={room}] and i keep a [P2={kind}] in the [L2={room}]

=
we're in [T={Town}], three plants

=
were in [T={town}], about ten plants, hope thats ok

=
writing from [T={Town}] where it's warm

=
I write to you from [T={Town}], where it rains

=
hello from sunny [T={town}]!

=
up here in [T={Town}] it is cold. a [P1={kind}], a [P2={kind}]

=
we moved to [T={Town}] last year, {n} plants came along

=
[T={Town}] based, small flat, few plants

=
flat in [T={town}], [P1={kind}] in the [L1={room}] and a [P2={kind}] too

=
down in [T={Town}] we have a [P1={kind}] on the [L1={room}]

=
the plants live in [T={Town}], not with me

=
I've been in [T={Town}] since march, the [P1={kind}] came with me

=
greetings from the rain of [T={Town}]. [L1={room}] has [P1={kind}]

=
it's [T={town}] where the heating never works, [P1={kind}] is in the [L1={room}]

=
[T={Town}], {Land}. My plants: [P1={kind}], [P2={kind}]

=
[P1={kind}] and [P2={kind}], all at risk

=
[N1={n}] [P1={kinds}] at risk in the [L1={room}]

=
my [P1={kind}] is in trouble

=
the [P1={kind}] is a bit of a worry

=
[P1={kind}], [P2={kind}]: both in danger, all on edge

=
the [P1={kind}], at least, looks fine; the [P2={kind}] is in a state

= P2@2
one [P1={kind}] in the [L1={room}] and [P2=one] in the [L2={room}]

= P2@2
a [P1={kind}] in the [L1={room}] and [P2=another] in the [L2={room}]

= P2@1 P3@2
[N1={n}] [P1={kinds}], [P2=one] in the [L1={room}], [P3=the other] in the [L2={room}]

= P2@1 P3@2
i have [N1={n}] [P1={kinds}]: [P2=two] in the [L1={room}] and [P3=one] on the [L2={room}]

= P2@1 P3@2
[P1={kinds}] [N1=x{n}], [P2=2] on the [L1={room}], [P3=1] in the [L2={room}]

= P2@2
[N1={n}] [P1={kinds}] in the [L1={room}], [P2=one] in the [L2={room}]

= P2@2 P3@2
[N1={n}] [P1={kinds}] on the [L1={room}] and [P2=2 more] in the [L2={room}] with a [P3={kind}]

= P2@1 P3@2
of my [N1={n}] [P1={kinds}] [P2=one] stands in the [L1={room}], [P3=the rest] in the [L2={room}]

= P2@2
there's a [P1={kind}] in the [L1={room}] and [P2=a second one] in the [L2={room}]

= P2@2
[L1={room}]: a [P1={kind}]. [L2={room}]: [P2=one] as well

=
the [L1={room}] one gets [S1=morning sun]

=
the one in the [L1={room}] gets [S1=sun from noon]

=
the [L1={room}] one is [S1={way}], the [L2={room}] one [S2={way}]

=
[L1={room}] gets [S1=the sun till noon]

=
in the [L1={room}] the sun comes in [S1=in the morning]

=
the sun comes round to the [L1={room}] [S1=in the evening]

=
[S1={way}] for the [L1={room}], [S2={way}] for the [L2={room}]

=
[L1={room}] is [S1={way}] facing and [L2={room}] is [S2={way}] facing

=
[L1={room}]: [S1={way}]; [L2={room}]: [S2=no window]

=
from the [L1={room}] you look [S1={way}]

=
the [L1={room}] gives on the [S1={way}]

=
the window in the [L1={room}] regards the [S1={way}]

=
[L1={room}] window goes to the [S1={way}], [L2={room}] window to the [S2={way}]

=
the [L1={room}] has one small window, [S1={way}]

=
the [L1={room}] has a big window to the [S1={way}], the [L2={room}] has [S2=none]

=
[L1={room}] [S1=no pane], [L2={room}] [S2={way}]

=
there is [S1=no window] in the [L1={room}], it is an inner room

=
my room, window = [S1={way}]

=
window [S1={way}]. got a [P1={kind}], [N2={n}] [P2={kinds}] n a [P3={kind}]

=
[L1=my room], [S1={way}] window: [P1={kind}], [P2={kind}]

= P2@2
[P1=plant] [N1={n}], [L1=room {n}]\n[P2=plant] [N2={n}], [L2=room {n}]

= P2@2
[P1=pot] [N1={n}], [L1={room}]\n[P2=pot] [N2={n}], [L2={room}]

= P2@2 P3@3
[P1={Name}], [L1={room}]\n[P2={Name}], [L2={room}]\n[P3={kind}], [L3={room}]

= P2@2
[P1={name} {name}], [L1={room}]\n[P2={name} {name}], [L2={room}]

= P2@2 P3@1
[P1={kind}], [L1={room}]\n[P2={kind}], [L2={name}]\n[P3={kind}], [L1={room}]

= P2@2
plant | place | pot\n[P1={kind}] | [L1={room}] | 12 cm\n[P2={kind}] | [L2={room}] | 9 cm

= P2@2
Plant, Room, Window\n[P1={kind}], [L1={room}], [S1={way}]\n[P2={kind}], [L2={room}], [S2={way}]

= P2@2
name;room;window\n[P1={kind}];[L1={room}];[S1={way}]\n[P2={kind}];[L2={room}];[S2={way}]

= P2@2
room | window | plant\n[L1={room}] | [S1={way}] | [P1={kind}]\n[L2={room}] | [S2={way}] | [P2={kind}]

= P2@2
[P1={kind}] - [L1={room}] - [S1={way}]\n[P2={kind}] - [L2={room}] - [S2={way}]

= P3@2 P4@2
[L1={room}], [S1={way}] | [P1={kind}] | [P2={kind}]\n[L2={room}], [S2={way}] | [P3={kind}] | [P4={kind}]

= P2@2 P3@3
no. plant room\n1 [P1={kind}] [L1={room}]\n2 [P2={kind}] [L2={room}]\n3 [P3={kind}] [L3={room}]

= P2@2
qty,plant,room\n[N1={n}],[P1={kind}],[L1={room}]\n[N2={n}],[P2={kind}],[L2={room}]

= P2@2 P3@3
[P1={kind}] [L1={room}] [S1={way}] [P2={kind}] [L2={room}] [S2={way}] [P3={kind}] [L3={room}] [S3={way}]

= P3@2
so ive got a [P1={kind}] a [P2={kind}] in the [L1={room}] that [S1=faces {way}] and then a [P3={kind}] in the [L2={room}] thats [S2={way}]

= P3@2 P4@2
okay um in the [L1={room}] theres a [P1={kind}] and a [P2={kind}] and the window there is facing [S1={way}] i think and then in the [L2={room}] ive got [N3={n}] [P3={kinds}] and a big [P4={kind}] and that ones facing [S2={way}]

= P2@1 P3@2
right [L1={room}] [P1={kind}] [P2={kind}] full stop [L2={room}] [P3={kind}] full stop

= P2@1 P3@2
Also in the [L1={room}] stand one [P1={kind}] and one [P2={kind}], and on the [L2={room}] have I one [P3={kind}], window to the [S2={way}].

=
I have since two years a [P1={kind}], he stands in the [L1={room}] by the window to the [S1={way}].

= P2@2
By me in the [L1={room}] lives the [P1={kind}] and in the [L2={room}] the [P2={kind}], which has [F2={pest}] become.

= P2@2
At me, the [P1={kind}] finds himself in the [L1={room}] and the [P2={kind}] in the [L2={room}], who gives on the [S2={way}].

= P2@2
We are [N1={n}] [P1={kinds}] in the [L1={room}], and chez the [L2={room}] there is the [P2={kind}].

=
In the [L1={room}], exposition [S1={way}], I possess a [P1={kind}] and a [P2={kind}].

=
[P1=bay] and [P2={kind}] in the [L1={room}]

=
the [P1={kind}] is in the [L1=bay]

=
a [P1={kind}] and a [P2={kind}] standing in the [L1=bay], [S1={way}]

=
the [L1=bay] faces [S1={way}]

=
the [L1=bay] has a [P1={kind}] and a [P2={kind}]

=
[L1=bay] holds the [P1={kind}]

=
the [P1=bay] has [F1={pest}]

= P2@2
[P1=bay tree], [L1={room}]\n[P2=bay], [L2={room}]

=
the [L1={room}] has a [P1=bay] and a [P2={kind}]

=
[P1={kind}] in the [L1={which} {room}]

= P2@2
[L1={which} {room}] has a [P1={kind}]. [L2={which} {room}] has a [P2={kind}]

=
the [L1={which} {room}] looks [S1={way}], it has a [P1={kind}]

= P2@2
[P1={kind}] on the [L1={which} {name}], [P2={kind}] in the [L2={room}]

=
[L1={which} {name}]: [P1={kind}], [P2={kind}]

=
in [L1={which} {name}] i have a [P1={kind}] and a [P2={kind}]

=
out in the [L1={which} {name}], [S1={way}] too, a [P1={kind}] and a [P2={kind}]

=
the [L1={name}] holds a [P1={kind}] and a [P2={kind}]

= P2@2
a [P1={kind}] on the [L1={name}] and a [P2={kind}] by the [L2={name}]

=
[L1={room} {n}]: [P1={kind}], [P2={kind}]

= P2@2
[L1={room} A] - [P1={kind}]. [L2={room} B] - [P2={kind}]

=
[P1={kind}], [L1={room} {n}], [S1={way}]

=
[P1={kind}] in the [L1={room}], also [N2={n}] [P2={kinds}] in [L1=there]

= P3@2
a [P1={kind}] in the [L1={room}], and a [P2={kind}] in [L1=there] too. [P3={kind}] on the [L2={room}]

= P3@2
[P1={kind}], [P2={kind}], [P3={name}]; [L1={room}]. [P3={name}] is in the [L2={room}]

=
[P1={kind}], [P2={name}], [P3={name} {name}] and [P4={kind}] in the [L1={room}]

= P2@2
[P1={name}] ([L1={room}]), [P2={name}] ([L2={room}])

= P2@2 P3@2
[L1={name}]: [P1={name}]. [L2={name} {name}]: [P2={name} {name}], [P3={name}]

= P2@2
[P1={name}] lives in the [L1={name}], [P2={name} {kind}] lives in the [L2={room}]

=
[P1=moth orchid], [P2=meyer lemon] and [P3=wax begonia] in the [L1={room}]

=
a [P1={name} {kind}] and a [P2={name} {kind}] in the [L1={room}]

=
[N1={n}] [P1={name} {kinds}], [L1={room}], 12 cm

=
[P1={kind}], 6 in\n[P2={kind}], 8 in\n[P3={kind}], 4 in

= P3@2
[L1={Room}] ([S1={way}])\n- [P1={kind}], 10 in\n- [P2={kind}] [N2=x{n}], 6 in\n\n[L2={Room}] ([S2={way}])\n- [P3={kind}], 8 in

= P3@2
[L1={Room}] ([S1={way}])\n- [N1={n}] [P1={kinds}], 3 in\n- [P2={kind}], 6 in\n\n[L2={Room}] ([S2=no window], LED light)\n- [P3={kind}], 6 in

=
[P1={Name}] is the [P1={kind}], [P2={Name}] the [P2={kind}]

= P2@1
my [P1={kind} {Name}] and my [P2={kind} {Name}] are in the [L1={room}]

=
i call my [P1={kind}] [P1={Name}], it is in the [L1={room}]

=
it was [N1={n}] [P1={kinds}], not {n}

=
i meant [N1={n}] [P1={kinds}] not {n}

=
the label does not mention it

=
labels do not say, sorry

=
nothing on the label about that

=
no products yet, i'm broke

=
skint so nothing to spray with

=
[P1={kind}], [P2={kind}] in the [L1={room}], [S1={way}]. [X={bye}, {name}]

=
[L1={room}] - [P1={kind}] - [S1={way} window]. [X={Bye} {Name}]

=
[P1={kind}] and [P2={kind}] on the [L1={room}].\n[X={bye} {Name}]

=
[P1={kind}] in the [L1={room}], [S1={way} window]. [X=Many thanks, {Name} {Name}.]

=
[L1={room}]: [P1={kind}] and a [P2={kind}].\n[X={Bye}\nMrs {Name}]

=
Dear bot\n[L1={room}]: a [P1={kind}].\n[X=Good wishes to you\nDr {Name}]

=
[P1={kind}] and [P2={kind}], [L1={room}], [S1={way}].\n[X=best wishes from {name}]

=
[P1={kind}] in the [L1={room}]. [X={Bye}, {Name}.]

=
[P1={kind}], [P2={kind}]\n[X={bye}, {Name}]

=
[L1={room}] with [P1={kind}], window [S1={way}].\n\n[X=your friend,\n{Name} {Name}]

=
[P1={kind}] in the [L1={room}]. [X=With kindest regards and thanks, {Name} {Name}]

=
[T={Town}]. [P1={kind}].\n\n[X=Yours,\n{Name}]

=
It is [X={Name}] from [T={Town}]. In my [L1={room}] there is one [P1={kind}], one [P2={kind}].

=
hi its [X={name}], i have a [P1={kind}] in the [L1={room}]

=
its [X={Name}] again, the [P1={kind}] has [F1={pest}]

=
The window she is to the [S1={way}]

=
the window, it looks to the [S1={way}]

=
it is the window of the [S1={way}]

= P2@1 P3@2
[N1=three] [P1={kinds}]: [P2=one] in the [L1={room}] and [P3=two] in the [L2={room}]

= P2@1 P3@2
[N1={n}] [P1={kinds}], [P2=three] of them in the [L1={room}], [P3=the others] on the [L2={room}]

= P2@1 P3@2
my [P1={kinds}] are split: [P2=two] on the [L1={room}], [P3=two] in the [L2={room}]

=
[P1={Name}] is a [P1={kind}]. [P1={Name}] has [F1={pest}]

= P2@2
[P1={kind} {Name}] lives in the [L1={room}], [P2={kind} {Name}] in the [L2={room}]

=
[L1={room}]: [P1={name} leaf], [P2={name} vine], [P3={kind}]

=
[P1={kind}], [P2={name} tree] and [P3={name} bush] by the [L1={room}]

=
a [P1={kind}] and a [P2={kind}] on the {room} in the [L1={room}] that [S1=faces {way}]

=
[P1={name}] the [P1={kind}], it is in the [L1={room}]

=
i write from [T={Town}], in the rain

=
just writing from [T={Town}] with {n} plants

=
[P1={kind}] in the [L1={room}]. [S1={way} window].\n[X={Bye}\nMr {Name}]

=
[L1={room}]: [P1={kind}], a [P2={kind}].\n[X={Bye}\nMrs {Name} {Name}]

=
[P1={kind}] and [P2={kind}] in the [L1={room}], [S1={way} window].\n[X={bye},\n{Name} {Name}]

=
[P1={kind}] and [P2={kind}] in the [L1={room}], [S1={way}]. [X={Bye}, {name}]

=
[L1={room}] has [P1={kind}] and [P2={kind}]. [X=Yours {Name} {Name}.]

=
[P1={kind}].\n[X=much obliged\nProf {Name}]

= P2@2
an [P1={kind}] on the [L1={room}], [P2=another] on the [L2={room}]

= P2@1 P3@2
[N1={n}] [P1={kinds}], [P2=2] in the [L1={room}], [P3=3] in the [L2={room}]

=
[P1={Name}] (a [P1={kind}]) and [P2={Name}] (a [P2={kind}]) in the [L1={room}]

= P2@2
[P1={Name}] the [P1={kind}] lives in the [L1={room}], [P2={Name}] the [P2={kind}] in the [L2={room}]

= P2@2
[P1={Name}], a [P1={kind}], is in the [L1={room}]. [P2={Name}], my [P2={kind}], is on the [L2={room}].

=
[P1={Name}] (a [P1={kind}]), [P2={Name}] (a [P2={kind}]). [P1={Name}] and [P2={Name}] stand in the [L1={room}], window [S1={way}].

=
all my plants have names: [P1={Name}] is a [P1={kind}], [P2={Name}] a [P2={kind}]

=
the [P1={kind}] is called [P1={Name}] and it stands in the [L1={room}]

=
broke, so nothing to buy sprays with

= P2@2
the [L1={name}] is where the [P1={kind}] is, the [L2={room}] has the [P2={kind}]

=
[L1={name}] looks [S1={way}], [P1={kind}] and [P2={kind}] there

=
[L1={room}]: [P1={kind}], [P2={kind}] and [P3={kind}].\n[X={Bye},\n{Name} {Name}]

=
[P1={kind}], [L1={room}], [S1={way}]. [X={Bye}, {Name}.]

=
[P1={kind}] and [P2={kind}] in the [L1={room}], [S1={way} window]. [X={Bye}, {Name}.]

=
[P1={kind}]\n[P2={kind}]\n[X={Bye}\n{Name} {Name}]

=
It's [T={Town}], {Land}.

=
it is [T={Town}]

=
it's [T={town}], sorry

=
1) [P1={kind}] - [L1={room}]\n2) [P2={Name} {Name}]

=
- [P1={Name}]\n- [P2={Name} {Name}]\n- [P3={kind}]

=
[P1={Name}]\n[P2={kind}]\n[P3={which} {Name}]

=
the [L1={which} {name}] faces [S1={way}]

=
the [L1={room} {name}] faces [S1={way}], the [L2={name}] faces [S2={way}]

= P2@1 P3@2
[N1=two] [P1={kinds}], [P2=one] in the [L1={room}], [P3=the other] in the [L2={room}]

= P2@1 P3@2
i have got [N1=two] [P1={kinds}]. [P2=one] in the [L1={room}], [P3=one] in the [L2={room}]

= P2@1 P3@2
[N1={n}] [P1={kinds}], [P2=one] is on the [L1={room}] and [P3=the others] are in the [L2={room}]

= P2@1 P3@2
we keep [N1={n}] [P1={kinds}], [P2=one] by the [L1={room}], [P3=the other] by the [L2={room}]

= P2@1 P3@2
[N1=2] [P1={kinds}], [P2=one] in [L1={room}], [P3=one] in [L2={room}]

= P2@1 P3@2
[N1=two] [P1={kinds}]; [P2=one] lives on the [L1={room}] and [P3=the other one] in the [L2={room}]

= P2@2
one [P1={kind}] on the [L1={room}], [P2=one] on the [L2={room}]

= P2@2
[P1={name}] the [P1={kind}] stands in the [L1={room}], [P2={name}] the [P2={kind}] on the [L2={room}]

=
the [P1={kind}]'s name is [P1={Name}]

=
{Town}, no sorry, [T={Town}]

=
i'm in {Town}, wait, sorry, [T={Town}]

=
i said {Town}, i meant [T={Town}], sorry

=
sorry, [T={Town}] it is, not {Town}

= P2@1
my [P1={kind} {Name}], my [P2={kind} {Name}] and a [P3={kind}] are in the [L1={room}]

=
[P1={Name}] (the [P1={kind}]), [P2={Name}] (the [P2={kind}]), all in the [L1={room}]

=
[P1={Name}] the [P1={kind}] has [F1={pest}], 12

=
our [P1={kind}] [P1={Name}] lives on the [L1={room}]

= P2@2
the [P1={kind}] named [P1={Name}] is in the [L1={room}], the [P2={kind}] named [P2={Name}] in the [L2={room}]

=
we have {n} plants in {n} rooms. [L1={room}], [S1={way}]: [P1={kind}], [P2={kind}]

=
{n} plants, {n} rooms, one person

=
{n} rooms full of plants here

=
today i bought [B={product}] from {Name}, ready to use, on the bottle stands every {n} days

=
got [B={product}] by {Name}, the bottle says every 7 days

=
[B={product}] from the firm {Name}, the label stands: once a week

=
[P1={kind}] from my aunt, [L1={room}]

=
[P1={kind}] from grandpa, in the [L1={room}]

= P2@2
the old [P1={kind}] from my mum, [L1={room}]\n[P2={kind}] from nan, [L2={room}]
