package sleeve

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/feature"
	"borewright/process/fit"
	"borewright/process/qty"
)

// Raised is where a hole or a groove raises the stress of a pressed ring. Stresses are
// MPa; tension is positive.
type Raised struct {
	What    fact.Fact // hole, groove or pin, and where
	Where   fit.Place
	Plain   float64 // hoop of the plain ring there, the worst
	Times   float64 // raised by, closed form
	Peak    float64 // Plain × Times
	Judged  float64 // what is held against Allowed: the notch as the metal feels it, or the section that is left
	Allowed float64
	OK      bool
}

// notch is one feature as it acts on one ring.
type notch struct {
	what  fact.Fact
	where fit.Place
	times float64 // of the stress at its edge
	left  float64 // of the mean stress, by the metal that is missing
	even  bool    // the whole of it is felt, brittle or not: no notch, but a ring that gives
}

// notches are the features that a stress goes round. w is the finished wall, mm.
func (out *Sleeve) notches(b process.Bore) (all []notch) {
	m, w, long := out.Made, out.Wall.MM(), out.Length.Most.MM()
	add := func(n notch) { all = append(all, n) }
	for _, h := range m.Holes {
		what := fact.New(HolesAt, plain(h.Diameter.Length()), clocks(h.At), plain(h.Depth))
		net := feature.Netted(w, long, w, h.Diameter.MM()) // right through
		add(notch{what: what, where: fit.HubBore, times: feature.HoleFactor, left: net})
		add(notch{what: what, where: fit.SleeveBore, times: feature.ThinHoleFactor, left: net})
	}
	for _, g := range m.Grooves {
		deep := g.Depth.MM()
		what := grooveAt(g)
		if g.Along() {
			add(notch{what: what, where: fit.HubBore, times: feature.BehindGroove(deep, w), left: feature.BehindGroove(deep, w), even: true})
			add(notch{what: what, where: fit.SleeveBore, times: feature.GrooveFactor(g.Width.MM(), deep), left: feature.Netted(w, long, deep, g.Length.MM())})
			continue
		}
		thin := feature.Ringed(out.Outside.MM(), b.Finish.High.MM(), g.Width.MM(), deep)
		add(notch{what: what, where: fit.SleeveBore, times: thin, left: thin, even: true})
	}
	if p := m.Pin; p != nil {
		what := fact.New(PinAt, fact.Name(p.By.String()), plain(p.Diameter.Length()), clocks(p.At))
		half := p.Diameter.MM() / 2
		add(notch{what: what, where: fit.HubBore, times: feature.PinFactor(), left: feature.Netted(out.Hub.Least.MM(), long, half, p.Length.MM())})
		add(notch{what: what, where: fit.SleeveOutside, times: feature.PinFactor(), left: feature.Netted(w, long, half, p.Length.MM())})
	}
	if v := m.Vent; v != nil && v.By == feature.Channel {
		add(notch{what: fact.New(VentAt, clocks([]float64{v.At})), where: fit.SleeveOutside, times: feature.GrooveFactor(v.Width.MM(), v.Depth.MM()), left: w / (w - v.Depth.MM())}) // the whole length
	}
	return all
}

// raise works out what holes and grooves do to the stresses of a press fit, and stops
// where a brittle part would crack from one, or what is left of a ductile one yield.
func (out *Sleeve) raise(job *process.Job, b process.Bore) {
	for _, n := range out.notches(b) {
		for _, s := range out.Stresses {
			if s.Where != n.where {
				continue
			}
			of := out.Material
			if n.where == fit.HubBore {
				of = job.Material
			}
			r := Raised{What: n.what, Where: n.where, Plain: s.Hoop.Most, Times: n.times, Allowed: s.Allowed}
			if -s.Hoop.Least > s.Hoop.Most {
				r.Plain = s.Hoop.Least
			}
			r.Peak = r.Plain * n.times
			felt := n.left
			if s.Criterion.Brittle() && !n.even {
				felt = max(felt, feature.Sensitive(n.times, of.Group == greyIron))
			}
			r.Judged = s.Equivalent * felt
			r.OK = r.Judged <= r.Allowed
			out.Raised = append(out.Raised, r)
			what := []fact.Arg{n.what, fact.Name(n.where.String()), stressOf(r.Judged), stressOf(r.Allowed)}
			switch {
			case !r.OK && s.OK && s.Criterion.Brittle():
				out.Stops = append(out.Stops, fact.New(CracksAt, what...))
			case !r.OK && s.OK:
				out.Stops = append(out.Stops, fact.New(YieldsAt, what...))
			}
		}
	}
	if len(out.Raised) == 0 {
		return
	}
	worst := out.Raised[0]
	for _, r := range out.Raised {
		if math.Abs(r.Peak) > math.Abs(worst.Peak) && r.Where == fit.HubBore {
			worst = r
		}
	}
	out.Cautions = append(out.Cautions, fact.New(RaisedMost, worst.What, fact.Name(worst.Where.String()), fact.Figure(qty.KindFactor.Of(worst.Times)), stressOf(worst.Plain), stressOf(worst.Peak)))
}

// greyIron is the group of ISO 513 whose brittle metals are full of graphite.
const greyIron = "K"

// plain is a length of the job as it is written there.
func plain(l qty.Length) fact.Arg { return fact.Figure(qty.Plain(l)) }

func stressOf(mpa float64) fact.Arg { return fact.Value(qty.KindStress, mpa) }

// clocks is a list of clock positions.
func clocks(at []float64) fact.Arg {
	var all []fact.Fact
	for _, a := range at {
		all = append(all, fact.New(AtClock, fact.Figure(qty.KindClock.Of(a))))
	}
	return fact.List(all...)
}

// grooveAt names a groove and where it lies.
func grooveAt(g feature.Groove) fact.Fact {
	args := []fact.Arg{fact.Name(g.Kind.String()), plain(g.From), plain(g.To()), plain(g.Depth)}
	if g.Along() {
		return fact.New(GrooveAlong, append(args, clocks(g.At), plain(g.Width))...)
	}
	return fact.New(GrooveRound, args...)
}

// GrooveTurned is the diameter that a groove is turned to on the lathe: as deep in the
// finished bore as the job has it, and open by as much as assembly closes it.
// Rounded to 0.02 mm, or 0.001 in: nobody turns a groove closer.
func (s *Sleeve) GrooveTurned(u qty.Unit, finish process.Finish, g feature.Groove) qty.Diameter {
	step := qty.Millimetre / 50
	if u == qty.Inches {
		step = qty.Inch / 1000
	}
	middle := finish.Low.Plus(finish.High.Minus(finish.Low) / 2)
	return qty.Diameter((middle.Plus(2*g.Depth+(s.Closure.Least+s.Closure.Most)/2).Length() + step/2) / step * step)
}

// FlangeAt is the flange at an end; nil: none.
func (s *Sleeve) FlangeAt(e feature.End) *feature.Stop {
	if f := s.Made.Stop; f != nil && f.By == feature.Flange && f.End == e {
		return f
	}
	return nil
}

// Overall is how long the sleeve is with its flange, at the most.
func (s *Sleeve) Overall() qty.Length {
	long := s.Length.Most
	for _, e := range []feature.End{feature.Near, feature.Far} {
		if f := s.FlangeAt(e); f != nil {
			long += f.Thickness
		}
	}
	return long
}

// mindMade says what can be made, and is to be minded.
func (out *Sleeve) mindMade(st process.Station) {
	m, long := out.Made, out.Length.Most
	mind := func(k fact.Kind, args ...fact.Arg) { out.Cautions = append(out.Cautions, fact.New(k, args...)) }
	if s := m.Stop; s != nil && !m.SeatCut() {
		mind(SeatNotFaced, fact.Name(s.By.String()))
	}
	var oil []feature.Groove
	for _, g := range m.Grooves {
		if g.Kind != feature.Oil {
			continue
		}
		oil = append(oil, g)
		if g.Depth > out.Wall/3 {
			mind(GrooveDeep, grooveAt(g), fact.Figure(out.Wall/3))
		}
		if g.Along() && (g.From < out.Wall || long-g.To() < out.Wall) {
			mind(GrooveOpen, grooveAt(g), fact.Figure(out.Wall))
		}
	}
	for _, h := range m.Holes {
		half := h.Diameter.Length() / 2
		if min(h.Depth, long-h.Depth)-half < out.Wall {
			mind(HoleNearEnd, plain(h.Diameter.Length()), plain(h.Depth), fact.Figure(out.Wall))
		}
		met := len(oil) == 0
		for _, g := range oil {
			met = met || h.Depth > g.From-half && h.Depth < g.To()+half
		}
		if !met {
			mind(HoleMeetsNone, plain(h.Diameter.Length()), plain(h.Depth))
		}
	}
	if p := m.Pin; p != nil {
		if w, ok := st.WallRound(); ok {
			for _, at := range p.At {
				if d := math.Mod(math.Abs(at-w.At), 360); w.Read && w.Thick > w.Thin && min(d, 360-d) < 60 {
					mind(PinAtThin, fact.Name(p.By.String()), fact.Figure(qty.KindClock.Of(at)), fact.Figure(qty.KindClock.Of(w.At)))
				}
			}
		}
	}
	along := false
	for _, g := range m.Grooves {
		along = along || g.Along()
	}
	if out.InPlace && along {
		mind(CutKnocks)
	}
}
