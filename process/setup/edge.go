package setup

import (
	"cmp"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/qty"
)

// Edge is the job's edge in one metal, on the bar as it stands along one stretch
// of a bore.
type Edge struct {
	Factor float64 // spring seen over spring predicted, 1 until it is measured; the gives below have it in them
	Feed   float64 // feed force over that predicted, besides
	Doubt  Doubt   // what remains unknown of the forces
	Along  []Place // from the beginning of the stretch to its end; two where nothing changes along it
	Middle Give    // the middle of the stiffest and the softest, that settings are worked with
	Stiff  Give    // where the bar is stiffest along the stretch
	Soft   Give    // where it is softest

	s     *Setup
	metal *process.Material
	in    *cut.Model
	out   *cut.Model // the same edge fed the other way
	swing swing

	radius float64 // of the bore, mm
	land   float64 // worn onto the flank, mm

	rows  map[rowOf]*row      // of tables, shared with the same edge worn otherwise
	marks map[marksOf]float64 // cut.Model.MarksRa, shared with it too
}

// marksOf is what feed marks hang on.
type marksOf struct {
	feed float64
	way  Way
}

// Place is how the tip gives way when it stands at one depth of the bore.
type Place struct {
	Depth qty.Length
	Give
}

// Edge sets the edge to a metal along the stretch of a bore of a radius, mm, between
// two depths.
// The error says which figure of edge or metal no cut can have, or that the
// quill is too slender for its stickout.
func (s *Setup) Edge(m *process.Material, radius float64, from, to qty.Length) (*Edge, error) {
	e := &Edge{s: s, metal: m, swing: s.swingAt(from, to), radius: radius, rows: map[rowOf]*row{}, marks: map[marksOf]float64{}}
	var err error
	if e.in, err = s.modelOf(m, edgeOf(&s.Job.Cutter)); err != nil {
		return nil, err
	}
	if e.out, err = s.modelOf(m, turned(edgeOf(&s.Job.Cutter))); err != nil {
		return nil, err
	}
	known := Predicted(s.Job.Limits.ForceError)
	if s.Learned != nil {
		known = s.Learned.Known(m, known)
	}
	e.Factor, e.Feed, e.Doubt = known.Factor, known.Feed, known.Doubt
	if e.Along, err = e.Between(from, to); err != nil {
		return nil, err
	}
	byGive := func(a, b Place) int { return cmp.Compare(a.Radial, b.Radial) }
	e.Stiff, e.Soft = slices.MinFunc(e.Along, byGive).Give, slices.MaxFunc(e.Along, byGive).Give
	e.Middle = e.Stiff.between(e.Soft)
	return e, nil
}

// Broad is the same bar with a bit of a straight edge at an angle to the axis, degrees, as one
// for a counterbore or a lead-in: its nose is as small as a hand grinds it.
func (s *Setup) Broad(angle float64) *Setup {
	job, other := *s.Job, *s
	job.Cutter.Lead, job.Cutter.Trail, job.Cutter.NoseRadius = angle, broadTrail, broadNose
	other.Job = &job
	return &other
}

// Clearance behind a broad edge, degrees, and its nose. Common practice, no source.
const (
	broadTrail = 5
	broadNose  = qty.Millimetre / 5
)

// Between is how the tip gives way along another stretch of the same bore, with
// what was learned of it. With table feed the stickout stays, and the two ends say
// all; with quill feed it grows, and the softest is at the bottom. A bush in the work comes nearer.
func (e *Edge) Between(from, to qty.Length) ([]Place, error) {
	s := e.s
	if s.Job.Bar.FeedBy != process.QuillFeed && !s.guided() {
		g := giveOf(s.beam, e.Factor, e.Feed)
		return []Place{{from, g}, {to, g}}, nil
	}
	const n = 12
	var out []Place
	for i := range n + 1 {
		at := from + (to-from)*qty.Length(i)/n
		there := s.at(at)
		if !s.guided() {
			var err error
			if there, err = s.beam.Extended(s.quill, s.quillOut(at)); err != nil {
				return nil, err
			}
		}
		out = append(out, Place{at, giveOf(there, e.Factor, e.Feed)})
	}
	return out, nil
}

// Rigid is how the tip would give way on a spindle that does not, with what was
// learned of it.
func (e *Edge) Rigid() Give {
	at := func(p Place) Give {
		return giveOf(e.s.at(p.Depth).Yielding(0), e.Factor, e.Feed)
	}
	return at(e.Along[0]).between(at(e.Along[len(e.Along)-1]))
}

// model is the edge as it cuts when it is fed one way.
func (e *Edge) model(way Way) *cut.Model {
	if way == Out {
		return e.out
	}
	return e.in
}

// Force is what the edge feels at a radial depth, mm, a feed, mm/rev, and a cutting
// speed, m/min; nothing where the depth is not above 0.
func (e *Edge) Force(depth, feed, speed float64, way Way) cut.Force {
	return e.feels(e.model(way), depth, feed, speed)
}

// Stroke is that of passes at a feed, mm/rev, and a cutting speed, m/min, with the
// tip at a radius, mm, and the bar as it is in one place. fed: it comes out turning.
func (e *Edge) Stroke(g Give, feed, speed, radius float64, fed bool) Stroke {
	return NewStroke(func(way Way) Push {
		m := e.model(way)
		return func(depth float64) float64 { return g.Push(e.feels(m, depth, feed, speed), radius, way) }
	}, fed)
}

// Ra is the roughness to expect, mm, at a feed, mm/rev, a depth, mm, and a cutting
// speed, m/min.
func (e *Edge) Ra(feed, depth, speed float64, way Way) float64 {
	marks, known := e.marks[marksOf{feed, way}]
	if !known {
		marks = e.model(way).MarksRa(feed)
		e.marks[marksOf{feed, way}] = marks
	}
	return e.model(way).RaOver(marks, depth, speed)
}

// WhyRough is why that is more than is asked for, mm.
func (e *Edge) WhyRough(feed, depth, speed, asked float64, way Way) cut.RaCause {
	return e.model(way).WhyRough(feed, depth, speed, asked)
}

// FeedMarks is how high the marks stand, mm, that a feed leaves.
func (e *Edge) FeedMarks(feed float64) float64 { return e.in.Rt(feed) }

// LeastDepth is the least radial depth, mm, that the edge cuts: below it rubs.
func (e *Edge) LeastDepth() float64 { return e.in.LeastDepth() }

// Stress is the highest bending stress in the bar, MPa, with the tip at a radius, mm. A
// bearing with play may hold it or not: the higher of the two.
func (e *Edge) Stress(f cut.Force, radius float64, way Way) float64 {
	l := loadOf(f, radius, way)
	most := e.s.beam.Stress(l)
	if e.s.guided() {
		for _, p := range e.Along {
			most = math.Max(most, e.s.at(p.Depth).Stress(l))
		}
	}
	if e.s.free != nil {
		most = math.Max(most, e.s.free.Stress(l))
	}
	return most
}

// modelOf is how an edge cuts a metal on this machine.
func (s *Setup) modelOf(m *process.Material, e cut.Edge) (*cut.Model, error) {
	kept := s.kept.models
	kept.mu.Lock()
	defer kept.mu.Unlock()
	key := modelOf{m, s.Job.Cutter.Material.Class, e.MinChip * e.Rounding}
	if known := kept.known[key]; known != nil {
		return known.With(e)
	}
	work := cut.Work{
		Kc11: m.Kc11, Mc: m.Mc, ThrustRatio: m.ThrustRatio, ThrustFall: m.ThrustFall,
		Rake0: m.Rake0, RaFactor: m.RaFactor, RaLeast: m.Speeds[s.Job.Cutter.Material.Class].RaLeast, Group: m.Group, Flank: m.Flank,
	}
	if f := s.Job.Machine.ForceFactor; f > 0 {
		work.Kc11, work.Flank = work.Kc11*f, work.Flank*f
	}
	model, err := cut.New(work, e)
	if err == nil {
		kept.known[key] = model
	}
	return model, err
}

// edgeOf turns the job's cutter into what the force model needs.
func edgeOf(c *process.Cutter) cut.Edge {
	return cut.Edge{
		Nose: c.NoseRadius.MM(), Lead: c.Lead, Trail: c.Trail, Rake: c.Rake,
		Factor: c.Material.Force, Rounding: c.EdgeRadius.MM(), MinChip: c.Material.MinChip,
	}
}

// turned is the edge as it cuts when it is fed the other way: the side behind the
// nose leads. The few edges whose sides are outside what the force model takes, near
// the wall behind the nose or steeper than 80° in front of it, are counted as at
// that end of it: on the way out the nose does the cutting, and its sides hardly
// any.
func turned(e cut.Edge) cut.Edge {
	e.Lead, e.Trail = math.Max(e.Trail, 10), math.Min(e.Lead, 80)
	return e
}
