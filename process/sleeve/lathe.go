package sleeve

import (
	"fmt"

	"borewright/process"
	"borewright/process/fit"
	"borewright/process/qty"
)

// neat rounds a length for a feature that nobody holds closely: to a sixty-
// fourth of an inch, written in decimals, or a tenth of a millimetre, down.
func neat(u qty.Unit, l qty.Length) qty.Length {
	step := qty.Millimetre / 10
	if u == qty.Inches {
		step = qty.Inch / 64
	}
	return l / step * step
}

// deepSeat is the depth beyond which a seat cannot be reached by hand and eye.
const deepSeat = 150 * qty.Millimetre

// details are chamfers, lead-in, vent, grooves and holes, from the wall that
// the finished sleeve has. Common practice, no source, but for the lead-in (see
// fit.LeadIn).
func details(job *process.Job, st process.Station, out *Sleeve, lead fit.Chamfer) []Detail {
	u := job.Units
	var d []Detail
	add := func(what, format string, a ...any) { d = append(d, Detail{what, fmt.Sprintf(format, a...)}) }
	bevel := neat(u, min(qty.Millimetre, out.Wall/3))
	if out.Fastening == process.Press {
		add("Lead-in, nose of the sleeve", "%s", lead.Why)
		add("Housing mouth", "edge broken %s × 45°, no burr and no step left inside: the nose must find a clean corner, and a sharp one shaves the sleeve.", u.Say(bevel))
	} else {
		add("Nose of the sleeve", "chamfer %s × 30°, so that it takes the compound along and does not wipe it off.", u.Say(bevel))
		add("Housing mouth", "edge broken %s × 45°.", u.Say(bevel))
	}
	if st.From > deepSeat && out.Fastening == process.Press {
		add("Reaching the seat", "it begins %s inside: have a guided ram, or a draw rod where the far end is open, that long and a pad that bears on the whole end face before anything is heated or cooled.", u.Say(st.From))
	}
	add("Inside, both ends", "chamfer %s × 45° beyond the finished bore, cut after the bore is at size.", u.Say(bevel))
	if st.Blind {
		flat := neat(u, max(out.Wall/6, qty.Millimetre/2))
		add("Vent, blind end", "file or mill one flat or groove %s deep along the whole outside, or leave a vent hole at the bottom: trapped air and oil push the sleeve back or burst a thin wall. Two tapped holes or a groove at the far end let a puller take it out one day.", u.Say(min(flat, out.Wall/3)))
	} else {
		add("Ends", "the sleeve stops %s under the face at most and stands out nowhere; a shoulder or a screw on the joint line holds it where thrust could walk it out.", u.Say(lengthLess(u)))
	}
	add("Oil grooves", "inside, %s deep at most (a third of the finished wall of %s), edges rounded, ended %s short of both ends; none over the lead-in.",
		u.Say(neat(u, out.Wall/3)), u.Say(out.Wall), u.Say(neat(u, max(out.Wall, 3*qty.Millimetre))))
	when := "before the last cut inside"
	if !out.InPlace {
		when = "before it is finished on the lathe, and set by a scribed line when it goes in"
	}
	add("Lubrication holes", "drill the sleeve through the old holes of the housing once it is home, %s; break the edges inside with a scraper; chips out before anything turns. A hole weakens a pressed ring: keep it one wall (%s) from either end.",
		when, u.Say(out.Wall))
	if !out.InPlace {
		d[len(d)-1].How = fmt.Sprintf("drill the sleeve on the bench to match the holes of the housing, 1 mm (0.04 in) larger, %s; break all edges; keep a hole one wall (%s) from either end.", when, u.Say(out.Wall))
	}
	return d
}

// latheWork is the sequence on the lathe.
func latheWork(job *process.Job, out *Sleeve) []string {
	u := job.Units
	w := out.Taken()
	within := func(low, high qty.Length) string { return u.SayLimits(qty.Diameter(low), qty.Diameter(high)) }
	over := u.SayLimits(out.Turned[0], out.Turned[1]) + ", by the limits of the fit"
	switch {
	case out.Match > 0 && out.Fastening == process.Bond:
		over = "the housing as measured less " + within(-out.Interference.Most, -out.Interference.Least)
	case out.Match > 0:
		over = "the housing as measured plus " + within(out.Interference.Least, out.Interference.Most)
	}
	rough := 3 * qty.Millimetre / 2
	if u == qty.Inches {
		rough = qty.Inch / 16
	}
	last := fmt.Sprintf("Finish the inside to %s, to the surface asked for; nothing is cut there after assembly.", u.SayLimits(w.Inside[0], w.Inside[1]))
	if out.InPlace {
		last = fmt.Sprintf("Bore the inside to %s; the rest, %s to %s on diameter, is for the mill.", u.SayLimits(w.Inside[0], w.Inside[1]), u.Format(w.Stock.Least), u.Say(w.Stock.Most))
	}
	return []string{
		fmt.Sprintf("Rough outside and inside %s over and under, from tube or bar long enough to hold by a stub outside the finished length.", u.Say(rough)),
		"Slack the chuck, let it cool and spring, and take hold again lightly: drawn tube opens or closes when its skin is off.",
		last,
		fmt.Sprintf("Without letting go, or on an expanding mandrel in the finished bore, turn the outside to %s; runout to the inside %s of the dial.", over, u.Say(job.Sleeve.Runout)),
		fmt.Sprintf("Chamfer, lead-in, length %s; part off, break every edge.", within(out.Length.Least, out.Length.Most)),
		"Measure cold, off the chuck, at both ends and the middle, four clock positions; write the sizes on the sleeve and in the table.",
	}
}
