// Package doubt asks what a careful colleague would ask of a job that loads: figures that can
// be, but seldom are.
//
// What belongs here: questions that need nothing but the job. What does not: what is refused
// (process/files), and anything that a plan has to be made for.
package doubt

import (
	"math"
	"slices"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/fit/standard"
	"borewright/process/qty"
)

// Of a job are its doubts, in the order of the file. Of several bars and cutters those that the job
// now has are asked after (process.Job.Using), by the bores that are cut with them: of a bar that
// cuts none nothing is asked.
func Of(j *process.Job) []fact.Fact {
	d := &doubts{j: j}
	d.stations()
	d.bores()
	d.bar()
	d.chosen()
	d.limits()
	d.cutter()
	d.sleeve()
	d.sweeps()
	d.sources()
	return d.out
}

type doubts struct {
	j   *process.Job
	out []fact.Fact
}

func (d *doubts) add(f fact.Fact) { d.out = append(d.out, f) }

// gapLeast and gapMost are the gap that is usual for a bond. Common practice, no
// source.
const gapLeast, gapMost = 20 * qty.Micrometre, 150 * qty.Micrometre

func (d *doubts) stations() {
	for i, s := range d.j.Stations {
		if s.Relief > 0 && !s.Blind && i == len(d.j.Stations)-1 {
			d.add(fact.New(AskRelief, fact.Name(s.Name)))
		}
	}
}

func (d *doubts) bores() {
	j := d.j
	for i, b := range j.Bores {
		if !j.Here(b) {
			continue
		}
		s := j.Stations[b.Station]
		cut := b.Finish.High
		if b.Repair == process.SleeveRepair && j.Sleeve != nil {
			cut = j.Sleeve.Outside
			if b.Finish.Low > s.Diameter {
				d.add(fact.New(AskSleeve, fact.Name(s.Name), fact.Figure(b.Finish.Low), fact.Figure(s.Diameter)))
			}
		}
		if stock := cut.Minus(s.Diameter); stock > qty.Length(s.Diameter)/5 {
			d.add(fact.New(AskStock, fact.Name(s.Name), fact.Figure(s.Diameter), fact.Figure(cut), fact.Figure(stock)))
		}
		if b.Finish.Tolerance() > qty.Length(b.Finish.Nominal)/50 {
			d.add(fact.New(AskLimits, fact.Name(s.Name), fact.Figure(b.Finish.Tolerance())))
		}
		if b.Roundness > b.Finish.Tolerance() {
			d.add(fact.New(AskRoundness, fact.Name(s.Name), fact.Figure(b.Roundness), fact.Figure(b.Finish.Tolerance())))
		}
		d.wear(b, s)
		if j.Cuts(i) {
			d.shoulder(b, s, cut)
		}
	}
}

func (d *doubts) wear(b process.Bore, s process.Station) {
	for _, w := range b.Wear {
		turn := 360.0
		if len(w.Across) > 0 {
			turn = 180
		}
		if gap := widestGap(w.At, turn); gap > turn/3+1e-6 {
			d.add(fact.New(AskUnseen, fact.Name(s.Name), fact.Figure(w.Depth), fact.Figure(qty.KindCount.Of(gap))))
		}
		if len(w.Across) > 0 && b.Offset == 0 {
			d.add(fact.New(AskOffset, fact.Name(s.Name)))
		}
	}
	if worst := b.MostWorn(); worst > 0 && least(b) < s.Diameter-s.Diameter/50 {
		d.add(fact.New(AskReadings, fact.Name(s.Name), fact.Figure(least(b)), fact.Figure(s.Diameter)))
	}
	if worn := b.MostWorn().Minus(s.Diameter) / 2; s.Wall > 0 && worn >= s.Wall {
		d.add(fact.New(AskWorn, fact.Name(s.Name), fact.Figure(worn), fact.Figure(s.Wall)))
	}
	if len(b.Wear) == 0 && b.Offset == 0 {
		d.add(fact.New(AskAxis, fact.Name(s.Name)))
	}
}

// least is the smallest diameter about the true axis that the readings show.
func least(b process.Bore) qty.Diameter {
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
func (d *doubts) shoulder(b process.Bore, s process.Station, size qty.Diameter) {
	if b.Station+1 >= len(d.j.Stations) {
		return
	}
	next := d.j.Stations[b.Station+1]
	k := d.j.Cutter
	depth := max(0, min(size.Minus(s.Diameter)/2, d.j.Limits.DepthMost))
	need := qty.FromMM(cut.RunOut(k.NoseRadius.MM(), k.Lead, depth.MM()))
	if gap := next.From - s.To; next.Diameter < size && gap < need {
		d.add(fact.New(AskShoulder, fact.Name(s.Name), fact.Name(next.Name), fact.Figure(gap), fact.Figure(need)))
	}
}

// cuts is whether any bore is cut with bar and cutter of the job.
func (d *doubts) cuts() bool {
	for i := range d.j.Bores {
		if d.j.Cuts(i) {
			return true
		}
	}
	return false
}

func (d *doubts) bar() {
	j, b := d.j, &d.j.Bar
	if !d.cuts() {
		return
	}
	var end qty.Length
	for i, x := range j.Bores {
		if !j.Here(x) || !j.Cuts(i) {
			continue
		}
		end = max(end, j.Stations[x.Station].To)
	}
	if b.FeedBy == process.TableFeed {
		if b.Standoff > 0 {
			d.add(fact.New(AskStandoff))
		}
		if room := b.CutterAt - end; room >= leastRoom(j) && room < j.LeastStandoff() {
			d.add(fact.New(AskNose, fact.Figure(room)))
		}
	} else if b.Standoff < j.LeastStandoff() {
		d.add(fact.New(AskMouth, fact.Figure(b.Standoff)))
	} else if _, stated := j.Places["bar.standoff"]; !stated && j.Machine != nil && j.Machine.Control != nil {
		d.add(fact.New(AskSetBack, fact.Figure(b.Standoff)))
	}
}

// chosen asks after a choice where nothing is left to choose: bar and cutter are named or described.
func (d *doubts) chosen() {
	if _, stated := d.j.Places["choose"]; stated && !d.j.Open.Any() && len(d.j.Candidates) == 0 {
		d.add(fact.New(AskChoose))
	}
}

func (d *doubts) limits() {
	j := d.j
	if m := j.Machine; m != nil && float64(j.Limits.SpeedMost) > m.Speeds.Most {
		d.add(fact.New(AskSpeed, fact.Figure(j.Limits.SpeedMost), fact.Name(m.ID), fact.Figure(qty.RevPerMin(m.Speeds.Most))))
	}
	if most := j.Limits.SpringRough; most > 0 && j.Limits.SpringFinish > most {
		d.add(fact.New(AskSpring, fact.Figure(j.Limits.SpringFinish), fact.Figure(j.Limits.SpringRough)))
	}
}

// cutter asks after an edge that lies along the wall: on a drawing of a bit the angle
// is often the one from square.
func (d *doubts) cutter() {
	if lead := d.j.Cutter.Lead; lead <= 45 && d.cuts() {
		d.add(fact.New(AskLead, fact.Figure(qty.KindCount.Of(lead)), fact.Figure(qty.KindCount.Of(90-lead))))
	}
}

func (d *doubts) sleeve() {
	s := d.j.Sleeve
	if s == nil {
		return
	}
	for _, b := range d.j.Bores {
		if b.Repair != process.SleeveRepair || !d.j.Here(b) {
			continue
		}
		st := d.j.Stations[b.Station]
		wall := s.Outside.Minus(b.Finish.High) / 2
		if want := max(2*qty.Millimetre, qty.Length(s.Outside)/40); wall < want {
			d.add(fact.New(AskSleeveWall, fact.Name(st.Name), fact.Figure(wall), fact.Figure(want)))
		}
		if st.Wall == 0 && s.Hold == process.Press {
			d.add(fact.New(AskWall, fact.Name(st.Name)))
		}
	}
	if s.Hold == process.Press {
		if hole, shaft, err := standard.Pair(s.Outside, s.Fit); err == nil && shaft.Lower-hole.Upper <= 0 {
			d.add(fact.New(AskFit, fact.Name(s.Fit)))
		}
	} else if s.Gap > gapMost || s.Gap < gapLeast {
		d.add(fact.New(AskGap, fact.Figure(s.Gap), fact.Figure(qty.Plain(gapLeast)), fact.Figure(qty.Plain(gapMost))))
	}
}

func (d *doubts) sweeps() {
	for _, w := range d.j.Sweeps {
		s := d.j.Stations[w.Station]
		if gap := widestGap(w.At, 360); gap > 180-1e-6 {
			d.add(fact.New(AskSweep, fact.Name(s.Name), fact.Figure(qty.KindCount.Of(gap))))
		}
		if len(w.Dial) > 0 {
			if tir := slices.Max(w.Dial) - slices.Min(w.Dial); tir > qty.Millimetre {
				d.add(fact.New(AskDial, fact.Name(s.Name), fact.Figure(tir)))
			}
		}
	}
}

// sources asks after figures of the user's own files.
func (d *doubts) sources() {
	for _, m := range []*process.Material{d.j.Material, sleeveOf(d.j)} {
		if m != nil && len(m.Sources) == 0 {
			d.add(fact.New(AskMaterial, fact.Name(m.ID)))
		}
	}
	if c := d.j.Cutter.Material; c != nil && c.Source == "" && d.cuts() {
		d.add(fact.New(AskCutter, fact.Name(c.ID)))
	}
	asked := map[string]bool{}
	for _, s := range d.j.Bar.Steps {
		if m := s.Material; m.Source == "" && !asked[m.ID] && d.cuts() {
			asked[m.ID] = true
			d.add(fact.New(AskBar, fact.Name(m.ID)))
		}
	}
	if m := d.j.Machine; m != nil && m.Source == "" {
		d.add(fact.New(AskMachine, fact.Name(m.ID)))
	}
}

func sleeveOf(j *process.Job) *process.Material {
	if j.Sleeve == nil {
		return nil
	}
	return j.Sleeve.Material
}

// leastRoom is the least from nose to face with table feed, at the end of the cut, in a round
// figure. Common practice, no source.
func leastRoom(j *process.Job) qty.Length { return j.Round(6, 0.25) }
