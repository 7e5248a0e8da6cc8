package plan

import (
	"fmt"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/bar"
	"borewright/process/cut"
	"borewright/process/qty"
)

// setup is the bar in the machine: what stays the same for every bore.
type setup struct {
	job      *process.Job
	beam     *bar.Beam
	sections []bar.Section
	support  *bar.Support // nil: the bar ends in the air
	quill    bar.Section
	overhang float64
	feeds    []float64 // mm/rev, rising, that the machine has and the job allows
	chorus   *chorus
	trials   bool   // work the chance of landing out
	known    *known // what measurements have taught; nil: nothing yet

	// What was searched for before: the visit inside a sleeve is planned for
	// trial, and again when it is taken.
	found map[task][]step
}

// newSetup builds the beam from the job's bar and the machine's spindle.
func newSetup(job *process.Job) (*setup, error) {
	s := &setup{job: job, found: map[task][]step{}}
	for _, st := range job.Bar.Steps {
		s.sections = append(s.sections, bar.Section{
			D: st.Diameter.MM(), Hole: st.Hole.MM(), Length: st.Length.MM(),
			E: st.Material.E, Nu: st.Material.Nu, Rho: st.Material.Rho,
		})
	}
	root := bar.Root{Radial: job.Machine.Radial * 1e3, Tilt: job.Machine.Tilt * 1e9}
	if o := job.Bar.Outboard; o != nil {
		s.support = &bar.Support{At: o.At.MM(), Stiffness: o.Stiffness * 1e3}
	}
	beam, err := bar.New(s.sections, root, job.Bar.CutterAt.MM(), s.support, 0)
	if err != nil {
		return nil, err
	}
	s.beam, s.overhang = beam, beam.Overhang()
	steel := process.BarMaterialByID("steel")
	s.quill = bar.Section{D: job.Machine.Quill.MM(), E: steel.E, Nu: steel.Nu, Rho: steel.Rho}
	s.feeds = feedSteps(job)
	s.chorus = newChorus(beam, job.Machine.Damping[0])
	return s, nil
}

// feedSteps is the ladder of feeds that a pass may use. A machine with gears
// has its own; on one with a range the steps are those a person would key in:
// near a R20 series (ISO 3), plain in the job's units.
func feedSteps(job *process.Job) []float64 {
	r := job.Machine.Feeds
	steps := r.Steps
	if len(steps) == 0 {
		steps = []float64{0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.12, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1}
		if job.Units == qty.Inches {
			for i, f := range []float64{0.001, 0.0015, 0.002, 0.0025, 0.003, 0.004, 0.005, 0.006, 0.008, 0.010, 0.012, 0.015, 0.020, 0.025, 0.030, 0.035, 0.040} {
				steps[i] = f * 25.4
			}
		}
	}
	var out []float64
	for _, f := range steps {
		if len(r.Steps) == 0 && (f < r.Least || f > r.Most) {
			continue
		}
		if most := job.Limits.FeedMost.MM(); most > 0 && f > most*(1+1e-9) {
			continue
		}
		out = append(out, f)
	}
	return out
}

// speedAtMost is the fastest speed of the machine that does not exceed rpm;
// the slowest it has when all do. On a range it is rounded down to two figures,
// as a person would key it in.
func speedAtMost(m *process.Machine, rpm float64) float64 {
	if len(m.Speeds.Steps) > 0 {
		best := m.Speeds.Steps[0]
		for _, s := range m.Speeds.Steps {
			if s <= rpm {
				best = s
			}
		}
		return best
	}
	rpm = math.Max(m.Speeds.Least, math.Min(m.Speeds.Most, rpm))
	if rpm >= 100 {
		rpm = math.Floor(rpm/10) * 10
	} else {
		rpm = math.Floor(rpm)
	}
	return math.Max(rpm, m.Speeds.Least)
}

// derate slows a slender bar. 1 up to an overhang of 3, 0.85 at 4, 0.75 at 6
// and 0.70 beyond 7. Source: an open derating table, speed 80–90 % at 4 and
// 70–80 % at 6 (one source); the flat end is common practice, no source.
func derate(overhang float64) float64 {
	return between(overhang, []float64{3, 4, 6, 7}, []float64{1, 0.85, 0.75, 0.70})
}

// lighter is the share of the job's deepest cut that a slender bar takes: all up
// to an overhang of 3 diameters, 0.75 at 4, 0.55 at 6, 0.35 at 8, 0.25 from 10.
// A bar held at both ends takes all. Source: an open derating table, 70–80 % at
// 4 and 50–60 % at 6 (one source); beyond 6 common practice, no source.
func lighter(overhang float64, held bool) float64 {
	if held {
		return 1
	}
	return between(overhang, []float64{3, 4, 6, 8, 10}, []float64{1, 0.75, 0.55, 0.35, 0.25})
}

// between reads y off a line through points of rising x, level beyond the ends.
func between(x float64, xs, ys []float64) float64 {
	if x <= xs[0] {
		return ys[0]
	}
	for i := 1; i < len(xs); i++ {
		if x <= xs[i] {
			return ys[i-1] + (x-xs[i-1])/(xs[i]-xs[i-1])*(ys[i]-ys[i-1])
		}
	}
	return ys[len(ys)-1]
}

// room is one visit about to be planned: the cut, the compliance along it and
// the stock.
type room struct {
	*setup
	v        *Visit
	st       process.Station
	model    *cut.Model
	along    [2]float64  // compliance at the cutter over the cut, mm/N, least and most
	c        float64     // the middle of them, that settings are worked with
	heavy    float64     // radius where the bore is smallest about the true axis, mm
	light    float64     // radius where it is largest
	aim      float64     // radius aimed at
	rough    []speedPick // from the fastest
	finish   []speedPick
	depth    float64 // deepest cut that job, bar and relief allow, mm
	depthWhy string  // which of them
	witness  bool

	factor     float64 // spring seen over spring predicted, 1 until it is measured
	forceDoubt float64 // what remains unknown of the spring, as a fraction of it (95 %)
	measured   bool    // the bore as it stands was measured
}

// speedPick is the spindle speed for one kind of pass.
type speedPick struct {
	rpm    float64
	speed  float64 // m/min at the size aimed at
	within bool    // inside the material's band: false when the machine has nothing slow enough
}

// newRoom prepares a visit whose From, To, Clear, Limits, Start and Material
// are filled in.
func (s *setup) newRoom(v *Visit, st process.Station, witness bool) (*room, error) {
	job := s.job
	r := &room{
		setup: s, v: v, st: st, witness: witness,
		measured: v.Behind > 0, heavy: v.Start.MM() / 2, light: v.StartMost.MM() / 2, aim: v.Limits.Aim.MM() / 2,
	}
	var err error
	if r.model, err = r.modelOf(edgeOf(&job.Cutter)); err != nil {
		return nil, err
	}
	r.factor, r.forceDoubt = s.known.factor(v.Material, job.Limits.ForceError)
	r.depth = job.Limits.DepthMost.MM() * lighter(r.overhang, job.Bar.Outboard != nil)
	r.depthWhy = "by the job"
	if r.depth < job.Limits.DepthMost.MM() {
		r.depthWhy = fmt.Sprintf("for a bar %.1f diameters out", r.overhang)
	}
	nose, lead := job.Cutter.NoseRadius.MM(), job.Cutter.Lead
	if r.st.Blind { // the run-out groove limits the depth of cut as well as the travel
		if most := cut.RunOutDepth(nose, lead, (r.st.Relief - runOut).MM()); most < r.depth {
			r.depth, r.depthWhy = most, "by the run-out at the blind end"
		}
	}
	past := cut.RunOut(nose, lead, math.Min(r.depth, math.Max(0, r.aim-r.heavy))) + runOut.MM()
	v.End = v.To + job.Units.Round(qty.FromMM(past))
	if most := v.To + r.st.Relief - runOut/2; r.st.Blind && v.End > most {
		v.End = job.Units.Round(most)
	}
	if err := r.compliance(); err != nil {
		return nil, err
	}
	band := v.Material.Speeds[job.Cutter.Material.Class]
	r.rough = r.picks(float64(job.Cutter.SpeedRough), band.Rough)
	r.finish = r.picks(float64(job.Cutter.SpeedFinish), band.Finish)
	return r, nil
}

// runOut is how far past its work the tip goes on, and the room it keeps to a
// blind bottom: half a millimetre.
const runOut = qty.Millimetre / 2

// compliance fills in how soft the bar is along the cut. With table feed the
// stickout stays; with quill feed it grows, and the softest is at the bottom.
func (r *room) compliance() error {
	base := r.beam.Compliance()
	r.along = [2]float64{base, base}
	r.v.Along = []AlongPoint{{r.v.From, base * 1e3}, {r.v.End, base * 1e3}}
	if r.job.Bar.FeedBy == process.QuillFeed {
		var depths []qty.Length
		var outs []float64
		const n = 12
		for i := range n + 1 {
			at := r.v.From + (r.v.End-r.v.From)*qty.Length(i)/n
			depths = append(depths, at)
			outs = append(outs, r.out(at))
		}
		cs, err := r.beam.Along(r.quill, outs)
		if err != nil {
			return err
		}
		r.along = [2]float64{slices.Min(cs), slices.Max(cs)}
		r.v.Along = nil
		for i, c := range cs {
			r.v.Along = append(r.v.Along, AlongPoint{depths[i], c * 1e3})
		}
	}
	r.along[0], r.along[1] = r.factor*r.along[0], r.factor*r.along[1]
	r.c = (r.along[0] + r.along[1]) / 2
	r.v.Compliance = [2]float64{r.along[0] * 1e3, r.along[1] * 1e3}
	r.v.Overhang = r.overhang
	return nil
}

// modelOf is how an edge cuts the metal of the visit on this machine.
func (r *room) modelOf(e cut.Edge) (*cut.Model, error) {
	work := workOf(r.v.Material)
	if f := r.job.Machine.ForceFactor; f > 0 {
		work.Kc11 *= f
	}
	return cut.New(work, e)
}

// picks are the spindle speeds to try, from the fastest: the author's own
// alone, or the top of the band taken down for a slender bar, and two slower
// ones, because a slow edge rubs chatter out. All at the size aimed at.
func (r *room) picks(own float64, band [2]qty.CuttingSpeed) []speedPick {
	v := own
	if v == 0 {
		v = float64(band[1]) * derate(r.overhang)
	}
	top := float64(qty.CuttingSpeed(v).Turning(r.v.Limits.Aim))
	if most := float64(r.job.Limits.SpeedMost); most > 0 {
		top = math.Min(top, most)
	}
	var out []speedPick
	for _, share := range []float64{1, 0.7, 0.5} {
		n := speedAtMost(r.job.Machine, top*share)
		got := float64(qty.RevPerMin(n).At(r.v.Limits.Aim))
		slow := got < slowest*float64(band[0])
		if len(out) > 0 && (own > 0 || slow || n >= out[len(out)-1].rpm) {
			continue
		}
		out = append(out, speedPick{rpm: n, speed: got, within: got <= math.Max(v, float64(band[1]))*1.02})
	}
	return out
}

// slowest is how far below the band's lower end a speed is still worth trying:
// slower, a carbide edge builds up and crumbles. Common practice, no source.
const slowest = 0.5

// workOf turns a material of the catalog into what the force model needs.
func workOf(m *process.Material) cut.Work {
	return cut.Work{
		Kc11: m.Kc11, Mc: m.Mc, ThrustRatio: m.ThrustRatio, ThrustFall: m.ThrustFall,
		Rake0: m.Rake0, RaFactor: m.RaFactor, Group: m.Group,
	}
}

// edgeOf turns the job's cutter into what the force model needs.
func edgeOf(c *process.Cutter) cut.Edge {
	return cut.Edge{
		Nose: c.NoseRadius.MM(), Lead: c.Lead, Trail: c.Trail, Rake: c.Rake,
		Factor: c.Material.Force, Rounding: c.EdgeRadius.MM(), MinChip: c.Material.MinChip,
	}
}
