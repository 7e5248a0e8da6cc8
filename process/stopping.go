package process

import (
	"borewright/process/field"
	"borewright/process/qty"
)

// Stopping says how a program stops, where a machine needs more than M0, M5 and M19.
type Stopping struct {
	HoldOut      qty.Length // in front of the face, where the bore is measured; 0: at the clear plane
	OrientWord   Letter     // of the angle beside M19; 0: M19 stands alone
	OrientAngle  int        // degrees
	OrientSettle float64    // seconds of dwell after M19
	SpringAgain  Letter     // '/': a spring pass stands once more, in blocks that the block delete switch skips; 0: it does not
}

// Describe says what the keys are; they stand among those of the control. The angle of an
// oriented stop in S or R is common practice, no source.
func (s *Stopping) Describe(d *field.Desc) {
	d.Length(&s.HoldOut, "hold_out").Default("0").Span("0..200|0..5000").Example("12|300").
		Says("how far in front of the face the tip stands where the bore is measured, for gauge and hands: the stop after such a pass, and the one to set the cutter after it. 0: at the clear plane, as all stops; a bar in an outboard support stays at the clear plane").
		Weighs(SpoilsSetting, "control, hold level").ZeroIsNone()
	field.Word(d, &s.OrientWord, "orient_word", 'S', 'R').Example(`"S"`).Says("the letter of the angle beside M19; left out, M19 stands alone").Weighs(SpoilsSetting, "control, word of the oriented stop")
	d.Count(&s.OrientAngle, "orient_angle").Default("0").Span("0..359").Example("90").Says("the angle at which M19 stops the spindle, degrees; tip_at_stop says where the tip points then").
		Weighs(SpoilsSetting, "control, angle of the oriented stop")
	d.Number(&s.OrientSettle, "orient_settle", "s").Default("0").Span("0..60").Example("0.5").Says("dwell after M19, before the bar moves off the wall, for the spindle to come to rest; 0: none").ZeroIsNone()
	field.Word(d, &s.SpringAgain, "spring_again", '/').Example(`"/"`).
		Says("the program holds a measured spring pass once more behind its hold, with a stop to measure of its own, in blocks that begin with /: block delete on skips them, off takes them. An optional stop (M1) could not do it: it stops or does not, and leaves nothing out. Left out, it stands once").
		Weighs(SpoilsSetting, "control, spring pass once more")
}
