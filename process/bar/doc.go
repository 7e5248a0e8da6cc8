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
// Beside a shoulder the large section bends more than a beam says (shoulders), and the
// feed force bends the bar by its arm (Beam.ArmCompliance). A bearing with play holds the
// bar once it has moved through half of it (Beam.Meet). Stepped bars come within 3 % of
// turned solids; without the shoulders they are 5 to 15 % too stiff.
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
// Not in it: the slot of the cutter and other cross holes, fillets (a shoulder is
// sharp), two steps closer than a quarter of a diameter, oil film and friction in a
// bush, the stiffness of the work, and the joint between cutter and bar. The stiffness of
// the nose is the least certain figure by far. Measure it: push with a known
// force and read a dial.
package bar
