# SPDX-License-Identifier: GPL-3.0-or-later
"""A second judge of tie-down plans that shares nothing with the program.

It reads a fleet document and a plan document (both as text, see
docs/formats of the project) and works out from them alone what each
tie-down is worth, where it runs, what it counts and whether anything of
law, rating or practice stands against the plan.  It has its own tables,
its own geometry and its own beams, so that a slip in the program's rule
book or code does not repeat itself here.

Where the written rules leave a choice, the plainest reading was taken.
The choices, by number; the code refers to them as [A1], [A2]...

[A1]  Chain needed = run + 12 in for each end with a grab hook (grab,
      clevis_grab, or a hook nobody has looked at) + the binder's take-up
      + 12 in of tail.  An end with a slip hook or none adds nothing.
      Check: 44.3 + 24 + 8 + 12 = 88.3 in of the example plan.
[A2]  A strap's need = run + 12 in of tail: the same formula, in which a
      strap has neither a hook that goes back on itself nor a take-up.
[A3]  A binder whose take-up nobody entered: 8 in for a ratchet, 4.5 for a
      lever, the greater of the two where its kind is not known either.
[A4]  `limited_by` names one piece of the least value.  Where several tie,
      any of them is right.
[A5]  A tag counts only where `tag_legible` is true; not looked at is not
      legible.  A mark nobody looked at is no mark: grade 30.
[A6]  A size or grade the table lacks, without a legible tag: the working
      load limit is unknown (standing law), never a guess.
[A7]  A binder with no `wll` key: unknown.  With null: grade 30 of the
      smallest size it fits.  A hook with no `wll`: the chain's; with null:
      grade 30 of the chain's size.
[A8]  A rating nobody entered for an anchor or a machine point joins no
      minimum (caution or note, not a refusal).
[A9]  Gear that is out of use holds nothing: the tie-down is worth 0 (or
      results give no worth for it), and is short of practice.
[A10] Several tie-downs on one anchor, or on one machine point whose rating
      is shared (the reading where `rating_is` is absent): each is limited
      to an equal part of it.  An eye that an over tie-down runs through is
      pulled by both its legs: it leaves it half, and where others hang on
      it too it counts as two of them.
[A11] Either end of a chain whose ends differ may go to either side: it
      fits where one way round fits.
[A12] An over tie-down counts in full only where its two anchors lie on
      opposite sides (y of opposite sign); an anchor on the centreline has
      no other side: half.
[A13] Of an over tie-down the worse leg, i.e. the one whose deck angle is
      farther from the band 30-45 degrees (a tie: the first leg), gives both
      angles.  Either leg's pair is accepted.
[A14] A direct tie-down that does not pull down (anchor not below the
      machine point) is short of practice.  A leg of an over tie-down that
      does not may be judged either way.
[A15] The load's `zone z`: of the zone that most of its contacts stand on
      (parts of contacts added up; without contacts, of its length), the
      first of equals.  The main deck where no zone is listed is at z 0 and
      carries.  x_max where only x_min is given: x_min + length.
[A16] Contacts (a millimetre over the edge forgiven) on ground that does not
      carry, or with their middle beside the deck: short of rating.  An
      article, or a machine whose contacts nobody knows, must lie over deck
      that carries with its whole length: else short, unknown.  Two loads
      in one place, a body in a raised part of the deck, more width on the
      ground than between the fenders, other loads than the move asks for:
      short of practice.
[A17] Directions: a tie-down holds where its WLL times the component is
      above a billionth of the weight.  Both legs of an over tie-down act
      at once with the same tension: the sum of both pulls counts, so that
      one from side to side holds down and not sideways.  A tie-down of
      unknown worth holds; one out of use, whose hooks do not seat or whose
      run is not free holds nothing.  Blocked forward counts where there is
      a front stop or a blocking zone ahead to block it.  What stands on
      wheels or drums may roll, tracks and articles do not; where nobody
      says, it may be judged either way.
[A18] Length is measured from the rearmost of deck, zones, axles and loads
      to the truck's front bumper, or to the foremost of deck, zones, axles
      and loads where a vehicle has no coupling; not known where the truck
      is not.  Width is what a gauge set across everything reads, from the
      outermost left to the outermost right.  Height is of the highest
      load on the deck.
[A19] Axles are named from the front of each vehicle, the foremost is 1.
      Axles without a `group` stand alone.  Share of the coupling: its load
      over the trailer's gross.
[A20] A rating or a load of an axle nobody knows: unknown (standing
      rating).  Of coupling, gvwr or gcwr: unknown as rating or as advice,
      either is accepted.  `capacity` is judged where it is entered.
[A21] A move without depart or back is away all day.  The end of a move
      is back + turnaround; another may begin in that minute.
[A22] An implement's tie-downs count for it where they take one of its
      own points or over-paths and can hold.  Where its record names none,
      or it has a lock that the house lets suffice, either judgement is
      accepted.  One that cannot be lowered still needs its tie-downs.
[A23] The machine counted as `heavy` is a machine record whose weight in the
      position of the plan is 10,000 lb and up.
[A24] An articulation lock nobody looked at (`fitted` absent): unknown
      (standing law).  Without a usable lock a direct tie-down holds the
      section that its machine point names.
[A25] Boxes are tape measure numbers drawn round the steel that carries a
      lug or a pocket: the first and last 6 in of a run are not looked at,
      and one that grazes a box by less than 3 mm may be judged either
      way.  Under each zone the deck is solid across its width; a direct
      run through it bends over the one upper edge that gives the shortest
      way, wants edge protection there, and pulls towards the bend.
      A sloped zone bends nothing.  Looked at are the boxes of the load it
      holds and of the trailer; an over tie-down that touches its own
      load's body may be judged either way.
[A26] An article's weight acts in the middle of its length where its center
      of gravity is not known.
[A27] Higher than the limit that the move itself sets: short of practice.
      Without such a limit height and width are a matter of permits.
[A28] House rules as the project's page on them says.  Where two of them add
      to one sum (extra, margin, stand-ins), whether each sees the other may
      be judged either way.
[A29] Force answers: one rigid body.  A wheel stands on its middle, a drum on
      its two ends, a track on the four corners of its rectangle, all at the
      height of the zone its load stands on.  None where an articulated
      machine's lock is not known to be usable, where center of gravity or
      contacts are not known, or where it falls over where it stands.
[A30] A move that says nothing of its deck has a wet one.
[A31] The surface is that of the zone the load stands on, else the deck's.
      A mat counts before the table, in any state.  A wheel or drum that is
      not known to be braked or chocked has 0.02 lengthwise; a track only
      where somebody says that it is not braked.
[A32] At the breaking level a part breaks at its limit times the factor of
      its kind: chain by the grade of its mark (unmarked 30), webbing 3,
      binder 2.1, all else 3.  Anchors and points have none and are left
      out, their shared ratings too.  A tie-down with a part of unknown
      breaking value is not among the pulls.
[A33] At the working level what hangs together on one point or anchor is
      limited by its rating in sum and not each by its part; the legs of an
      over tie-down through an eye count both.
[A34] A stop in front of a load that is said to be blocked and stands within
      6 in of it pushes back at deck level at both sides of the load, with
      the least rating among such stops in all; that of the front stop may
      be taken where a zone blocks beside it.  One nobody rated gives
      nothing.
[A35] Component sums: WLL times cosine, what a stop pushes, and the least
      friction of the contacts in that direction.
[A36] The cone of friction is a pyramid of 64 sides, once inside and once
      round it; the program's upper bound must lie between.  Its tensions
      must balance weight and demand with some forces of the deck inside
      the pyramid round the cone.  Its load sharing must not be above its
      upper bound.  All within rounding.  Where a tie-down's limit is not
      known a case is met if the others hold it, else not known.
[A37] Legal weights: axles of truck and trailer in one frame, the coupling
      points on each other.  Every group of consecutive axles: up to 40 in
      one axle, up to 96 in a tandem, over that and under 108 in the special
      row for two and three axles, else bridge formula B at the nearest foot
      and to the nearest 500 lb, halves down; two axles never over 40,000 lb;
      two tandems with 36 ft and more from first to last 68,000.  The gross
      has its own 80,000.  Not judged where an axle's load or the truck is not known.
[A38] Weight margin: all loads at once, each by its basis; a basis that is
      no scale, plate or manual counts as typical.  A finding of law,
      rating, practice or house that fails only then is a caution; with
      several loads whose, may be judged either way.
[A39] Placement: one load at a time, 6 in forward and rearward and 2 in to
      either side; whether both at once, may be judged either way.  Blocked
      by a stop in front: sideways only.
[A40] A tie-down that is out of use is none: it is not counted.
[A41] The house's margin on weight: what fails only with it is short; what
      fails anyhow may be judged either way.
[A42] Concentrated loads: each contact is a spring of the same stiffness
      spread evenly along it, that only pushes; the stretch has the whole
      width of the deck; all loads add.  An article lies evenly.
[A43] Held in name only, under 0.10 g: the upper bound in the four cases of
      393.102(a); upward the sum of the downward components, as 393.102(b)
      measures it, and no balance of moments.

Not judged here: the elastic load sharing itself (only that it balances),
lengths and overhang, cautions of any other kind.
"""
