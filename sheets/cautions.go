package sheets

import (
	"borewright/process"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// cautions are those of the plan first, then the usual ones of the trade
// (common practice, no source). None is ever left out for room.
func (b *builder) cautions() {
	var blocks []page.Block
	if len(b.Plan.Cautions) > 0 {
		blocks = append(blocks, page.Head("In this job"), page.Mind(b.Words.Sentences(b.Plan.Cautions)), page.Head("In every job"))
	}
	prove := "Prove out by hand first: cutter drawn in, spindle stopped, through every move to full depth; then the first cut with a hand on the feed lever."
	if b.Machine.Control != nil {
		prove = "Prove out: first run clear of the work, in single block, feed turned down, a hand on the stop; read every block before it moves."
	}
	items := []string{
		"Guards closed before the spindle turns. A bar turns you in: no gloves, no loose sleeves, no hair, no rag near it. Eye protection.",
		"Stop the spindle and the feed, and wait until it stands, before a hand or a gauge goes into the bore.",
		"Check the clamps after the first pass and at every hold point.",
		prove,
		"Chips out with a brush, a hook or suction, spindle stopped. Never with air or liquid under pressure: it drives chips into eyes, skin and bearings. Keep iron dust out of your lungs.",
		"Lift castings and bars with gear rated and inspected for the load. Nobody under it or between it and the machine.",
	}
	if s := b.Job.Sleeve; s != nil {
		if s.Hold == process.Bond {
			items = append(items, "Bonding: read the compound's safety data sheet; gloves, eye protection, moving air; nothing is loaded before it has cured.")
		} else {
			items = append(items,
				"Pressing in: guard against flying pieces, stand out of line, stop if the force rises early or the sleeve cocks.")
		}
		items = append(items,
			"Hot or cold assembly: gloves, face shield, dry tools, a rehearsal without heat. Dry ice and liquid nitrogen burn, and drive the air out of small rooms and pits: ventilate, never work alone. "+b.heat())
	}
	items = append(items,
		"Where the part carries load, holds pressure or is part of a lifting device, this sheet decides nothing: local codes and licensed practice do, and they come first where they differ from it.",
		"This sheet plans; the person at the machine decides. If something looks, sounds or measures wrong, stop.")
	b.sheet.Add("Cautions", append(blocks, page.Mind(items))...)
}

func (b *builder) heat() string {
	s := "Heat slowly and evenly; never a casting that is oily, or closed with anything in it."
	if m := b.Job.Material; m != nil && m.HeatMost > 0 {
		s += " This casting to " + b.U.Say(qty.KindTemperature.Of(m.HeatMost)) + " at most."
	}
	return s
}
