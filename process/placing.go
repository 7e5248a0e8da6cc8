package process

import (
	"borewright/process/fact"
	"borewright/process/field"
)

// OtherSlide is what a program does with the slide that does not feed along the bore.
type OtherSlide int

// What it does.
const (
	OtherUnsaid OtherSlide = iota // nothing is said of it
	OtherStated                   // the program states where it stands
	OtherPlaced                   // and moves it there before the first pass
)

func (o OtherSlide) String() string { return [...]string{"none", "stated", "placed"}[o] }

// Placing says what a program places before the first pass, beside the slide that feeds.
type Placing struct {
	OtherSlide OtherSlide
	TableWord  Letter // of the table's angle; 0: the program leaves the table alone
	TableAngle int    // degrees, at which the face of depth 0 looks at the spindle
}

// Describe says what the keys are; they stand among those of the control.
func (s *Placing) Describe(d *field.Desc) {
	field.Word(d, &s.OtherSlide, "other_slide", OtherUnsaid, OtherStated, OtherPlaced).Default("none").Example(`"placed"`).
		Says("on a mill whose table and quill both go along the bore, as Z and W: what the program does with the one that does not feed. stated: it says where this slide stands, which is where its zero is set. placed: it moves it there once besides, before the first pass, spindle stopped and the bar out of the work; a bar in an outboard support stays where it is").
		Weighs(SpoilsReach, "control, other slide")
	field.Word(d, &s.TableWord, "table_word", 'B').Example(`"B"`).
		Says("the letter of the table's angle, where the program is to turn the table: once, before the first pass, spindle stopped and the bar out of the work. Left out, the program leaves the table alone; a bar in an outboard support is never turned about").
		Weighs(SpoilsReach, "control, word of the table")
	d.Count(&s.TableAngle, "table_angle").Default("0").Span("0..359").Example("180").
		Says("with table_word: the angle at which the face that depths are counted from looks at the spindle, degrees; bores from the far face are cut with this angle half a turn on").
		Weighs(SpoilsReach, "control, angle of the table")
}

// OtherLetter is the letter of the slide along the bore that does not feed; 0: the
// machine lists none.
func (j *Job) OtherLetter() Letter {
	other := map[Letter]Letter{'Z': 'W', 'W': 'Z'}[j.FeedLetter()]
	for _, t := range j.Machine.Travels {
		if t.Axis == other {
			return other
		}
	}
	return 0
}

// OtherPlaced is the letter of the other slide where the program moves it to its zero; 0:
// it does not.
func (j *Job) OtherPlaced() Letter {
	if c := j.Machine.Control; c == nil || c.OtherSlide != OtherPlaced || j.Bar.Outboard != nil {
		return 0
	}
	return j.OtherLetter()
}

// What the zero of the other slide is.
const (
	QuillAtHome fact.Kind = "job.quill at home"
	QuillOutBy  fact.Kind = "job.quill out by" // how far out of the nose
	NoseFrom    fact.Kind = "job.nose from"    // how far in front of the face
)

// OtherStands is what the zero of the other slide is.
func (j *Job) OtherStands() fact.Fact {
	if j.Bar.FeedBy == QuillFeed {
		return fact.New(NoseFrom, fact.Figure(j.Bar.Standoff))
	}
	if out := j.QuillOut(); out > 0 {
		return fact.New(QuillOutBy, fact.Figure(out))
	}
	return fact.New(QuillAtHome)
}
