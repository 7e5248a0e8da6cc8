package plan

import (
	"math"

	"borewright/process"
	"borewright/process/bar"
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
	trials   bool    // work the chance of landing out
	learned  Learned // what measurements have taught; nil: nothing yet

	// What was searched for before: the visit inside a sleeve is planned for
	// trial, and again when it is taken.
	found map[task][]step
}

// Learned is what measurements have taught of the spring.
type Learned interface {
	// Factor is spring over predicted spring in a material, and what remains
	// unknown of it, as a fraction (95 %); doubt is that of the job.
	Factor(m *process.Material, doubt float64) (factor, left float64)
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

// hang is how far the bar hangs at the cutter when the tip stands at a depth,
// mm. With quill feed the bar is longer the deeper it works, and the quill hangs
// with it.
func (s *setup) hang(tip qty.Length) float64 {
	beam := s.beam
	if s.job.Bar.FeedBy == process.QuillFeed {
		if long, err := s.beam.Extended(s.quill, s.out(tip)); err == nil {
			beam = long
		}
	}
	drop, _ := beam.Sag()
	return drop
}

// out is how far the quill stands out of the nose when the tip is at a depth,
// mm, by quill feed.
func (s *setup) out(tip qty.Length) float64 {
	return math.Max(0, (tip - s.job.Bar.TipHome()).MM())
}

// rootShare is how much of the give at the cutter is the spindle's: 1/k_r + L²/k_θ
// over the whole.
func (s *setup) rootShare() float64 {
	l := s.job.Bar.CutterAt.MM()
	root := 1/(s.job.Machine.Radial*1e3) + l*l/(s.job.Machine.Tilt*1e9)
	return math.Min(1, root/s.beam.Compliance())
}

// slenderStep is the index of the step that springs most: the largest length over
// diameter.
func slenderStep(steps []process.Step) int {
	best := 0
	for i, s := range steps {
		if s.Length.MM()/s.Diameter.MM() > steps[best].Length.MM()/steps[best].Diameter.MM() {
			best = i
		}
	}
	return best
}
