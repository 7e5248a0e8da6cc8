// Package setup tells what one bar with one edge does in one cut on one machine:
// the feeds and speeds that the machine has, the forces, how far the tip is pushed
// off the wall and what that leaves of an uneven bore, how the cut stands against
// chatter, and what strains bar and spindle. It knows no order of passes and looks
// for none: that is process/passes.
//
// New takes the bar of a job in its machine; Setup.Edge sets the job's edge to one
// metal along one stretch of a bore. All spring is in push.go.
package setup

import (
	"cmp"
	"maps"
	"math"
	"sync"

	"borewright/process"
	"borewright/process/bar"
	"borewright/process/cores"
	"borewright/process/cut"
	"borewright/process/files"
)

// Setup is the bar in the machine: what stays the same for every bore.
type Setup struct {
	Job      *process.Job
	Overhang float64      // stickout over diameter
	Feeds    []float64    // mm/rev, rising, that the machine has and the job allows
	Learned  SpringFactor // what measurements have taught; nil: nothing yet
	Held     bool         // by an outboard bearing that it touches

	beam     *bar.Beam
	free     *bar.Beam // the bar off its bearing; nil: it has none, or one without play
	sections []bar.Section
	support  *bar.Support // nil: the bar ends in the air
	quill    bar.Section
	root     bar.Root
	chatter  func() *chatterLimit // waits until it is known
	kept     *kept
}

// kept is what is worked out once for a bar, by all that plan with it at a time.
type kept struct {
	mu     sync.Mutex
	models *models
	stands map[float64]stand // the bar by how far the quill is out
}

// models are how edges cut metals on one machine, kept: another edge alike is found sooner. Bars may
// share them.
type models struct {
	mu    sync.Mutex
	known map[modelOf]*cut.Model
}

// modelOf is what two edges have in common whose forces go by one table.
type modelOf struct {
	metal *process.Material
	class string  // of the cutter's material
	least float64 // chip, mm
}

func newModels() *models { return &models{known: map[modelOf]*cut.Model{}} }

// SpringFactor is what measurements have taught of the spring.
type SpringFactor interface {
	// Known is that in a material. first is what a job says of its forces before
	// anything was measured.
	Known(m *process.Material, first Known) Known
}

// Known is what is known of the spring: as predicted, or as measurements have taught.
type Known struct {
	Factor float64 // spring over predicted spring, where feed force is as predicted
	Feed   float64 // feed force over what is predicted with that
	Doubt  Doubt
}

// Doubt is what remains unknown of the forces, as fractions of them (95 %): of all
// alike, with what the bar gives, and of the feed force by itself.
type Doubt struct {
	All, Feed float64
	Together  float64 // correlation of the two
}

// Predicted is what is known before anything was measured. all is how far all forces may
// be off; feed force has as much to itself as cut.FeedAlone says.
func Predicted(all float64) Known {
	return Known{1, 1, Doubt{All: all, Feed: cut.FeedAlone * all}}
}

// Moves is by how much something moves, mm, for all forces larger by the whole of
// them, and for the feed force alone.
type Moves struct{ All, Feed float64 }

// Less is what one moves less another.
func (m Moves) Less(n Moves) Moves { return Moves{m.All - n.All, m.Feed - n.Feed} }

// Times is so many times as much.
func (m Moves) Times(k float64) Moves { return Moves{k * m.All, k * m.Feed} }

// Of is how two things go together that the same forces move: their covariance, mm², in the
// measure of the doubt. With φ and ψ the doubts of all forces and of feed force, and r
// their correlation,
//
//	φ²·a₁·a₂ + φ·ψ·r·(a₁·f₂ + f₁·a₂) + ψ²·f₁·f₂
//
// It is not the square of the whole spring's share: where radial force and the arm of the
// feed force nearly cancel, both doubts remain.
func (d Doubt) Of(m, n Moves) float64 {
	return d.All*d.All*m.All*n.All + d.All*d.Feed*d.Together*(m.All*n.Feed+m.Feed*n.All) + d.Feed*d.Feed*m.Feed*n.Feed
}

// On is what a doubt leaves unknown of one thing, ± mm.
func (d Doubt) On(m Moves) float64 { return math.Sqrt(math.Max(0, d.Of(m, m))) }

// Alone is the least that a doubt leaves unknown of what moves by 1 for all forces, whatever it moves
// by for the feed force: what of the one does not go together with the other.
func (d Doubt) Alone() float64 {
	if d.Feed == 0 {
		return d.All
	}
	return d.All * math.Sqrt(math.Max(0, 1-d.Together*d.Together))
}

// New builds the beam from the job's bar and the machine's spindle. The error says
// which figure of the bar no beam can have.
func New(job *process.Job) (*Setup, error) {
	s := &Setup{Job: job, kept: &kept{models: newModels(), stands: map[float64]stand{}}}
	for _, st := range job.Bar.Steps {
		s.sections = append(s.sections, bar.Section{
			D: st.Diameter.MM(), Hole: st.Hole.MM(), Length: st.Length.MM(),
			E: st.Material.E, Nu: st.Material.Nu, Rho: st.Material.Rho, Damping: s.damping(st.Material.Damping),
		})
	}
	s.root = bar.Root{Radial: job.Machine.Radial * 1e3, Tilt: job.Machine.Tilt * 1e9, Damping: s.damping(job.Machine.Joint)}
	if o := job.Bar.Outboard; o != nil {
		s.support = &bar.Support{At: job.OutboardAt(job.FirstCut()).MM(), Stiffness: o.Stiffness * 1e3, Play: o.Clearance.MM()}
	}
	if o := job.Bar.Inboard; o != nil {
		s.root.Near = &bar.Support{At: o.At.MM(), Stiffness: o.Stiffness * 1e3, Play: o.Clearance.MM()}
	}
	beam, err := bar.New(s.sections, s.root, job.Bar.CutterAt.MM(), s.support, 0)
	if err != nil {
		return nil, err
	}
	s.Held = s.support != nil
	if beam.Gap() != nil && job.Bar.Inboard == nil {
		s.free = beam.Free()
		if s.neverTouches(beam) {
			beam, s.free, s.support, s.Held = s.free, nil, nil, false
		}
	}
	s.beam, s.Overhang = beam, beam.Overhang()
	steel := files.BarMaterialByID("steel")
	s.quill = bar.Section{D: job.Machine.Quill.MM(), E: steel.E, Nu: steel.Nu, Rho: steel.Rho, Damping: s.damping(steel.Damping)}
	s.Feeds = feedSteps(job)
	s.chatter = cores.Beside(func() *chatterLimit { return newChatterLimit(beam) })
	return s, nil
}

// With is the same bar for a job that differs in its cutter alone.
func (s *Setup) With(job *process.Job) *Setup {
	s.kept.mu.Lock()
	defer s.kept.mu.Unlock()
	o := *s
	o.Job, o.kept = job, &kept{models: s.kept.models, stands: maps.Clone(s.kept.stands)}
	return &o
}

// Beside has a bar share with another one, on the same machine, what is known of edges.
func (s *Setup) Beside(o *Setup) { s.kept.models = o.kept.models }

// openSpring is more than a bar springs in a rough whose spring no limit holds, mm on
// diameter: plans of bars eleven diameters out come to 0.45. An assumption.
const openSpring = 0.5

// neverTouches is whether the bar stays off its bearing whatever it cuts: at the most
// spring that the job allows, off the bearing, with three times the force along the cut
// (a rough has two to three times: experiments in outside turning, one source). Where
// the job sets no limit it is taken to be openSpring.
func (s *Setup) neverTouches(b *bar.Beam) bool {
	most := cmp.Or(s.Job.Limits.SpringRough.MM(), openSpring) / 2 / s.free.Compliance()
	return b.Meet(bar.Load{Radial: most, Tangential: 3 * most}).Idle
}

// Bush is how the bar runs in its outboard bearing in a cut with the tip at a radius, mm,
// where it is softest; false where it has none, or one without play.
func (e *Edge) Bush(f cut.Force, radius float64, way Way) (bar.Contact, bool) {
	if e.Soft.gap == nil {
		return bar.Contact{}, false
	}
	return e.Soft.gap.Meet(loadOf(f.By(e.Factor), radius, way)), true
}

// damping is the damping ratio of a part of bar and spindle: its own, or what was
// measured of a bar in this spindle, which is that of every part.
func (s *Setup) damping(own [2]float64) [2]float64 {
	if m := s.Job.Machine.Damping; m[0] > 0 {
		return m
	}
	return own
}

// guided is whether the bar runs in a bush that comes nearer to the nose as the work is fed.
func (s *Setup) guided() bool {
	return s.support != nil && s.Job.Guide() != nil && s.Job.Bar.FeedBy == process.TableFeed
}

// RootShare is how much of the give at the cutter is the spindle's: 1/k_r + L²/k_θ
// over the whole; of a line bar, that of its bearings.
func (s *Setup) RootShare() float64 {
	if s.Job.Bar.Inboard != nil {
		return math.Min(1, 1-s.beam.Yielding(0).Compliance()/s.beam.Compliance())
	}
	l := s.Job.Bar.CutterAt.MM()
	root := 1/(s.Job.Machine.Radial*1e3) + l*l/(s.Job.Machine.Tilt*1e9)
	return math.Min(1, root/s.beam.Compliance())
}

// AllowedStress is the bending stress that every step of the bar stands, MPa.
func (s *Setup) AllowedStress() float64 {
	least := math.Inf(1)
	for _, s := range s.Job.Bar.Steps {
		least = math.Min(least, s.Material.Allowed)
	}
	return least
}

// SlenderStep is the index of the step that springs most: the largest length over
// diameter.
func SlenderStep(steps []process.Step) int {
	return process.Bar{Steps: steps}.Slender()
}

// SteelAlpha is the expansion of a steel bar, 1/K: 11.5·10⁻⁶ (any handbook).
const SteelAlpha = 11.5e-6
