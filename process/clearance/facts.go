package clearance

import (
	"borewright/process/fact"
	"borewright/process/qty"
)

// What the answers are called where they are printed.
const (
	IsClear     fact.Kind = "clearance.clear"
	IsTight     fact.Kind = "clearance.tight"
	DoesNotPass fact.Kind = "clearance.does-not-pass"

	TheNose   fact.Kind = "clearance.nose"
	TheQuill  fact.Kind = "clearance.quill"
	TheCutter fact.Kind = "clearance.cutter"
	TheStep   fact.Kind = "clearance.step" // its number, from 1

	WhileGoingIn   fact.Kind = "clearance.going-in"
	WhileCutting   fact.Kind = "clearance.cutting"
	WhileComingOut fact.Kind = "clearance.coming-out"

	EntersOnAxis  fact.Kind = "clearance.enters-on-axis"
	EntersShifted fact.Kind = "clearance.enters-shifted"
	SetInside     fact.Kind = "clearance.set-inside"
	NeverEnters   fact.Kind = "clearance.never-enters"
)

// Fact is the answer to be printed.
func (v Verdict) Fact() fact.Fact { return fact.Named(v, IsClear, IsTight, DoesNotPass) }

// Fact is the phase to be printed.
func (p Phase) Fact() fact.Fact { return fact.Named(p, WhileGoingIn, WhileCutting, WhileComingOut) }

// Fact is the way to be printed.
func (w Way) Fact() fact.Fact {
	return fact.Named(w, EntersOnAxis, EntersShifted, SetInside, NeverEnters)
}

// Fact is the part to be printed.
func (p Part) Fact() fact.Fact {
	switch p {
	case Nose:
		return fact.New(TheNose)
	case Quill:
		return fact.New(TheQuill)
	case Cutter:
		return fact.New(TheCutter)
	}
	return fact.New(TheStep, fact.Count(int(p)+1))
}

// What blocks a bar on its way to a bore. place is a fact AtPlace.
const (
	AtPlace        fact.Kind = "clearance.at-place"         // number of the pass, phase, depth of the tip
	RunsIntoBottom fact.Kind = "clearance.runs-into-bottom" // part, its diameter, overlap, station, place
	NearBottom     fact.Kind = "clearance.near-bottom"      // part, its diameter, room, station, room needed, place
	NearFace       fact.Kind = "clearance.near-face"        // the same
	LittleRoom     fact.Kind = "clearance.little-room"      // the same
	TooLarge       fact.Kind = "clearance.too-large"        // part, its diameter, station, overlap, place
	CutterNeverIn  fact.Kind = "clearance.cutter-never-in"  // number of the pass, setting, station, open length in front of the bore, why not with the bar shifted
	NoseTooNear    fact.Kind = "clearance.nose-too-near"    // how much further off it must stand
	QuillTooShort  fact.Kind = "clearance.quill-too-short"  // how far it would come out, how much more than it can
)

// Why a program cannot take a cutter in off the axis.
const (
	NoOrientedStop fact.Kind = "clearance.no-oriented-stop"
	HeldOutboard   fact.Kind = "clearance.held-outboard"
	NoRoomToReturn fact.Kind = "clearance.no-room-to-return" // station in which cutter or bar still stands, bore, how much more length in front of the bore
	TooNarrowOff   fact.Kind = "clearance.too-narrow-off"    // how much wider, station that bounds the tip, station that bounds the bar
)

// What is wrong with a bar and its line of bores.
const (
	NoSuchBore      fact.Kind = "clearance.no-such-bore"     // number of the station, how many there are
	NotAStation     fact.Kind = "clearance.not-a-station"    // name, from, to, diameter, relief
	StationsOverlap fact.Kind = "clearance.stations-overlap" // name, from, name of the one before, its end
	BehindBlind     fact.Kind = "clearance.behind-blind"     // name, name of the one behind
	NoSteps         fact.Kind = "clearance.no-steps"
	NotAStep        fact.Kind = "clearance.not-a-step"     // number, diameter, length
	CutterOffBar    fact.Kind = "clearance.cutter-off-bar" // where it stands, length of the bar
	NotASpindle     fact.Kind = "clearance.not-a-spindle"  // nose, quill, travel, standoff
	NoPass          fact.Kind = "clearance.no-pass"
	NotAPass        fact.Kind = "clearance.not-a-pass"  // number, setting, bore before, from, to, retract shift
	NotAShift       fact.Kind = "clearance.not-a-shift" // where the tip points in degrees, uncertainty
)

// Arguments from mm and degrees.

func diameter(mm float64) fact.Arg { return fact.Figure(qty.DiameterMM(mm)) }

// Why says what blocks; nothing when nothing does.
func (r *Reach) Why() []fact.Fact {
	var out []fact.Fact
	for _, g := range r.Gaps {
		if g.Verdict == Blocked {
			out = append(out, g.why())
		}
	}
	var never *Entry // said once, of the pass that has it worst
	for i, e := range r.Entries {
		if e.Way() == NoWay && e.Bare && (never == nil || e.Setting > never.Setting) {
			never = &r.Entries[i]
		}
	}
	if never != nil {
		out = append(out, fact.New(CutterNeverIn, fact.Count(never.N), diameter(never.Setting), fact.Name(never.Name), fact.MM(never.Open), r.NotOff))
	}
	if r.NoseBack > 0 {
		out = append(out, fact.New(NoseTooNear, fact.MM(r.NoseBack)))
	}
	if r.QuillShort > 0 {
		out = append(out, fact.New(QuillTooShort, fact.MM(r.QuillOut), fact.MM(r.QuillShort)))
	}
	return out
}

// why says how a place blocks.
func (g Gap) why() fact.Fact {
	part, size, name, room := g.Part.Fact(), diameter(g.Diameter), fact.Name(g.Name), fact.MM(g.Clearance)
	over, need := fact.MM(-g.Clearance), fact.MM(g.Need.Least)
	at := fact.New(AtPlace, fact.Count(g.N), g.Phase.Fact(), fact.MM(g.Tip))
	switch {
	case g.Bottom && g.Clearance < 0:
		return fact.New(RunsIntoBottom, part, size, over, name, at)
	case g.Bottom:
		return fact.New(NearBottom, part, size, room, name, need, at)
	case g.Axial:
		return fact.New(NearFace, part, size, room, name, need, at)
	case g.Clearance < 0:
		return fact.New(TooLarge, part, size, name, over, at)
	}
	return fact.New(LittleRoom, part, size, room, name, need, at)
}
