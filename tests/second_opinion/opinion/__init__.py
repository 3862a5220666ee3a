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
      to an equal part of it.  A point that an over tie-down only passes is
      no anchor point of it.
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
[A28] House rules on `each` tie-down: whether an implement's are among them
      may be judged either way.  Judged here: min_wll_each, min_chain,
      no_straps_on_machines.

Not judged here: force answers beyond component sums, bridge formula and
other permits, concentrated loads, certainty, cautions of any kind.
"""
