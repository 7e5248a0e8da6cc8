package turns

import (
	"math"
	"slices"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/qty"
)

// What the order says, and what is done at a turn and minded of it.
const (
	OrderTurns      fact.Kind = "turns.order"           // how many, list of faces in their order
	OrderTurnsApart fact.Kind = "turns.order apart"     // the same, where bores of both faces are roughed apart
	FaceTitle       fact.Kind = "turns.title"           // face, title of the visit
	FromFace        fact.Kind = "turns.from face"       // face
	HalfRound       fact.Kind = "turns.half round"      // face that comes to the spindle
	Check           fact.Kind = "turns.check"           // place, within; lean, within over length
	Swept           fact.Kind = "plan.half turn, swept" // station, within; far face of a job of its own
	Only            fact.Kind = "plan.half turn alone"  // the same
	SecondSwept     fact.Kind = "turns.second swept"    // station, face, within, other face
	SecondOnly      fact.Kind = "turns.second alone"    // the same, BeforeCut or BeforeFinish
	SecondApart     fact.Kind = "turns.second apart"    // the same
	BeforeCut       fact.Kind = "turns.before cut"      // the first
	BeforeFinish    fact.Kind = "turns.before finish"   // of a bore that is roughed apart: none is finished before it is roughed
	Safely          fact.Kind = "plan.turn safely"
	BushOut         fact.Kind = "turns.bush, bar out"     // station of the bush
	BearingOut      fact.Kind = "turns.bearing, bar out"  //
	BearingsOut     fact.Kind = "turns.bearings, bar out" //
	BushIn          fact.Kind = "turns.bush, bar in"      // face, station of the bush
	BearingIn       fact.Kind = "turns.bearing, bar in"   // face, other face, from the nose
	BearingsIn      fact.Kind = "turns.bearings, bar in"  // face, other face, inboard and outboard from the nose
)

// Title is the title of a visit in a job of both faces: it begins with the face.
func Title(f process.Face, title fact.Fact) fact.Fact {
	return fact.New(FaceTitle, fact.Name(f.String()), title)
}

// Far says of a job of its own, bored from the far face, how truly its bores stand to those that
// were bored from the near one; nothing of a job from the near face.
func Far(job *process.Job, line *place.LineUp) []fact.Fact {
	if !job.FromFar() {
		return nil
	}
	out := []fact.Fact{fact.New(Safely)}
	for _, b := range job.Bores {
		st := job.Stations[b.Station]
		if line != nil {
			out = append(out, fact.New(Swept, fact.Name(st.Name), fact.Figure(line.UnsureAt(st.Name))))
			continue
		}
		out = append(out, fact.New(Only, fact.Name(st.Name), fact.Figure(job.Units.Up(within(job, st)))))
	}
	return out
}

// within is what the half turn leaves unknown of a station, at the end of it where it is most.
func within(job *process.Job, st process.Station) qty.Length {
	return max(place.HalfTurn(job, st.From), place.HalfTurn(job, st.To))
}

// Sides are a job of both faces as it is seen from each, with what the sweeps from each say; nil
// where there are none.
type Sides struct {
	Job    [2]*process.Job
	Line   [2]*place.LineUp
	Second process.Face // that is finished last
}

// Cautions say how truly the bores of the face that is finished last stand to those of the other.
func (s *Sides) Cautions() []fact.Fact {
	job := s.Job[s.Second]
	out := []fact.Fact{fact.New(Safely)}
	for i, b := range job.Bores {
		if !job.Here(b) {
			continue
		}
		st := job.Stations[b.Station]
		kind, w := s.stands(st)
		args := []fact.Arg{fact.Name(st.Name), fact.Name(s.Second.String()), fact.Figure(job.Units.Up(w)), fact.Name(faces.Other(s.Second).String())}
		switch {
		case kind == SecondSwept:
		case job.RoughsApart(i):
			args = append(args, fact.New(BeforeFinish))
		default:
			args = append(args, fact.New(BeforeCut))
		}
		out = append(out, fact.New(kind, args...))
	}
	return out
}

// stands is how far a station of the face that is finished last may stand from the line of the
// bores that were finished from the other, ± (95 %), and by what that is known:
//
//	swept from here, a bore of the other face among the sweeps   as the line-up has it
//	swept from here, but no bore of the other face               √(a² + b²)
//	not swept                                                    what the half turn leaves
//
// a what is not known of the station by the sweeps from here, b the most that is not known of a
// bore of the other face by the sweeps from there, or what the half turn leaves where there are
// none.
func (s *Sides) stands(st process.Station) (fact.Kind, qty.Length) {
	job, line := s.Job[s.Second], s.Line[s.Second]
	switch {
	case line == nil:
		return SecondOnly, within(job, st)
	case faces.Shown(job):
		return SecondSwept, line.UnsureAt(st.Name)
	}
	other := faces.Other(s.Second)
	first, was := s.Job[other], s.Line[other]
	most := within(job, st)
	if was != nil {
		most = 0
		for _, b := range first.Bores {
			if first.Here(b) {
				most = max(most, was.UnsureAt(first.Stations[b.Station].Name))
			}
		}
	}
	return SecondApart, bySquares(line.UnsureAt(st.Name), most)
}

// Axis is how far from the line the axis of a station of the face that is finished last may
// stand where no sweep from there shows it, ± (95 %): what the sweeps from the other face do not
// tell of it, and what the half turn leaves. back is as of place.LineUp.AxisWithin.
func (s *Sides) Axis(st process.Station, back qty.Length) qty.Length {
	job := s.Job[s.Second]
	all := bySquares(within(job, st), back)
	if was := s.Line[faces.Other(s.Second)]; was != nil {
		all = bySquares(all, was.UnsureAt(st.Name))
	}
	return job.Units.Up(all)
}

// Bush is what is not known of where a station that a bush is fitted in stands from the spindle, as it
// is set at a face, ± (95 %), besides how far it may stand off the line:
//
//	nothing swept from the face                      √(p² + (φ·Δz)²), by the half turn; 0 before it
//	swept from the face                              a
//	the same, bored from the other face, none of     √(a² + b²)
//	whose bores is among the sweeps
//
// a what the sweeps from here leave unknown of the line there, b the same of the sweeps that it was
// bored by, or the half turn where there were none. What was bored before here lies where the spindle
// ran, and the table comes back to it by half turns.
func (s *Sides) Bush(f process.Face, station string) qty.Length {
	job, line, other := s.Job[f], s.Line[f], faces.Other(f)
	i := slices.IndexFunc(job.Stations, func(st process.Station) bool { return st.Name == station })
	st, bore := job.Stations[i], job.BoreAt(i)
	across := bore >= 0 && !job.Here(job.Bores[bore])
	switch {
	case line == nil && (across || f == s.Second):
		return within(job, st)
	case line == nil:
		return 0
	case across && !faces.Shown(job) && s.Line[other] == nil:
		return bySquares(line.UnsureAt(station), within(job, st))
	case across && !faces.Shown(job):
		return bySquares(line.UnsureAt(station), s.Line[other].UnsureAt(station))
	}
	return line.UnsureAt(station)
}

func bySquares(a, b qty.Length) qty.Length { return qty.FromMM(math.Hypot(a.MM(), b.MM())) }

// AtTurn is what is done and checked as a face comes round to the spindle. before and after are the job
// with the bar that was in the spindle and with the one that cuts next. Bearings stand on the machine,
// one in front of the work and one beyond it, whatever face is in use: the work alone turns.
func AtTurn(job *process.Job, to process.Face, before, after *process.Job) (all []fact.Fact) {
	if o := before.Bar.Outboard; o != nil {
		all = append(all, fact.New(out(before, BushOut, BearingOut, BearingsOut), fact.Name(o.Station)))
	}
	span := 300 * qty.Millimetre
	if job.Units == qty.Inches {
		span = 12 * qty.Inch
	}
	lean := job.Units.Up(qty.Length(float64(span) * job.Machine.IndexAngle / 1e3))
	all = append(all,
		fact.New(HalfRound, fact.Name(to.String())),
		fact.New(Check, fact.Name(to.String()), fact.Figure(qty.Plain(job.Machine.IndexPlace)), fact.Figure(qty.Plain(lean)), fact.Figure(qty.Plain(span))))
	switch o, in := after.Bar.Outboard, after.Bar.Inboard; {
	case in != nil:
		all = append(all, fact.New(BearingsIn, fact.Name(to.String()), fact.Name(faces.Other(to).String()), fact.Figure(qty.Plain(in.At)), fact.Figure(qty.Plain(o.At))))
	case o != nil && o.Station != "":
		if b := before.Bar.Outboard; b != nil && b.Station == o.Station { // else it is fitted then
			all = append(all, fact.New(BushIn, fact.Name(to.String()), fact.Name(o.Station)))
		}
	case o != nil:
		all = append(all, fact.New(BearingIn, fact.Name(to.String()), fact.Name(faces.Other(to).String()), fact.Figure(qty.Plain(o.At))))
	}
	return all
}

// out is which of these kinds a bar is that comes out of the work: in a bush, in a bearing, in two.
func out(job *process.Job, bush, one, two fact.Kind) fact.Kind {
	switch {
	case job.Bar.Inboard != nil:
		return two
	case job.Bar.Outboard.Station == "":
		return one
	}
	return bush
}
