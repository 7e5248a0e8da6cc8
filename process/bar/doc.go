// Package bar is the boring bar as a beam: how far it springs under the
// cutter, what it is stressed to, how it hangs under its own weight, how it
// rings, and when the cut will chatter.
//
// Use New with the sections of the bar from the spindle nose outward, then
// Beam.Compliance. A Beam does not change after New and is safe for concurrent
// use. Units are mm, N, MPa and rad; densities kg/m³, masses kg, frequencies
// Hz, spindle speeds rev/min.
//
// # The beam
//
// The bar is a row of round cylinders, solid or hollow, that leaves the nose at
// x = 0. The nose yields: it slides by F/Radial and tilts by M/Tilt. Bending
// follows Euler and Bernoulli with Timoshenko's shear; the static results are
// exact for that beam. An outboard bearing is a spring at a fixed place in
// front of the nose.
//
// # Chatter
//
// A single edge cuts into the wave of its last revolution (Tobias & Fishwick
// 1958; Tlusty & Poláček 1963; Altintas, Manufacturing Automation; from memory).
// A radial motion y changes radial force by k·(y − y before), k the stiffness of
// the cut, N/mm; the bar answers with G, its receptance at the cutter in the
// direction that changes the chip. That is the radial one: in a round bar the
// tangential force moves the tip along the wall, which changes depth only in
// the second order. The cut is stable while
//
//	2·k·|Re G|least < 1.
//
// With k = K_s·μ·b, a straight edge of width b, this is Tlusty's
// b_lim = 1/(2·K_s·μ·|Re G|least). For a round nose k is the stiffness of the
// whole engaged edge, cut.Model.Regen, and not ∂F/∂depth, cut.Model.Push, which
// is several times less: Push is for copying and spring, Regen for chatter.
//
// # Limits
//
// Not in it: the axial feed force on its arm to the tip, the clearance of an
// outboard bush (until the clearance is taken up the bush does nothing), the
// stiffness of the work, and the joint between cutter and bar. The stiffness of
// the nose is the least certain figure by far. Measure it: push with a known
// force and read a dial.
package bar
