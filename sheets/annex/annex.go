// Package annex lays out what the programmer and the reviewer read: set-up and stations in
// full, the line-up and how well it is known, reach, clean-up sizes, the figures behind the
// passes, the repair by sleeve and its fit, and every caution. What hands do of it, the
// operator's part of the sheet takes from here, so that it is said in one way.
package annex

import (
	"fmt"
	"strings"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/storage"
	"borewright/sheets/card"
	"borewright/sheets/made"
	"borewright/sheets/page"
)

// Annex adds sections to a sheet.
type Annex struct {
	card.Hand
	Sheet    *page.Sheet
	Programs []string     // the files of the visits, in the order of bores and visits; none is known
	Planes   []qty.Length // how far in front of the face the clear plane of each program is
	visit    int          // counts visits over all bores, for the programs
}

// AddJob says what the job is.
func (b *Annex) AddJob() {
	time := ""
	if b.Plan.Feasible {
		time = qty.KindTime.Say(b.Plan.Minutes) + ", stops to measure included"
	}
	job := page.KVs(b.Lines(b.sleeveFinish(), time))
	job.Items = append(job.Items, page.KV("Made by", made.By()))
	blocks := []page.Block{job, &page.Paragraph{Text: b.programWords()}}
	for _, n := range b.Job.Notes {
		blocks = append(blocks, &page.Paragraph{Text: "Note: " + n})
	}
	b.Sheet.Add("The job", blocks...)
}

func (b *Annex) programWords() string {
	switch {
	case b.Plan.Feasible && b.VisitsLeft() == 0:
		return "Nothing is left for the mill."
	case b.Machine.Control == nil && !b.Plan.Feasible:
		return "There is no program: this machine has no control. Nothing is to be cut from this sheet by hand either."
	case b.Machine.Control == nil:
		return "There is no program: this machine has no control. The passes are worked by hand, from this sheet."
	case !b.Plan.Feasible && len(b.Programs) > 0:
		return "Programs, of a plan that is not feasible: " + strings.Join(b.Programs, ", ")
	case !b.Plan.Feasible:
		return "There is no program: none is written for a plan that does not meet the drawing."
	case len(b.Programs) == 0:
		return "No program goes with this sheet: none was asked for. The machine has a control."
	}
	return "Programs, one a visit: " + strings.Join(b.Programs, ", ")
}

// sleeveFinish ends the line that names the sleeve: where its inside comes to
// size.
func (b *Annex) sleeveFinish() string {
	for _, x := range b.Plan.Bores {
		if s := x.Sleeve; s != nil && !s.InPlace {
			return "; finished on the lathe, nothing left inside"
		}
	}
	if s := b.Job.Sleeve; s != nil && s.Allowance > 0 {
		return "; " + b.U.Say(qty.Plain(s.Allowance)) + " on diameter left inside for boring in place"
	}
	return ""
}

// AtControlOf is what the program of a visit, the nth of all, does not say by itself.
func (b *Annex) AtControlOf(x plan.Bore, k, n int) []page.KeyValue {
	v := x.Visits[k]
	var kv []page.KeyValue
	add := func(k, v string) { kv = append(kv, page.KV(k, v)) }
	if c := b.Machine.Control; c != nil && n < len(b.Programs) && len(b.Programs) == b.VisitsLeft() {
		add("Program", b.Programs[n])
		b.unsaid(c, v, n, add)
		if m := len(v.Passes); m > 0 && c.RestartStep > 0 {
			first, last := v.Passes[0].N, v.Passes[m-1].N
			add("Restart", fmt.Sprintf("at the stop before a pass, N%d times its number: pass %d at N%d to pass %d at N%d", c.RestartStep, first, c.RestartStep*first, last, c.RestartStep*last))
		}
	}
	for _, l := range b.AtControl(&v.Visit) {
		add(l[0], l[1])
	}
	return kv
}

// unsaid is what no other part of the sheet says, and comments that are left out would.
func (b *Annex) unsaid(c *process.Control, v plan.Visit, n int, add func(k, v string)) {
	if c.Comments && c.Remarks == storage.FullRemarks {
		return
	}
	says := "none"
	if c.Comments && c.Remarks == storage.ShortRemarks {
		says = "short"
	}
	add("Comments", says+" in the program: what they do not say stands on this sheet")
	if n < len(b.Planes) {
		add("Clear plane", fmt.Sprintf("%s%s %s, in front of the face: stops and moves to X0 Y0 are made there", b.Job.FeedLetter(), c.Units.Format(b.Planes[n]), c.Units))
	}
	if v.Shift() > 0 || v.OffAxis != nil {
		add("Oriented stop", "before the first run check by hand that the tip stops at "+c.TipAtStop.String()+", seen from the spindle")
	}
}

// Nth is the number of a visit among all, from 0, in the order of bores and visits.
func (b *Annex) Nth(bore, visit int) int {
	for _, x := range b.Plan.Bores[:bore] {
		visit += len(x.Visits)
	}
	return visit
}

// VisitsLeft is how many visits the plan has.
func (b *Annex) VisitsLeft() int {
	n := 0
	for _, x := range b.Plan.Bores {
		n += len(x.Visits)
	}
	return n
}

// AddCautions are those of the plan first, then the usual ones of the trade
// (common practice, no source). None is ever left out for room.
func (b *Annex) AddCautions() {
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
				"Pressing in: guard against flying pieces, stand out of line, stop if the force rises early or the sleeve cocks.",
				"Hot or cold assembly: gloves, face shield, dry tools, a rehearsal without heat. Dry ice and liquid nitrogen burn, and drive the air out of small rooms and pits: ventilate, never work alone. "+b.heat())
		}
	}
	items = append(items,
		"Where the part carries load, holds pressure or is part of a lifting device, this sheet decides nothing: local codes and licensed practice do, and they come first where they differ from it.",
		"This sheet plans; the person at the machine decides. If something looks, sounds or measures wrong, stop.")
	b.Sheet.Add("Cautions", append(blocks, page.Mind(items))...)
}

func (b *Annex) heat() string {
	s := "Heat slowly and evenly; never a casting that is oily, or closed with anything in it."
	if m := b.Job.Material; m != nil && m.HeatMost > 0 {
		s += " This casting to " + b.U.Say(qty.KindTemperature.Of(m.HeatMost)) + " at most."
	}
	return s
}
