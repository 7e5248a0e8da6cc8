package seats

import (
	"slices"
	"strings"

	"borewright/process/fact"
	"borewright/process/fit/iso286"
	"borewright/process/qty"
)

// Part is which seat of a rolling bearing is asked for.
type Part int

// The parts.
const (
	Housing Part = iota // the bore, around the outer ring
	Shaft               // the shaft, in the inner ring
)

// Turns is which ring turns against the load: that ring sees the load travel round it.
type Turns int

// The ways to turn.
const (
	Inner  Turns = iota // the shaft turns and the load stays in one place
	Outer               // the housing or wheel turns, or the load turns with the shaft
	Either              // it cannot be told: a crank, a load that comes and goes round
)

// Load is how heavy a bearing is loaded, by its equivalent load over its dynamic rating C:
// light to 0.06, normal to 0.12, heavy above (one publisher 0.06 and 0.13; boundaries
// differ, from memory).
type Load int

// The loads.
const (
	Light Load = iota
	Normal
	Heavy
	Shock
)

// Rolling is what rolls in a bearing.
type Rolling int

// The bearings.
const (
	Ball Rolling = iota
	Cylindrical
	Spherical
)

// Seat is what is known of a seat.
type Seat struct {
	Size   qty.Diameter // of the seat, nominal
	Part   Part
	Turns  Turns
	Load   Load
	Rolls  Rolling // for a shaft
	Split  bool    // the housing is split along its axis
	Slides bool    // this ring must move along its seat
	Thin   bool    // housing: less than 1.5 times the bore outside
	Soft   bool    // housing of light alloy, shaft hollow or not of steel

	Alpha  float64    // 1/K, of the housing or shaft
	AtWork [2]float64 // °C of housing or shaft, and of the ring on it; both 20: as in the room
}

// Advice is what to choose.
type Advice struct {
	Class   string // "H7", "m6"
	Closer  string // where it must run more truly; "": none
	Limits  iso286.Limits
	Ring    iso286.Limits // of the ring's surface that sits there, Normal class; zero: not known at this size
	Cold    iso286.Range  // clearance of ring and seat at 20 °C, on diameter; negative is tight
	Hot     iso286.Range  // the same at work
	Because []fact.Fact
	Mind    []fact.Fact
}

// ringAlpha is the thermal expansion of bearing steel, 1/K: 11.5 to 12.5 in handbooks, from memory.
const ringAlpha = 12e-6

// Advise chooses the class of a seat. Source of the tables: ANSI/ABMA 7 (1995), housings as
// two open pages tabulate it, shafts as a scanned text of its Table 1 has it, of which some
// letters of the light load were completed from memory.
func Advise(s Seat) (Advice, error) {
	var a Advice
	if s.Part == Housing {
		a.housing(s)
	} else {
		a.shaft(s)
	}
	get := iso286.Hole
	if s.Part == Shaft {
		get = iso286.Shaft
	}
	var err error
	if a.Limits, err = get(s.Size, a.Class); err != nil {
		return Advice{}, err
	}
	if width := tolerance(s.Size, s.Part); width > 0 {
		a.Ring = iso286.Limits{Lower: -width}
		a.Cold = a.clearance(s.Part)
		a.warm(s)
	}
	a.mind(s)
	return a, nil
}

// clearance is what the ring and its seat leave, at one temperature.
func (a *Advice) clearance(p Part) iso286.Range {
	if p == Housing {
		return iso286.Clearance(a.Limits, a.Ring)
	}
	return iso286.Clearance(a.Ring, a.Limits)
}

// change is how much looser a seat is at work than in the room, on diameter:
// D [α_h (T_h − 20) − α_r (T_r − 20)], and for a shaft the other way round.
func (s Seat) change() qty.Length {
	d := s.Size.MM() * (s.Alpha*(s.AtWork[0]-20) - ringAlpha*(s.AtWork[1]-20))
	if s.Part == Shaft {
		d = -d
	}
	return qty.FromMM(d)
}

// warm works the fit out at work. A housing whose standing ring is pinched in the middle of
// the limits, by heat that comes through the shaft, is bored G7 (ANSI/ABMA 7).
func (a *Advice) warm(s Seat) {
	by := s.change()
	at := func() { a.Hot = iso286.Range{Least: a.Cold.Least + by, Most: a.Cold.Most + by} }
	at()
	if s.Part == Housing && s.Turns == Inner && s.Load != Shock && a.Class[0] == 'H' {
		const wider = "G7"
		if l, err := iso286.Hole(s.Size, wider); err == nil && middle(a.Hot) < 0 {
			a.Because = append(a.Because, fact.New(HeatPinches, fact.Name(a.Class), fact.Figure(-a.Hot.Least), fact.Name(wider)))
			a.Class, a.Closer, a.Limits = wider, "", l
			a.Cold = a.clearance(s.Part)
			at()
		}
	}
}

func middle(r iso286.Range) qty.Length { return (r.Least + r.Most) / 2 }

// housing is the bore by the table: ANSI/ABMA 7, from two open pages that agree.
func (a *Advice) housing(s Seat) {
	because := func(k fact.Kind) { a.Because = append(a.Because, fact.New(k)) }
	choose := func(why fact.Kind, class, closer string) {
		a.Class, a.Closer = class, closer
		because(why)
	}
	switch {
	case s.Turns == Inner && s.Load == Shock:
		choose(StandsUnloads, "J7", "J6")
	case s.Turns == Inner && s.Split:
		choose(StandsSplit, "H7", "")
	case s.Turns == Inner:
		choose(Stands, "H7", "H6")
	case s.Turns == Either && s.Load == Shock:
		choose(EitherShock, "M7", "M6")
	case s.Turns == Either && (s.Load == Light || s.Load == Normal && s.Slides):
		choose(EitherMoves, "J7", "J6")
	case s.Turns == Either:
		choose(EitherStays, "K7", "K6")
	case s.Load == Light:
		choose(TurnsLight, "M7", "M6")
	case s.Load == Normal || s.Load == Heavy && !s.Thin:
		choose(TurnsNormal, "N7", "N6")
	default:
		choose(TurnsHeavy, "P7", "P6")
	}
	tighter := func(why fact.Kind) { // one letter on, once
		letters := []string{"H", "J", "K", "M", "N", "P"}
		step := func(class string) string {
			i := slices.Index(letters, strings.TrimRight(class, "0123456789"))
			if i < 0 || i == len(letters)-1 {
				return class
			}
			return letters[i+1] + class[len(letters[i]):]
		}
		if to := step(a.Class); to != a.Class {
			a.Class, a.Closer = to, ""
			because(why)
		}
	}
	switch {
	case s.Soft && s.Turns != Inner:
		tighter(SoftHousing)
	case s.Thin && s.Turns != Inner && a.Class != "P7":
		tighter(ThinHousing)
	}
	// A split housing pinches at its joint: K7 at the most (from memory, common practice).
	if s.Split && strings.ContainsAny(a.Class[:1], "MNP") {
		a.Class, a.Closer = "K7", ""
		because(SplitPinches)
	}
}

// step is a class up to and including a bore of so many mm.
type step struct {
	upto  float64
	class string
}

const above = 1e9

// shafts are the seats of a ring that sees the load travel, by load and by what rolls.
// Source: ANSI/ABMA 7-1995 Table 1 as a scanned text has it; h5, j6, k6 and m6 of the light
// load and the bounds of heavily loaded balls from memory. Shock counts as heavy (from
// memory).
var shafts = [3][3][]step{
	Light: {
		Ball:        {{18, "h5"}, {above, "j6"}},
		Cylindrical: {{40, "j6"}, {140, "k6"}, {320, "m6"}, {500, "n6"}, {above, "p6"}},
		Spherical:   {{40, "j6"}, {100, "k6"}, {320, "m6"}, {500, "n6"}, {above, "p6"}},
	},
	Normal: {
		Ball:        {{18, "j5"}, {above, "k5"}},
		Cylindrical: {{40, "k5"}, {100, "m5"}, {140, "m6"}, {320, "n6"}, {500, "p6"}, {above, "r6"}},
		Spherical:   {{40, "k5"}, {65, "m5"}, {100, "m6"}, {140, "n6"}, {280, "p6"}, {500, "r6"}, {above, "r7"}},
	},
	Heavy: {
		Ball:        {{100, "k5"}, {above, "m5"}},
		Cylindrical: {{40, "m5"}, {65, "m6"}, {140, "n6"}, {200, "p6"}, {500, "r6"}, {above, "r7"}},
		Spherical:   {{40, "m5"}, {65, "m6"}, {100, "n6"}, {140, "p6"}, {200, "r6"}, {above, "r7"}},
	},
}

func (a *Advice) shaft(s Seat) {
	because := func(k fact.Kind) { a.Because = append(a.Because, fact.New(k)) }
	switch {
	case s.Turns == Outer && s.Slides:
		a.Class = "g6"
		because(ShaftSlides)
	case s.Turns == Outer:
		a.Class = "h6"
		because(ShaftStands)
	default:
		load := min(s.Load, Heavy)
		for _, x := range shafts[load][s.Rolls] {
			if s.Size.MM() <= x.upto {
				a.Class = x.class
				break
			}
		}
		because(ShaftTurns)
		if s.Load == Shock {
			because(ShockIsHeavy)
		}
		if c := a.Class; c == "j6" || c == "k6" || c == "m6" {
			a.Closer = c[:1] + "5"
		}
	}
}

// thin is the clearance that is worth a word, on diameter.
const thin = qty.Micrometre

// mind is what to look at besides.
func (a *Advice) mind(s Seat) {
	mind := func(k fact.Kind, args ...fact.Arg) { a.Mind = append(a.Mind, fact.New(k, args...)) }
	tight := s.Part == Housing && s.Turns != Inner || s.Part == Shaft && s.Turns != Outer
	known := a.Ring.Lower != 0
	switch {
	case known && tight && a.Cold.Least < 0 && (a.Hot.Least >= 0 || middle(a.Cold) < 0 && middle(a.Hot) > 0):
		mind(LoosensAtWork, fact.Figure(a.Hot.Most))
	case known && !tight && a.Cold.Least >= 0 && a.Hot.Least < -thin:
		mind(StillPinched, fact.Figure(-a.Hot.Least))
	case known && !tight && s.Part == Housing && s.change() > thin:
		mind(GrowsAway, fact.Figure(s.change()))
	}
	if s.Slides && tight {
		mind(CannotSlide)
	}
	if s.Soft && s.Part == Shaft && tight {
		mind(SoftShaft)
	}
	if s.Soft && s.Part == Housing && s.Turns == Inner {
		mind(SoftStands)
	}
	if s.Split {
		mind(SplitRelief)
	}
	if tight && known && a.Cold.Least < -thin {
		mind(TakesInternal, fact.Figure(-a.Cold.Least))
	}
	if it, err := iso286.Grade(s.Size, "IT5"); err == nil {
		mind(FormOfSeat, fact.Figure(qty.Fine(it/2)), fact.Figure(qty.Fine(it)))
	}
	mind(AdviceOnly)
}
