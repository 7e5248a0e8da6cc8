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
// and a thrust normal to the edge, dF_n = ρ(h)·dF_c, which is resolved to feed
// (sin κ) and radial (cos κ) with the local angle κ of the edge. A depth below
// the nose radius therefore pushes almost only radially, as it does in the
// shop. Symbols are those of ISO 3002-1, -3 and -4; lengths mm, forces N,
// stresses N/mm², speeds m/min, angles degrees.
//
// Sources: O. Kienzle, VDI-Z 94 (1952), and Kienzle & Victor,
// Werkstattstechnik 47 (1957), for the law; L. V. Colwell, Trans. ASME 76
// (1954), for the part of the nose (used as a check); Brammertz, Industrie-
// Anzeiger 83 (1961), for the least roughness. The titles are from memory; the
// numbers checked against print are in the tests, each with its source.
package cut

// ErrorBand is how far, as a fraction, any predicted force may be off, either
// way, even with the right material: 0.30. It is made of what a shop does not
// know, added as squares: the specific force between heats and hardnesses of
// one grade (±15 %), the corrections for speed and rake (±10 %), the wear of
// the edge (±15 %), and the thrust, which is less well known than the cutting
// force (±20 %): √(15² + 10² + 15² + 20²) = 31 %. The four figures are common
// practice, no source. Radial force, which springs the bar, deserves the whole
// band; cutting force, and with it power, is known to about 0.25. What a worn land
// adds (Worn) stands beside it: a land of 0.3 mm trebles the thrust of a finish.
const ErrorBand = 0.30
