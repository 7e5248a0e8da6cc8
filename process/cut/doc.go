// Package cut predicts what a single-point boring cutter feels: the forces on
// its edge, how they change with depth, the least cut it still takes, and the
// finish it leaves.
//
// Use New with the work material and the edge, then Model.Force for every
// depth and feed. A Model is read-only after New and safe for concurrent use.
//
// # The model
//
// The engaged edge (the arc of the nose, the straight edge in front of it and,
// at coarse feeds, the edge behind it) is followed point by point. At each
// point the chip thickness h is measured along the normal to the edge, up to
// the edge's place one revolution earlier or to the old surface, whichever
// comes first. The pieces fill the section of the chip exactly, without gap or
// overlap. Each piece carries a cutting force after Kienzle,
//
//	dF_c = k_c1.1 · h^(1−m_c) · db          [N; h, b in mm; k in N/mm²]
//
// and a thrust dF_n = ρ(h)·dF_c. The chip leaves as one: all the thrust goes in one
// direction, normal to the chord, the straight line between the ends of the engaged
// edge, and is split into feed and radial force by it,
//
//	F_f = F_n·sin κ_e,  F_p = F_n·cos κ_e,  F_n = ∫dF_n
//
// κ_e being the angle of the chord. A depth below the nose radius therefore pushes
// almost only radially, as it does in the shop, and a deep one goes on doing so by its
// nose. In 35 measured cuts of 0.6 to 2 nose radii deep (Canal & Borille 2022, in
// testdata) the thrust leans 3° to 6° less along the feed than the chord where they are
// shallow, and up to 8° more where they are deep. With each piece of edge by its own
// normal the thick chip next to the old surface outweighs the thin one at the tip: it
// leans 8° to 13° too far in all but the deepest, and the radial force comes to 0.60 to
// 0.98 of the measured one, by the chord to 0.90 to 1.11. No edge force added to such
// pieces mends that: the best of any size, beside a chip's force of any size and any
// power of h, still leaves the feed force between 0.65 and 1.55 of the
// measured one. Symbols are those of ISO 3002-1, -3 and -4; lengths mm, forces N,
// stresses N/mm², speeds m/min, angles degrees.
//
// Sources: O. Kienzle, VDI-Z 94 (1952), and Kienzle & Victor,
// Werkstattstechnik 47 (1957), for the law; L. V. Colwell, Trans. ASME 76
// (1954), for the chord as equivalent edge; Brammertz, Industrie-
// Anzeiger 83 (1961), for the least roughness. The titles are from memory; the
// numbers checked against print are in the tests, each with its source.
package cut

// ErrorBand is how far, as a fraction, cutting and radial force may be off, either
// way, even with the right material: 0.30. It is made of what a shop does not
// know, added as squares: the specific force between heats and hardnesses of
// one grade (±15 %), the corrections for speed and rake (±10 %), the wear of
// the edge (±15 %), and the thrust, which is less well known than the cutting
// force (±20 %): √(15² + 10² + 15² + 20²) = 31 %. The four figures are common
// practice, no source. Radial force, which springs the bar, deserves the whole
// band; cutting force, and with it power, is known to about 0.25. What a worn land
// adds (Worn) stands beside it: a land of 0.3 mm trebles the thrust of a finish.
const ErrorBand = 0.30

// FeedBand is the same for feed force: 0.50. A thrust that leans a few degrees more or
// less changes feed force most where it is small, and a chip that meets its breaker
// pushes along the feed: measured feed force is 0.65 to 1.46 of ours (testdata).
const FeedBand = 0.50

// FeedAlone is what of FeedBand feed force has to itself, over ErrorBand, which all forces
// share: √(0.50² − 0.30²) = 0.40. The two forces are then wrong together with a correlation of
// 0.30/0.50 = 0.6; the measured ones show 0.6 to 0.7.
const FeedAlone = 0.40 / ErrorBand
