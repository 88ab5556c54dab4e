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
