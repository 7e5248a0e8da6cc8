package process

import (
	"fmt"
	"math"
	"slices"

	"borewright/process/cut"
	"borewright/process/field"
	"borewright/process/fit"
	"borewright/process/qty"
)

// Doubts are things in the job that can be, but that a careful colleague would
// ask about: one sentence each, in the order of the file.
func (j *Job) Doubts() []string {
	d := &doubts{j: j}
	d.stations()
	d.bores()
	d.bar()
	d.sleeve()
	d.sweeps()
	d.sources()
	return d.out
}

type doubts struct {
	j   *Job
	out []string
}

func (d *doubts) say(format string, a ...any) { d.out = append(d.out, fmt.Sprintf(format, a...)) }

func (d *doubts) len(l qty.Length) string   { return d.j.Units.Say(l) }
func (d *doubts) dia(x qty.Diameter) string { return "Ø" + d.j.Units.Say(qty.Length(x)) }

func (d *doubts) stations() {
	for i, s := range d.j.Stations {
		if s.Relief > 0 && !s.Blind && i == len(d.j.Stations)-1 {
			d.say("Station %q has a relief but is not said to be blind: is its end open?", s.Name)
		}
	}
}

func (d *doubts) bores() {
	j := d.j
	for _, b := range j.Bores {
		s := j.Stations[b.Station]
		cut := b.Finish.High
		if b.Repair == SleeveRepair && j.Sleeve != nil {
			cut = j.Sleeve.Outside
			if b.Finish.Low > s.Diameter {
				d.say("Bore %q is sleeved to %s, larger than it is now (%s): could it be rebored without a sleeve?", s.Name, d.dia(b.Finish.Low), d.dia(s.Diameter))
			}
		}
		if stock := cut.Minus(s.Diameter); stock > qty.Length(s.Diameter)/5 {
			d.say("Boring %q from %s to %s takes %s on diameter, more than a fifth of it: is that meant?", s.Name, d.dia(s.Diameter), d.dia(cut), d.len(stock))
		}
		if b.Finish.Tolerance() > qty.Length(b.Finish.Nominal)/50 {
			d.say("The limits of %q are %s apart, more than a fiftieth of its size: is that meant?", s.Name, d.len(b.Finish.Tolerance()))
		}
		if b.Roundness > b.Finish.Tolerance() {
			d.say("The roundness allowed in %q, %s, is wider than its size tolerance, %s.", s.Name, d.len(b.Roundness), d.len(b.Finish.Tolerance()))
		}
		d.wear(b, s)
		d.shoulder(b, s, cut)
	}
}

func (d *doubts) wear(b Bore, s Station) {
	for _, w := range b.Wear {
		turn := 360.0
		if len(w.Across) > 0 {
			turn = 180
		}
		if gap := widestGap(w.At, turn); gap > turn/3+1e-6 {
			d.say("The readings of %q at %s leave %.0f° unseen: the worst of the wear may lie there.", s.Name, d.len(w.Depth), gap)
		}
		if len(w.Across) > 0 && b.Offset == 0 {
			d.say("Readings across %q do not tell where its axis is; state offset, or read the radius from the true axis.", s.Name)
		}
	}
	if worst := b.MostWorn(); worst > 0 && least(b) < s.Diameter-s.Diameter/50 {
		d.say("The readings of %q go down to %s, well below the diameter stated, %s.", s.Name, d.dia(least(b)), d.dia(s.Diameter))
	}
	if len(b.Wear) == 0 && b.Offset == 0 {
		d.say("Nothing tells where the axis of %q stands: no readings and no offset. The plan takes it to be true.", s.Name)
	}
}

// least is the smallest diameter about the true axis that the readings show.
func least(b Bore) qty.Diameter {
	l := qty.Diameter(math.MaxInt64)
	for _, w := range b.Wear {
		for _, r := range w.Radius {
			l = min(l, qty.FromRadius(r))
		}
		for _, x := range w.Across {
			l = min(l, x)
		}
	}
	return l
}

// widestGap is the largest angle between neighbouring readings.
func widestGap(at []float64, turn float64) float64 {
	if len(at) == 0 {
		return turn
	}
	var a []float64
	for _, x := range at {
		a = append(a, math.Mod(x, turn))
	}
	slices.Sort(a)
	gap := a[0] + turn - a[len(a)-1]
	for i := 1; i < len(a); i++ {
		gap = max(gap, a[i]-a[i-1])
	}
	return gap
}

// shoulder warns where the cutter runs out of the bore into a smaller station.
func (d *doubts) shoulder(b Bore, s Station, size qty.Diameter) {
	if b.Station+1 >= len(d.j.Stations) {
		return
	}
	next := d.j.Stations[b.Station+1]
	k := d.j.Cutter
	depth := max(0, min(size.Minus(s.Diameter)/2, d.j.Limits.DepthMost))
	need := qty.FromMM(cut.RunOut(k.NoseRadius.MM(), k.Lead, depth.MM()))
	if gap := next.From - s.To; next.Diameter < size && gap < need {
		d.say("Behind %q the smaller %q begins after %s: the cutter needs %s to run out and would mark its shoulder.", s.Name, next.Name, d.len(gap), d.len(need))
	}
}

func (d *doubts) bar() {
	j, b := d.j, &d.j.Bar
	var end qty.Length
	for _, x := range j.Bores {
		end = max(end, j.Stations[x.Station].To)
	}
	if b.FeedBy == TableFeed {
		if b.Standoff > 0 {
			d.say("A standoff is stated, but the table feeds: it is not used.")
		}
		if room := b.CutterAt - end; room >= j.leastRoom() && room < j.LeastStandoff() {
			d.say("The spindle nose comes within %s of the face at the end of the cut.", d.len(room))
		}
	} else if b.Standoff < j.LeastStandoff() {
		d.say("With %s between nose and face the mouth of the bore can hardly be seen or gauged.", d.len(b.Standoff))
	}
	if m := j.Machine; m != nil && float64(j.Limits.SpeedMost) > m.Speeds.Most {
		d.say("The speed limit of %s rev/min is above the fastest that %s has, %s.", field.PlainNumber(float64(j.Limits.SpeedMost)), m.ID, field.PlainNumber(m.Speeds.Most))
	}
	if j.Limits.SpringFinish > j.Limits.SpringRough {
		d.say("A finishing pass may spring more (%s) than a roughing pass (%s): is that meant?", d.len(j.Limits.SpringFinish), d.len(j.Limits.SpringRough))
	}
}

func (d *doubts) sleeve() {
	s := d.j.Sleeve
	if s == nil {
		return
	}
	for _, b := range d.j.Bores {
		if b.Repair != SleeveRepair {
			continue
		}
		st := d.j.Stations[b.Station]
		wall := s.Outside.Minus(b.Finish.High) / 2
		if want := max(2*qty.Millimetre, qty.Length(s.Outside)/40); wall < want {
			d.say("The sleeve in %q keeps a wall of %s; %s is usual at this size.", st.Name, d.len(wall), d.len(want))
		}
		if st.Wall == 0 && s.Hold == Press {
			d.say("No wall is stated for %q: the pressure of the sleeve cannot be judged against the casting.", st.Name)
		}
	}
	if s.Hold == Press {
		if hole, shaft, err := fit.Pair(s.Outside, s.Fit); err == nil && shaft.Lower-hole.Upper <= 0 {
			d.say("The fit %s can leave clearance at the ends of its limits: gauge both parts and pair them.", s.Fit)
		}
	} else if s.Gap > 150*qty.Micrometre || s.Gap < 20*qty.Micrometre {
		d.say("A bonding gap of %s is outside the usual 0.02 to 0.15 mm: see the maker's sheet of the compound.", d.len(s.Gap))
	}
}

func (d *doubts) sweeps() {
	for _, w := range d.j.Sweeps {
		s := d.j.Stations[w.Station]
		if gap := widestGap(w.At, 360); gap > 180-1e-6 {
			d.say("The sweep of %q reads only one side of it (%.0f° unseen): the centre it gives is a guess.", s.Name, gap)
		}
		if len(w.Dial) > 0 {
			if tir := slices.Max(w.Dial) - slices.Min(w.Dial); tir > qty.Millimetre {
				d.say("The dial in %q runs %s: line the work up nearer first, or check the units.", s.Name, d.len(tir))
			}
		}
	}
}

// sources asks after figures of the user's own files.
func (d *doubts) sources() {
	for _, m := range []*Material{d.j.Material, sleeveOf(d.j)} {
		if m != nil && len(m.Sources) == 0 {
			d.say("The material file %q does not say where its figures come from.", m.ID)
		}
	}
	if c := d.j.Cutter.Material; c != nil && c.Source == "" {
		d.say("The cutter material file %q does not say where its figures come from.", c.ID)
	}
	asked := map[string]bool{}
	for _, s := range d.j.Bar.Steps {
		if m := s.Material; m.Source == "" && !asked[m.ID] {
			asked[m.ID] = true
			d.say("The bar material file %q does not say where its figures come from.", m.ID)
		}
	}
	if m := d.j.Machine; m != nil && m.Source == "" {
		d.say("The machine file %q does not say where its figures come from; stiffness above all is better measured.", m.ID)
	}
}

func sleeveOf(j *Job) *Material {
	if j.Sleeve == nil {
		return nil
	}
	return j.Sleeve.Material
}

// Room between the spindle and the work, in round figures of the job's units
// (common practice, no source).

// LeastStandoff is the least from nose to face with quill feed.
func (j *Job) LeastStandoff() qty.Length { return j.Round(25, 1) }

// leastRoom is the least from nose to face with table feed, at the end of the
// cut.
func (j *Job) leastRoom() qty.Length { return j.Round(6, 0.25) }

// Round is a length that is round in the units of the job.
func (j *Job) Round(mm, inch float64) qty.Length {
	if j.Units == qty.Inches {
		return qty.FromInches(inch)
	}
	return qty.FromMM(mm)
}
